import { type ChangeList, changesBetween, marksOf } from "../../estimating/agreement/changeList.js";
import type { Revision, RowChange } from "../../estimating/agreement/rowChanges.js";
import type { IsoDate, Minor } from "../../estimating/input.js";
import { signedMark } from "../../wording/change.js";
import type { Words } from "../../wording/english/index.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import type { RowMark } from "../layout/block.js";
import { oneLine } from "../type/shape.js";

/** The revision that a document replaces, as it was issued. */
export interface Earlier extends Revision {
  readonly number?: string | undefined;
  readonly revision?: number | undefined;
  readonly date?: IsoDate | undefined;
  /** On the whole job, by the time this one is printed. */
  readonly paid?: Minor | undefined;
  /** Work began on a deposit that was paid: what this one adds to it is owed with the balance. */
  readonly begun?: boolean | undefined;
  /** Work whose parts are in place by then. */
  readonly fitted?: readonly string[] | undefined;
}

export interface Changes {
  readonly earlier: Earlier;
  /** Absent where the two are in different currencies. */
  readonly list?: ChangeList;
  /** By row of the later sheet. */
  readonly marks: ReturnType<typeof marksOf>;
}

const UNMARKED: Changes["marks"] = { line: new Map(), adjustment: new Map(), option: new Map(), "if found": new Map() };

export function changesSince(earlier: Earlier, now: Revision): Changes {
  const list = changesBetween(earlier, now);
  return list ? { earlier, list, marks: marksOf(list) } : { earlier, marks: UNMARKED };
}

/** What stands beside a row that changed. */
export function markOf(
  { changes, tongue }: { readonly changes?: Changes; readonly tongue: Tongue },
  is: RowChange["is"],
  id: string,
): { readonly mark?: RowMark } {
  const mark = changes?.marks[is].get(id);
  return mark ? { mark: { text: signedMark(mark, tongue) } } : {};
}

/** 'revision 1', as far as it is known. */
const earlierName = ({ number, revision }: Earlier, { paper: { head } }: Words): string =>
  revision === undefined ? (number && oneLine(number)) || head.theOneBefore : head.revision(revision);

/** 'revision 1 as agreed', where that is what the figures are of. */
export function comparedName(earlier: Earlier, words: Words): string {
  const name = earlierName(earlier, words);
  return earlier.agreed ? words.paper.head.asAgreed(name) : name;
}

/** 'revision 1 of 25 November 2026'. */
export function earlierNameAndDay(
  earlier: Earlier,
  { tongue, words }: { readonly tongue: Tongue; readonly words: Words },
): string {
  const name = earlierName(earlier, words);
  return earlier.date === undefined ? name : words.paper.head.revisionOf(name, day(earlier.date, tongue.locale));
}
