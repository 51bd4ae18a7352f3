/** Everything to put right, from the form and from the engine, in one list: each with its field where it has one. */
import type { Outcome } from "../../estimating/estimate.js";
import { problemIn } from "../../wording/problem.js";
import type { FormContext } from "./context.js";
import type { Draft } from "./draft.js";
import { assemblyRows } from "./names.js";
import { type FormProblem, formProblemText } from "./problemText.js";
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
    return { ...(field && { field }), text: problemIn(problem, context) };
  });
  const taken = new Set(own.map(({ field }) => field));
  return inPageOrder([...own, ...theirs.filter(({ field }) => field === undefined || !taken.has(field))], read);
}

/** What has no field stands last. */
function inPageOrder(complaints: readonly Complaint[], { fields }: Read): readonly Complaint[] {
  if (complaints.length < 2) return complaints;
  const places = new Map([...fields.keys()].map((name, index) => [name, index]));
  const place = ({ field }: Complaint) => (field === undefined ? undefined : places.get(field)) ?? places.size;
  return [...complaints].sort((a, b) => place(a) - place(b));
}

/** Where one link of the ring was typed. */
function inRing({ draft }: Read, ring: readonly string[]): string | undefined {
  const row = assemblyRows(draft).find(({ name, draft: { behind, joined } }) => ring.includes(name) && (behind || joined));
  return row && `assembly.${row.key}.${row.draft.behind ? "behind" : "joined"}`;
}

/** What a form must say before it can become a job, beyond what it must say to be priced: of which unit. Whose it is is asked before it is issued. */
export const missingForSaving = ({ unit }: Draft): readonly FormProblem[] =>
  unit.maker?.trim() || unit.model?.trim() ? [] : [{ name: "missing", field: "unit.model" }];
