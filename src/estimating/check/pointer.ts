/** JSON pointers, RFC 6901. */
export const pointer = (...tokens: readonly (string | number)[]): string =>
  tokens.map((token) => `/${String(token).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");

export const tokens = (of: string): string[] =>
  of
    .split("/")
    .slice(1)
    .map((token) => token.replaceAll("~1", "/").replaceAll("~0", "~"));
