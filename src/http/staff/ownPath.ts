/** A path of this site and nothing else: never another host. */
export function ownPath(to: unknown): string {
  if (typeof to !== "string" || !/^\/(?![/\\])/.test(to)) return "/";
  const at = new URL(to, "http://here.invalid");
  return at.host === "here.invalid" ? at.pathname + at.search : "/";
}
