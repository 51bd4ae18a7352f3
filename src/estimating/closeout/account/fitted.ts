/** Parts as an account tells them: what was really used, and in all as many pieces as are charged. */
import { readBook } from "../../book.js";
import { isCharged } from "../../labour/groups.js";
import { partOf, resolve } from "../../resolve.js";
import type { Line } from "../../sheet.js";
import { type PartsDone, partKey } from "../actual/partsDone.js";
import { partName } from "../actual/workDone.js";
import type { ChargedRevision } from "../jobDone.js";
import type { PartState } from "../log/workLog.js";
import type { AccountTerms } from "./terms.js";

export interface PartFitted {
  readonly part: NonNullable<Line["part"]>;
  readonly state: PartState;
  readonly count: number;
}

export interface PartTold extends PartFitted {
  /** What was agreed, where another stood in for it. */
  readonly insteadOf?: NonNullable<Line["part"]>;
  /** Used up beyond what a fixed price charges. */
  readonly beyond?: true;
}

/** As logged. */
export const partsFitted = (parts: readonly PartsDone[]): PartFitted[] =>
  merged(
    parts.flatMap(({ agreed, used, line }) =>
      agreed ? used.map(({ state, count }) => ({ part: line.part!, state, count })) : [],
    ),
  );

/**
 * The same with what each piece stands in for. A fixed price charges the pieces of its work: one nobody logged was got as planned, one
 * used up beyond them is told apart. Time and parts charge what was logged.
 */
export function partsTold(
  basis: AccountTerms["basis"],
  parts: readonly PartsDone[],
  { input, sheet }: ChargedRevision,
): PartTold[] {
  const needed = neededBy(input);
  const rows: PartTold[] = [];
  for (const { agreed, as, used, line } of parts)
    for (const { state, count, insteadOf } of agreed ? used : []) {
      const part = line.part!;
      const need = needed.get(as);
      const charged = basis === "fixed price" ? Math.min(count, need?.left ?? 0) : count;
      const row = { part, state, ...(insteadOf && need && partKey(part) !== as && { insteadOf: need.part }) };
      if (need) need.left -= charged;
      if (charged > 0) rows.push({ ...row, count: charged });
      if (charged < count) rows.push({ ...row, count: count - charged, beyond: true });
    }
  if (basis === "fixed price")
    for (const [key, { part, left }] of needed)
      for (const [state, count] of asPlanned(key, left, input, sheet)) rows.push({ part, state, count });
  return merged(rows);
}

function neededBy(input: ChargedRevision["input"]) {
  const book = readBook(input);
  const needed = new Map<string, { part: PartTold["part"]; left: number }>();
  for (const item of resolve(input).items) {
    const taken = isCharged({ item }) ? partOf(item) : undefined;
    if (!taken) continue;
    const part = partName(taken, book);
    const before = needed.get(partKey(part));
    needed.set(partKey(part), { part, left: item.count + (before?.left ?? 0) });
  }
  return needed;
}

/** By the offers that the sheet's lines of the part are priced from, the last pieces first: those logged came before. */
function* asPlanned(
  key: string,
  pieces: number,
  input: ChargedRevision["input"],
  { lines, behind = [] }: ChargedRevision["sheet"],
): Generator<readonly [PartState, number]> {
  const offers = new Map((resolve(input).offers ?? []).map(({ id, state }) => [id, state]));
  let left = pieces;
  for (const { count = 0, from } of [...lines, ...behind]
    .filter((line) => line.sort === "part" && partKey(line.part!) === key)
    .reverse()) {
    const taken = Math.min(left, count);
    const state = from.flatMap((source) => (source.is === "offer" ? (offers.get(source.id) ?? []) : []))[0];
    if (taken > 0) yield [state ?? "new", taken];
    left -= taken;
  }
  if (left > 0) yield ["new", left];
}

/** Rows that differ in nothing but their count are one. */
function merged<Row extends PartFitted>(rows: Iterable<Row>): Row[] {
  const each = new Map<string, Row>();
  for (const row of rows) {
    const key = JSON.stringify({ ...row, count: 0 });
    each.set(key, { ...row, count: row.count + (each.get(key)?.count ?? 0) });
  }
  return [...each.values()];
}
