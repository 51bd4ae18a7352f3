/** What a form must say before it can become a job, beyond what it must say to be priced. */
import type { Draft } from "./draft.js";
import type { FormProblem } from "./problem.js";

export const missingForSaving = ({ owner, unit }: Draft): readonly FormProblem[] =>
  [
    ["owner.name", owner.name],
    ["unit.maker", unit.maker],
    ["unit.model", unit.model],
  ].flatMap(([field, text]) => (text?.trim() ? [] : [{ name: "missing" as const, field: field! }]));
