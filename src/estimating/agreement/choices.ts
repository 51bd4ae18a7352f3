/** The owner's choice among the options. A set of options is priced as a set, with what its members share; never summed. */

import { estimate, type Outcome } from "../estimate.js";
import type { Certainty, EstimateInput, WorkItem } from "../input.js";
import { isFixed } from "../pricing/quote.js";
import { behindOf } from "../resolve.js";
import type { GroupPrice, Sheet } from "../sheet.js";
import { same } from "./canonical.js";
import { heldTo, keepsPromises, withPromised } from "./promises.js";

/** An option's id on the sheet: its group, or the item alone. */
const optionOf = ({ id, certainty }: WorkItem): string | undefined =>
  certainty.is === "optional" ? (certainty.group ?? id) : undefined;

/** The input with exactly these options chosen, by their ids on the sheet. Ids it does not have change nothing; see `unknownChoices`. */
export function withChoices<I extends Pick<EstimateInput, "items">>(input: I, chosen: Iterable<string>): I {
  const wanted = new Set(chosen);
  return {
    ...input,
    items: input.items.map((item) => {
      const option = optionOf(item);
      if (option === undefined || item.certainty.is !== "optional") return item;
      return { ...item, certainty: { ...item.certainty, chosen: wanted.has(option) } };
    }),
  };
}

export function unknownChoices(input: EstimateInput, chosen: Iterable<string>): string[] {
  const known = new Set(input.items.map(optionOf));
  return [...new Set(chosen)].filter((id) => !known.has(id));
}

/** The input with work agreed in advance become planned: the groups 'if found' of these ids on the sheet. */
export function withFound(input: EstimateInput, found: Iterable<string>): EstimateInput {
  const wanted = new Set(found);
  const planned: Certainty = { is: "planned" };
  return {
    ...input,
    items: input.items.map((item) =>
      item.certainty.is === "if found" && wanted.has(item.certainty.group ?? item.id) ? { ...item, certainty: planned } : item,
    ),
  };
}

/**
 * The work of a next revision: what was agreed to in advance and was found since is planned in it. Where the price covers what may be found
 * (`isFixed`), it stays within that price as it is. `found`: ids of groups on the agreed sheet. The same list where nothing changes.
 */
export function afterFinding(
  items: readonly WorkItem[],
  agreed: Pick<EstimateInput, "items" | "policy">,
  found: readonly string[],
): readonly WorkItem[] {
  if (found.length === 0 || isFixed(agreed.policy)) return items;
  const necessary = new Set(itemsOf(agreed, found).map(({ id }) => id));
  const open = (item: WorkItem) => item.certainty.is === "if found" && necessary.has(item.id);
  return items.some(open) ? items.map((item) => (open(item) ? { ...item, certainty: { is: "planned" } } : item)) : items;
}

/** The other way round: what was planned for having been found, and was not after all (`gone`), is as possible as it was agreed to be. */
export function afterMistake(
  items: readonly WorkItem[],
  agreed: Pick<EstimateInput, "items" | "policy">,
  gone: readonly string[],
): readonly WorkItem[] {
  if (gone.length === 0 || isFixed(agreed.policy)) return items;
  const possible = new Map(itemsOf(agreed, gone).map(({ id, certainty }) => [id, certainty]));
  const again = ({ id, certainty }: WorkItem) => (certainty.is === "planned" ? possible.get(id) : undefined);
  return items.some(again) ? items.map((item) => ({ ...item, certainty: again(item) ?? item.certainty })) : items;
}

/** The possible work of these groups. */
export const itemsOf = ({ items }: Pick<EstimateInput, "items">, groups: readonly string[]): readonly WorkItem[] =>
  items.filter(({ id, certainty }) => certainty.is === "if found" && groups.includes(certainty.group ?? id));

/** The options chosen, and planned or possible work struck out. */
export interface AgreedSet {
  /** Ids of options on the sheet. */
  readonly chosen: readonly string[];
  /** Ids of work items. */
  readonly struck: readonly string[];
}

export interface PricedSet {
  readonly input: EstimateInput;
  readonly sheet: Sheet;
}

/** An id that the revision does not have, or that may not be left out. */
export interface UnknownInSet {
  readonly is: "unknown";
  readonly field: keyof AgreedSet;
  readonly id: string;
}

/**
 * What was agreed to, or is about to be: an issued revision with the options chosen and without what was struck out, priced as a whole.
 * `issued`: the sheet as it was issued, which is that of the set as long as the owner changes nothing.
 * `reckon`: the engine, or one that remembers what it said.
 */
export function pricedSet(
  input: EstimateInput,
  set: AgreedSet,
  issued?: Sheet,
  reckon: (input: EstimateInput) => Outcome = estimate,
): PricedSet | UnknownInSet {
  const unknown = unknownIn(input, set);
  if (unknown) return unknown;
  const agreed = agreedInput(input, set);
  if (issued && JSON.stringify(agreed.items) === JSON.stringify(input.items)) return { input, sheet: issued };
  const sheetOf = (work: EstimateInput): Sheet => {
    const outcome = reckon(work);
    if (!outcome.ok) throw new Error("An issued estimate without some of its work has problems.");
    return outcome.sheet;
  };
  const sheet = sheetOf(agreed);
  return {
    input: agreed,
    sheet: keepsPromises(input.rateBook) ? asPromised(input, set, agreed, sheet, issued, sheetOf) : sheet,
  };
}

