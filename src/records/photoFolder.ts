/** Photos in a folder of this machine, one file each. */
import { mkdir, open, readFile, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import { troubleOf } from "./fileTrouble.js";
import { type PhotoStore, photoName } from "./photoStore.js";

export function photoFolder(folder: string): PhotoStore {
  const path = (id: string) => join(folder, photoName(id));
  let trouble: string | undefined;
  return {
    /** On the disk, whole, before it is answered: a half-written file never takes the photo's name. */
    put: async (id, bytes) => {
      await mkdir(folder, { recursive: true });
      const part = `${path(id)}.part`;
      try {
        const file = await open(part, "w");
        try {
          await file.writeFile(bytes);
          await file.sync();
        } finally {
          await file.close();
        }
        await rename(part, path(id));
        trouble = undefined;
      } catch (error) {
        trouble = troubleOf(error);
        await rm(part, { force: true }).catch(() => undefined);
        throw error;
      }
    },
    get: async (id) => {
      try {
        return new Uint8Array(await readFile(path(id)));
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
        throw error;
      }
    },
    remove: (id) => rm(path(id), { force: true }),
    trouble: () => trouble,
  };
}
