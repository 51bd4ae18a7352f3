/** Where a figure stands: in words a technician reads, and as a JSON pointer (RFC 6901). Both are made only when something is wrong. */
export interface Spot {
  readonly words: () => string;
  readonly within?: Spot | undefined;
  readonly tokens: readonly (string | number)[];
}

export const spot = (words: () => string, ...tokens: readonly (string | number)[]): Spot => ({ words, tokens });

/** Deeper in the same place; `words` when it needs words of its own. */
export const inside = (within: Spot, tokens: readonly (string | number)[], words: () => string = within.words): Spot => ({
  words,
  within,
  tokens,
});

/** Deeper, and what stands there, such as 'price'. */
export const part = (within: Spot, what: string, ...tokens: readonly (string | number)[]): Spot =>
  inside(within, tokens, () => `${within.words()}, ${what}`);

export const found = (at: Spot): { readonly where: string; readonly pointer: string } => ({
  where: at.words(),
  pointer: pointerTo(at),
});

export function pointerTo({ within, tokens }: Spot): string {
  const here = tokens.map((token) => `/${String(token).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
  return within ? pointerTo(within) + here : here;
}

export const tokensOf = (pointer: string): string[] =>
  pointer
    .split("/")
    .slice(1)
    .map((token) => token.replaceAll("~1", "/").replaceAll("~0", "~"));
