/** A path of this site and nothing else: never another host, also when the dots in it are resolved ('/..//other.example'). */
export function ownPath(to: unknown): string {
  if (typeof to !== "string" || !to.startsWith("/") || !URL.canParse(to, HERE)) return "/";
  const { origin, pathname, search } = new URL(to, HERE);
  return origin === HERE && !pathname.startsWith("//") ? pathname + search : "/";
}

const HERE = "http://here.invalid";
