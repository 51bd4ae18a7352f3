import type { AccessResult, Why } from "../sheet.js";

/** What comes off and goes back where some of it stays in: no step names what is left in, and nothing of it goes back. */
export function withLeftIn(
  { removal, refit }: Pick<AccessResult, "removal" | "refit">,
  isLeft: (assembly: string) => boolean,
): Pick<AccessResult, "removal" | "refit"> {
  const opened = new Set(removal.flatMap(({ id, name }) => (isLeft(id) ? [] : [name])));
  const left = new Set(removal.flatMap(({ id, name }) => (isLeft(id) && !opened.has(name) ? [name] : [])));
  const out = (names: readonly string[]) => names.filter((name) => !left.has(name));
  const told = (why: Why): Why[] => {
    if (why.rule !== "in the way of") return [why];
    const of = out(why.of);
    return of.length > 0 ? [{ ...why, of }] : [];
  };
  return {
    removal: removal.map((step) => ({ ...step, why: step.why.flatMap(told) })),
    refit: refit.filter(({ id }) => !isLeft(id)).map((step) => ({ ...step, after: out(step.after) })),
  };
}
