/** The two halves of a labour or parts variance, in whole minor units; they sum to actual less allowed. Access and labour are held against them line by line. */
import type { EstimateInput, Minor } from "../../input.js";
import { divide } from "../../money/rounding.js";
import { fromMilli, priceMilli, toMilli } from "../../money/scales.js";
import type { Line } from "../../sheet.js";
import { amountDone, milliDone, type WorkDone } from "../actual/workDone.js";
import type { Charged } from "../jobDone.js";
import { CATEGORY_OF, figures, type Row } from "./row.js";

interface AllowedTime {
  readonly amount: Minor;
  /** Minor units per hour. */
  readonly rate: Minor;
}

interface ActualTime {
  readonly amount: Minor;
  /** Thousandths of a minute. */
  readonly milli: number;
}

/** rate = (AR - SR) AH, efficiency = (AH - SH) SR: the efficiency is valued at the standard rate, never at the actual one. */
export function labourVariance(allowed: AllowedTime, actual: ActualTime): { readonly rate: Minor; readonly efficiency: Minor } {
  const flexed = priceMilli(actual.milli, allowed.rate);
  return { rate: actual.amount - flexed, efficiency: flexed - allowed.amount };
}

export interface AllowedPieces {
  readonly amount: Minor;
  readonly pieces: number;
  /** Ten-thousandths of a minor unit for all pieces together, before the rounding of `amount`. */
  readonly worthE4: bigint;
}

interface ActualPieces {
  readonly amount: Minor;
  readonly pieces: number;
}

/** price = (AP - SP) AQ, usage = (AQ - SQ) SP. Where no piece was allowed there is no standard price, and all of it is usage. */
export function partsVariance(
  allowed: AllowedPieces,
  actual: ActualPieces,
): { readonly price: Minor; readonly usage: Minor; readonly flexed: Minor } {
  const flexed =
    actual.pieces === allowed.pieces
      ? allowed.amount
      : allowed.pieces === 0
        ? actual.amount
        : divide(BigInt(actual.pieces) * allowed.worthE4, BigInt(allowed.pieces) * 10_000n);
  return { price: actual.amount - flexed, usage: flexed - allowed.amount, flexed };
}

export interface Sheets {
  readonly quoted: Charged;
  readonly agreed: Charged;
  readonly allowed: Charged;
}

/** Access and labour, in the allowed sheet's order, then what only earlier sheets or the log have. */
export function labourRows(sheets: Sheets, work: readonly WorkDone[], { rateBook }: Pick<EstimateInput, "rateBook">): Row[] {
  const timed = ({ lines, behind = [] }: Charged) =>
    new Map(
      [...lines, ...behind]
        .filter(({ sort }) => CATEGORY_OF[sort] === "access" || CATEGORY_OF[sort] === "labour")
        .map((line) => [line.id, line]),
    );
  const [quoted, agreed, allowed] = [timed(sheets.quoted), timed(sheets.agreed), timed(sheets.allowed)];
  const done = new Map(work.filter((each) => each.agreed).map((each) => [each.line.id, each]));
  const rateOf = (line: Line): Minor => rateBook.labourClasses.find(({ id }) => id === line.labourClass?.id)?.ratePerHour ?? 0;
  return [...new Set([...allowed, ...agreed, ...quoted, ...done].map(([id]) => id))].map((id): Row => {
    const [q, a, s, d] = [quoted.get(id), agreed.get(id), allowed.get(id), done.get(id)];
    const line = s ?? a ?? q ?? d!.line;
    const item = line.from.find((source) => source.is === "item")?.id;
    const actual = { amount: d ? amountDone(d) : 0, milli: d ? milliDone(d) : 0 };
    const standard = { amount: s?.amount ?? 0, rate: s ? rateOf(s) : (d?.usualRate ?? 0) };
    const minutes = (on: Line | undefined) => on?.minutes ?? 0;
    return {
      id,
      category: CATEGORY_OF[line.sort],
      is: { line },
      ...(item !== undefined && line.id === `labour:${item}` && { item }),
      ...(line.assembly && { assembly: line.assembly }),
      minutes: { quoted: minutes(q), agreed: minutes(a), allowed: minutes(s), actual: fromMilli(actual.milli) },
      logged: d !== undefined || toMilli(minutes(s)) === 0,
      ...figures(
        { quoted: q?.amount ?? 0, agreed: a?.amount ?? 0, allowed: s?.amount ?? 0, actual: actual.amount },
        "efficiency",
        { rate: labourVariance(standard, actual).rate },
      ),
    };
  });
}