/** Options the owner takes, and work that may be found beside them, at the prices they had before any of them was taken. */
function asPromised(
  input: EstimateInput,
  { chosen, struck }: AgreedSet,
  agreed: EstimateInput,
  sheet: Sheet,
  issued: Sheet | undefined,
  sheetOf: (input: EstimateInput) => Sheet,
): Sheet {
  const offered = new Set(input.items.flatMap((item) => (isChosen(item) ? [optionOf(item)!] : [])));
  const [taken, stay] = [chosen.filter((id) => !offered.has(id)), chosen.filter((id) => offered.has(id))];
  if (taken.length === 0) return sheet;
  const same = struck.length === 0 && new Set(stay).size === offered.size;
  const before = (same && issued) || sheetOf(agreedInput(input, { chosen: stay, struck }));
  const held = heldTo(sheet, withPromised(before.totals.total, before.options, taken), agreed.rateBook);
  const promised = new Map(before.ifFound.map((group) => [group.id, group]));
  const lower = (group: GroupPrice): GroupPrice => {
    const { price, net } = promised.get(group.id) ?? group;
    return price < group.price ? { ...group, price, net } : group;
  };
  return { ...held, ifFound: held.ifFound.map(lower) };
}

const isChosen = ({ certainty }: WorkItem): boolean => certainty.is === "optional" && certainty.chosen;

function agreedInput(input: EstimateInput, { chosen, struck }: AgreedSet): EstimateInput {
  const out = new Set(struck);
  const { items, ...rest } = withChoices(input, chosen);
  return { ...rest, items: items.filter((item) => !out.has(item.id) && !out.has(behindOf(item) ?? "")) };
}

/** Work that may be struck out: what is not an option. */
export const strikeable = ({ items }: Pick<EstimateInput, "items">) =>
  items.filter((item) => item.certainty.is !== "optional" && item.count > 0 && behindOf(item) === undefined);

function unknownIn(input: EstimateInput, { chosen, struck }: AgreedSet): UnknownInSet | undefined {
  const [choice] = unknownChoices(input, chosen);
  if (choice !== undefined) return { is: "unknown", field: "chosen", id: choice };
  const may = new Set(strikeable(input).map(({ id }) => id));
  const work = struck.find((id) => !may.has(id));
  return work === undefined ? undefined : { is: "unknown", field: "struck", id: work };
}

/** An answer to a revision, as the next one takes it. */
export interface AnswerSoFar extends AgreedSet {
  readonly revision: number;
  readonly declined: boolean;
}

/**
 * The work of the next revision: what the owner left out stays out, as an option that may be asked for again. Where a later revision was
 * declined, what was agreed before stands (`agreed`) and what it would have added is left out; a first one that was declined is offered
 * anew as it was.
 */
export function afterAnswer(
  items: readonly WorkItem[],
  { revision, declined, chosen, struck }: AnswerSoFar,
  agreed?: readonly WorkItem[],
): readonly WorkItem[] {
  const left = new Set(struck);
  if (!declined) {
    const answered = withChoices({ items }, chosen).items;
    return answered.map((item) => (left.has(item.id) ? leftOut(item, revision) : item));
  }
  if (!agreed) return items;
  const before = new Map(agreed.map((item) => [item.id, item]));
  const now = new Set(items.map(({ id }) => id));
  return [...items.map((item) => before.get(item.id) ?? leftOut(item, revision)), ...agreed.filter(({ id }) => !now.has(id))];
}

/**
 * A draft that was begun before the answer takes it as one begun after it would. `from`: the work it was begun with; `after`: the same as
 * it is answered. What the shop has said otherwise of its certainty since stays.
 */
export function draftAfterAnswer(
  draft: readonly WorkItem[],
  from: readonly WorkItem[],
  after: readonly WorkItem[],
): readonly WorkItem[] {
  const byId = (items: readonly WorkItem[]) => new Map(items.map((item) => [item.id, item]));
  const [was, now, has] = [byId(from), byId(after), byId(draft)];
  const taken = draft.map((item) => {
    const [old, next] = [was.get(item.id), now.get(item.id)];
    if (!old || !next || same(old, next) || !same(item.certainty, old.certainty)) return item;
    return same(item, old) ? next : { ...item, certainty: next.certainty };
  });
  const back = after.filter(({ id }) => !was.has(id) && !has.has(id));
  return back.length === 0 && taken.every((item, at) => item === draft[at]) ? draft : [...taken, ...back];
}

/** An option it was stays with its group; other work is left or taken by itself. */
function leftOut(item: WorkItem, refused: number): WorkItem {
  const was = item.certainty.is === "optional" ? item.certainty : undefined;
  return { ...item, certainty: { refused, ...was, is: "optional", chosen: false } };
}
