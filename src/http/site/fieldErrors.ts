/** What is wrong with an entry, beside the field of the form it stands in; without one, at the top. */
import type { EntryRefused } from "../../records/logRefusal.js";
import { problemText } from "../../wording/problem.js";

/** `names`: key of the entry -> field. */
export function fieldErrors({ problems }: EntryRefused, names: Readonly<Record<string, string>>): Map<string, string> {
  const errors = new Map<string, string>();
  for (const problem of problems) {
    const field = names[problem.pointer.slice(1)] ?? "";
    errors.set(field, [errors.get(field) ?? "", problemText(problem)].join(" ").trim());
  }
  return errors;
}
