import type { Problem } from "./problems.js";
import type { Sheet } from "./sheet.js";

/** A sheet, or the named problems together with the sheet of what could still be computed without the offending items. */
export type Outcome =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly problems: readonly Problem[]; readonly partial?: Sheet };
