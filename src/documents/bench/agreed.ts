import { estimate } from "../../estimating/estimate.js";
import type { Minor, WorkItem } from "../../estimating/input.js";
import type { Unagreed } from "../../estimating/problems.js";
import type { Line, Sheet, Source } from "../../estimating/sheet.js";
import { type Answered, answeredText, unagreedText } from "../../wording/agreement.js";
import { counted } from "../../wording/list.js";
import type { Subject } from "../estimate/subject.js";
import type { Block, RowMark } from "../layout/block.js";

export interface BenchOptions {
  /** Work items that no agreement covers, by id or with the reason. */
  readonly unagreed?: readonly (string | Unagreed)[] | undefined;
  /** Work found since the first revision that was issued: item -> the revision it came with. */
  readonly foundIn?: ReadonlyMap<string, number> | undefined;
  /** The answer that stands, and what may not be passed on it, tax included: the sheet's ceiling unless given. */
  readonly agreed?: (Answered & { readonly revision?: number; readonly limit?: Minor }) | undefined;
}

/** How far the work on the bench is agreed. */
export interface Agreed {
  /** Why each item that is not agreed is not, by id. */
  readonly unagreed: ReadonlyMap<string, string>;
  /** What is agreed, alone; undefined where all of it is. */
  readonly alone?: Sheet;
  /** Assemblies that come off for agreed work, by id; undefined where all do. */
  readonly opens?: ReadonlySet<string>;
  readonly answer?: NonNullable<BenchOptions["agreed"]>;
  readonly foundIn: ReadonlyMap<string, number>;
}

const SIGN = "\u00d7\u00a0";
const NOT_AGREED = "Not agreed.";

export function agreedOf(subject: Subject, { unagreed = [], agreed: answer, foundIn = new Map() }: BenchOptions): Agreed {
  const given = new Map(
    unagreed.map((item): [string, string] => (typeof item === "string" ? [item, NOT_AGREED] : [item.id, unagreedText(item.why)])),
  );
  const items = subject.input.items.filter((item) => given.has(item.id) && isOnTheBench(item));
  return {
    unagreed: new Map(items.map(({ id }) => [id, given.get(id)!])),
    ...(items.length > 0 && aloneWithout(given, subject)),
    ...(answer && { answer }),
    foundIn,
  };
}

/** Why an item is done, and that it was found since. */
export function whyDone({ foundIn }: Agreed, item: string | undefined, reason: string | undefined): { readonly note?: string } {
  const revision = item === undefined ? undefined : foundIn.get(item);
  const note = [...(revision === undefined ? [] : [`Extra fault, revision ${revision}.`]), ...(reason ? [reason] : [])].join(" ");
  return note === "" ? {} : { note };
}

/** An option that is left is not on the sheet. */
const isOnTheBench = ({ count, certainty }: WorkItem): boolean => count > 0 && (certainty.is !== "optional" || certainty.chosen);

/** The agreed work alone, and what has to come off for it. */
function aloneWithout(unagreed: ReadonlyMap<string, string>, { input }: Subject): Pick<Agreed, "alone" | "opens"> {
  const agreed = estimate({ ...input, items: input.items.filter(({ id }) => !unagreed.has(id)) });
  if (!agreed.ok) return { opens: new Set() };
  return { alone: agreed.sheet, opens: new Set(agreed.sheet.access.removal.map(({ id }) => id)) };
}

/** Who agreed to what. */
export function agreementOf({ answer }: Agreed, { tongue }: Subject): string | undefined {
  if (!answer) return undefined;
  const what = answer.revision === undefined ? "" : `revision ${answer.revision}: `;
  return `${what}${answeredText(answer, tongue.locale)}`;
}

/** What must wait: said before any work. */
export function notAgreed({ unagreed }: Agreed): Block[] {
  if (unagreed.size === 0) return [];
  const items = `${counted(unagreed.size, "work item")} ${unagreed.size === 1 ? "is" : "are"} not agreed and marked ${SIGN}below.`;
  const isLeftOut = [...unagreed.values()].every((why) => why.includes("left it out"));
  const last = `${items} Leave that work, its parts and what only it opens${isLeftOut ? "" : " until the owner has answered"}.`;
  return [{ is: "cautions", title: "Stop: not all of this is agreed", cautions: [], last }];
}

export const markOfItems = ({ unagreed }: Agreed, items: readonly string[]): { readonly mark?: RowMark } => {
  const [first, ...more] = new Set(items.flatMap((id) => unagreed.get(id) ?? []));
  if (first === undefined) return {};
  return caution(more.length === 0 ? first : NOT_AGREED);
};

export const markOfLine = (agreed: Agreed, { from }: Line) => markOfItems(agreed, itemsIn(from));

/** A part is for every item that its lines name. */
export function markOfPart(agreed: Agreed, { type, kind }: { type: string; kind?: string }, { sheet }: Subject) {
  const lines = sheet.lines.filter(({ sort, part }) => sort === "part" && part?.type === type && part.kind === kind);
  const items = lines.flatMap(({ from }) => itemsIn(from));
  if (!items.some((id) => agreed.unagreed.has(id))) return {};
  return caution(
    items.every((id) => agreed.unagreed.has(id)) ? "Not agreed: do not order." : "In part for work that is not agreed.",
  );
}

export const isLeftIn =
  ({ opens }: Agreed) =>
  (id: string): boolean =>
    opens !== undefined && !opens.has(id);

export const markOfAssembly = (agreed: Agreed, id: string): { readonly mark?: RowMark } =>
  isLeftIn(agreed)(id) ? caution("Leave it in: it only comes off for work that is not agreed.") : {};

const itemsIn = (from: readonly Source[]): string[] => from.flatMap((source) => (source.is === "item" ? [source.id] : []));
const caution = (text: string) => ({ mark: { text: `${SIGN}${text}`, caution: true } });
