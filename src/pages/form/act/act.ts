/**
 * What a button of the form does to its fields: the same function behind the button with script off (on the server) and with
 * script on (in the browser). An intent is `verb` or `verb:key`. Removing keeps what was removed, to be put back.
 */
import type { FormContext } from "../context.js";
import type { Fields } from "../fields.js";
import { clearCounts, refine, takeUsualCounts } from "./counts.js";
import { type Acted, addAssembly, addFit, addLine, addWorth, putBack, remove, repeatLine, settleNames } from "./rows.js";

export function act(intent: string, fields: Fields, context: FormContext): Acted {
  const [verb = "", ...rest] = intent.split(":");
  const key = rest.join(":");
  const settled = settleNames(fields);
  switch (verb) {
    case "add assembly":
      return addAssembly(settled);
    case "add line":
      return addLine(settled, key);
    case "add fit":
      return addFit(settled);
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
