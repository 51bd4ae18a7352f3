/** What was taken from earlier jobs of the model, and what each count rests on. */

import { capital } from "../../wording/list.js";
import { columnsOf } from "../form/context.js";
import { idOf, key } from "../form/fields.js";
import { assemblyName } from "../form/label.js";
import type { IntakeView } from "./view.js";

interface Suggestion {
  readonly field: string;
  readonly about: string;
  readonly text: string;
  readonly kept: boolean;
}

/** The cell still holds what was suggested. */
export const isSuggested = (view: IntakeView, row: string, column: string): boolean => {
  const basis = view.fields.get(`earlier.${row}.${key(column)}`);
  return basis !== undefined && basis.split(" ")[0] === view.fields.get(`cells.${row}.${key(column)}`)?.trim();
};

export const EarlierPart = ({ view }: { view: IntakeView }) => {
  const found = suggestionsOf(view);
  return found.length === 0 ? null : (
    <details class="fold" id="earlier" open>
      <summary>Suggested from earlier jobs ({found.length})</summary>
      <p class="hint">
        The median of the jobs that had it. Framed with dashes in the grid until you change it; nothing here is on record before
        you save.
      </p>
      <ul>
        {found.map(({ field, about, text, kept }) => (
          <li>
            <a href={`#${encodeURI(about)}`}>{text}</a>
            {kept ? "" : ", changed since"}
            <input type="hidden" name={field} value={view.fields.get(field)} />
          </li>
        ))}
      </ul>
    </details>
  );
};

function suggestionsOf({ fields, read, context }: IntakeView): readonly Suggestion[] {
  const columns = columnsOf(context.rateBook);
  return [...fields].flatMap(([field, basis]): Suggestion[] => {
    const [head, row = "", column = ""] = field.split(".");
    const [count = "", least, most, jobs, of] = basis.split(" ");
    if (head !== "earlier" || of === undefined) return [];
    const isLine = column === "line";
    const about = isLine ? `line.${row}.count` : `cells.${row}.${column}`;
    const now = fields.get(about)?.trim();
    if (now === undefined) return [];
    const line = read.draft.line[row];
    const what = isLine ? line?.operation : columns.find(({ id }) => id === idOf(column))?.name;
    const where = isLine ? line?.assembly || "whole unit" : assemblyName(row, read.draft);
    const range = jobs === "1" ? "" : least === most ? "the same in each; " : `${least} to ${most}; `;
    return [
      {
        field,
        about,
        text: `${capital(where)}, ${what}: ${count} (${range}${jobs} of ${of} ${of === "1" ? "job" : "jobs"})`,
        kept: now === count,
      },
    ];
  });
}
