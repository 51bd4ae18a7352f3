/** 'a', 'a and b', 'a, b and c'. */
export function listed(names: readonly string[], last = "and"): string {
  if (names.length < 2) return names[0] ?? "";
  return `${names.slice(0, -1).join(", ")} ${last} ${names.at(-1)}`;
}

/** The first dozen, and how many more. */
export function listedShort(names: readonly string[], most = 12, { and, more } = { and: "and", more: "more" }): string {
  if (names.length <= most) return listed(names, and);
  return `${names.slice(0, most).join(", ")} ${and} ${names.length - most} ${more}`;
}

/** '1 board', '3 boards'. */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
