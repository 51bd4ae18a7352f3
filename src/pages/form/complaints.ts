/** Everything to put right, from the form and from the engine, in one list: each with its field where it has one. */
import type { Outcome } from "../../estimating/outcome.js";
import { problemText } from "../../wording/index.js";
import type { FormContext } from "./context.js";
import { assemblyRows } from "./names.js";
import { formProblemText } from "./problemText.js";
import type { Read } from "./readForm.js";

export interface Complaint {
  readonly field?: string;
  readonly text: string;
}

export function complaintsOf(read: Read, outcome: Outcome, context: FormContext): readonly Complaint[] {
  const own = read.problems.map((problem) => ({ field: problem.field, text: formProblemText(problem, read.draft, context) }));
  const engine = outcome.ok ? [] : outcome.problems;
  const theirs = engine.map((problem): Complaint => {
    const field = problem.name === "behind cycle" ? inRing(read, problem.cycle) : read.fieldAt(problem.pointer);
    return { ...(field && { field }), text: problemText(problem) };
  });
  const taken = new Set(own.map(({ field }) => field));
  return [...own, ...theirs.filter(({ field }) => field === undefined || !taken.has(field))];
}

/** Where one link of the ring was typed. */
function inRing({ draft }: Read, ring: readonly string[]): string | undefined {
  const row = assemblyRows(draft).find(({ name, draft: { behind, joined } }) => ring.includes(name) && (behind || joined));
  return row && `assembly.${row.key}.${row.draft.behind ? "behind" : "joined"}`;
}
