/**
 * What a button of the form does to its fields: the same function behind the button with script off (on the server) and with
 * script on (in the browser). An intent is `verb` or `verb:key`. Removing keeps what was removed, to be put back.
 */
import { columnsOf, type FormContext } from "../context.js";
import { type Fields, key as keyOf } from "../fields.js";
import { opened } from "../open.js";
import { clearCounts, refine, takeUsualCounts } from "./counts.js";
import {
  type Acted,
  addAssembly,
  addFit,
  addLine,
  addWorth,
  addWorthDoing,
  asLine,
  moveLine,
  putBack,
  remove,
  repeatLine,
  settleNames,
  take,
} from "./rows.js";
import { addList, addNext, rowAt } from "./typed.js";

/** `cell`: row and column of the grid, parted by a point. */
function cellName(cell: string, { rateBook }: FormContext): string {
  const column = columnsOf(rateBook).find(({ id }) => keyOf(id) === cell.slice(cell.indexOf(".") + 1));
  return column ? `the count of ${column.name}` : "the count";
}

/** What was just added can be taken out again until something else is done. */
const STAYS = /^(open|close|see|lines from|recalculate)$/;

export function act(intent: string, fields: Fields, context: FormContext): Acted {
  const [verb = "", ...rest] = intent.split(":");
  const key = rest.join(":");
  const settled = settleNames(fields);
  if (!STAYS.test(verb)) settled.delete("meta.added");
  switch (verb) {
    case "add assembly":
      return addAssembly(settled);
    case "add line":
      if (key === "" && settled.get("next.what")?.trim()) return addNext(settled, context);
      return addLine(settled, key, key === "" ? settled.get(`assembly.${rowAt(settled)}.name`)?.trim() : "");
    case "add lines":
      return addList(settled, context);
    case "raise line":
      return moveLine(settled, key, -1);
    case "lower line":
      return moveLine(settled, key, 1);
    case "as line":
      return asLine(settled, key, context);
    case "remove cell":
      return take(settled, (name) => name === `cells.${key}` || name === `cellIds.${key}`, cellName(key, context));
    case "open":
      return { fields: opened(settled, key), focus: `part-${key}` };
    case "close":
      return { fields: opened(settled, key, false) };
    case "see":
      return { fields: seeing(settled, key) };
    case "lines from":
      return { fields: settled.set("meta.from", key) };
    case "add fit":
      return addFit(settled);
    case "add worth doing":
      return addWorthDoing(settled, key, context);
    case "add worth":
      return addWorth(settled);
    case "repeat line":
      return repeatLine(settled, key);
    case "remove assembly":
    case "remove line":
    case "remove fit":
    case "remove worth":
      return remove(settled, verb.slice(7), key);
    case "put back":
      return putBack(settled);
    case "clear counts":
      return clearCounts(settled);
    case "usual counts":
      return takeUsualCounts(settled);
    case "refine":
      return refine(settled, context);
    default:
      return { fields: settled };
  }
}

/** The assembly whose lines are drawn; none: the first that has any. */
function seeing(fields: Map<string, string>, row: string): Map<string, string> {
  fields.delete("meta.from");
  if (row === "") fields.delete("meta.at");
  else fields.set("meta.at", row);
  return fields;
}
