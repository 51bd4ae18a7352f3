/* Loaded before libc (LD_PRELOAD): lets the n-th write, sync or cut of the files of one folder fail, fall short, or be the last thing
   its process does. What is wanted, and what was done, stands in a file that both sides see. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

enum { NOTHING, FAILS_ONCE, FAILS_ON, FULL, CUT_SHORT, READ_ONLY, KILLED_AFTER, KILLED_HALFWAY };
struct control { int32_t at, how, made, failed; };

static struct control none;
static volatile struct control *control = &none;
static const char *folder = "";

__attribute__((constructor)) static void begin(void) {
  const char *file = getenv("FAILING_CONTROL"), *of = getenv("FAILING_FOLDER");
  int fd = file && of ? open(file, O_RDWR) : -1;
  if (fd < 0) return;
  void *mapped = mmap(NULL, sizeof(struct control), PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);
  if (mapped == MAP_FAILED) return;
  folder = of;
  control = mapped;
}

static int ours(int fd) {
  char link[64], path[PATH_MAX + 1];
  if (!*folder) return 0;
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  ssize_t length = readlink(link, path, PATH_MAX);
  if (length < 0) return 0;
  path[length] = 0;
  return strncmp(path, folder, strlen(folder)) == 0;
}

enum kind { WRITE, SYNC, CUT };

static void die(void) { kill(getpid(), SIGKILL); for (;;) pause(); }

/* Of a disk that is full, what does not grow goes through. -1: errno is set; else how many of the bytes to write, and in `after` whether to die then. */
static ssize_t may(int fd, enum kind kind, size_t bytes, off_t at, int *after) {
  *after = 0;
  if (!ours(fd)) return bytes;
  int nth = __sync_add_and_fetch(&control->made, 1);
  int how = control->how, due = control->at;
  if (how == NOTHING || due == 0 || nth < due) return bytes;
  struct stat now;
  int grows = kind == WRITE && (fstat(fd, &now) || (at < 0 ? lseek(fd, 0, SEEK_CUR) : at) + (off_t)bytes > now.st_size);
  int error = 0;
  if (how == FAILS_ONCE) error = nth == due ? EIO : 0;
  else if (how == FAILS_ON) error = EIO;
  else if (how == READ_ONLY) error = EROFS;
  else if (how == FULL) error = grows ? ENOSPC : 0;
  else if (how == CUT_SHORT && nth == due && kind == WRITE && bytes > 1) { control->failed++; return bytes / 2; }
  else if (how == CUT_SHORT) error = grows || nth == due ? ENOSPC : 0;
  else if (nth == due) {
    control->failed++;
    *after = 1;
    return how == KILLED_HALFWAY ? bytes / 2 : bytes;
  }
  if (!error) return bytes;
  control->failed++;
  errno = error;
  return -1;
}

#define REAL(name) static __typeof__(name) *real; if (!real) real = (__typeof__(name) *)dlsym(RTLD_NEXT, #name)
#define WRITES(name, parameters, kind, bytes, offset, done) \
  parameters { \
    REAL(name); \
    int after; \
    ssize_t most = may(fd, kind, bytes, offset, &after); \
    if (most < 0) return -1; \
    __typeof__(done) answer = done; \
    if (after) die(); \
    return answer; \
  }

WRITES(write, ssize_t write(int fd, const void *from, size_t n), WRITE, n, -1, real(fd, from, most))
WRITES(pwrite, ssize_t pwrite(int fd, const void *from, size_t n, off_t at), WRITE, n, at, real(fd, from, most, at))
WRITES(pwrite64, ssize_t pwrite64(int fd, const void *from, size_t n, off64_t at), WRITE, n, at, real(fd, from, most, at))
/* Of several pieces a short write is the first. */
WRITES(writev, ssize_t writev(int fd, const struct iovec *from, int n), WRITE, (size_t)n, -1, real(fd, from, most > 0 ? most : 1))
WRITES(pwritev, ssize_t pwritev(int fd, const struct iovec *from, int n, off_t at), WRITE, (size_t)n, at, real(fd, from, most > 0 ? most : 1, at))
WRITES(pwritev64, ssize_t pwritev64(int fd, const struct iovec *from, int n, off64_t at), WRITE, (size_t)n, at, real(fd, from, most > 0 ? most : 1, at))
WRITES(fsync, int fsync(int fd), SYNC, 0, 0, real(fd))
WRITES(fdatasync, int fdatasync(int fd), SYNC, 0, 0, real(fd))
WRITES(ftruncate, int ftruncate(int fd, off_t to), CUT, 0, 0, real(fd, to))
WRITES(ftruncate64, int ftruncate64(int fd, off64_t to), CUT, 0, 0, real(fd, to))

/* A folder that nobody may write to: nothing there is opened for it. */
static int shut(const char *path, int flags) {
  if (control->how != READ_ONLY || !control->at || control->made + 1 < control->at) return 0;
  if (!(flags & (O_WRONLY | O_RDWR | O_CREAT)) || strncmp(path, folder, strlen(folder))) return 0;
  control->failed++;
  errno = EROFS;
  return 1;
}
#define OPENS(name) \
  int name(const char *path, int flags, ...) { \
    REAL(name); \
    va_list more; \
    va_start(more, flags); \
    mode_t mode = va_arg(more, mode_t); \
    va_end(more); \
    return shut(path, flags) ? -1 : real(path, flags, mode); \
  }
OPENS(open)
OPENS(open64)
