/** The form a job is closed with: its fields from what is kept, and back again with what is wrong beside each field. */
import type { Costs } from "../../estimating/closeout/account/margin.js";
import type { AccountTerms, Payment } from "../../estimating/closeout/account/terms.js";
import { isDay } from "../../estimating/day.js";
import type { CurrencyCode } from "../../estimating/input.js";
import { decimalsOf } from "../../estimating/money/currency.js";
import { decimalMark, shift, typed } from "../../wording/decimal.js";
import { key } from "../form/fields.js";
import { line, money, number, type Reading } from "../form/reading.js";
import { errorsIn } from "../revise/smallForm.js";

const FEWEST = { payments: 4, other: 2 } as const;
export const PAID_FOR = ["deposit", "diagnosis fee", "other"] as const satisfies readonly Payment["for"][];
const PARTS = ["returned", "kept"] as const;

export interface CloseForm {
  readonly by: string;
  readonly terms: AccountTerms;
  readonly found: readonly string[];
  readonly done: Readonly<Record<string, number>>;
  readonly costs?: Costs;
  readonly reason?: string;
}

interface Countable {
  readonly id: string;
  /** Agreed. */
  readonly count: number;
}

export const doneField = (id: string): string => `done.${key(id)}`;

/** Rows of the form: a spare one behind the last that is filled, so that none that is on record is left out. */
export function rowsIn(fields: ReadonlyMap<string, string>, name: keyof typeof FEWEST): number {
  const filled = [...fields].flatMap(([field, value]) => {
    const [first, row, part] = field.split(".");
    return first === name && /^\d+$/.test(row ?? "") && part !== "for" && value.trim() !== "" ? [Number(row)] : [];
  });
  return Math.min(MOST_ROWS, Math.max(FEWEST[name], ...filled.map((row) => row + 2)));
}

/** As many payments as a close-out takes. */
const MOST_ROWS = 100;

/** What the estimate counted as paid already: the account credits it once the day it came is given. */
export const prepaidFields = (prepaid: number, currency: CurrencyCode, locale: string): [string, string][] =>
  prepaid > 0
    ? [
        ["payments.0.amount", typedMoney(prepaid, currency, locale)],
        ["payments.0.for", "other"],
      ]
    : [];

/** As a person types an amount. */
const typedMoney = (amount: number, currency: CurrencyCode, locale: string): string =>
  typed(shift(String(amount), -(decimalsOf(currency) ?? 2)), decimalMark(locale));

export function fieldsOf(
  { by, terms, done, costs, reason }: CloseForm,
  currency: CurrencyCode,
  locale: string,
): Map<string, string> {
  const cash = (amount: number) => typedMoney(amount, currency, locale);
  return new Map([
    ["by", by],
    ["closedOn", terms.on],
    ["basis", terms.basis],
    ["warrantyDays", String(terms.warrantyDays)],
    ["oldParts", terms.oldParts.is],
    ["oldParts.why", terms.oldParts.is === "kept" ? terms.oldParts.why : ""],
    ["above.by", terms.above?.by ?? ""],
    ["above.reason", terms.above?.reason ?? ""],
    ["reason", reason ?? ""],
    ...terms.payments.flatMap((payment, at): [string, string][] => [
      [`payments.${at}.on`, payment.on],
      [`payments.${at}.amount`, cash(payment.amount)],
      [`payments.${at}.for`, payment.for],
    ]),
    ...Object.entries(done).map(([id, count]): [string, string] => [doneField(id), String(count)]),
    ...(costs ? [["hour", cash(costs.otherwise)] as [string, string]] : []),
    ...(costs?.other ?? []).flatMap(({ what, amount }, at): [string, string][] => [
      [`other.${at}.what`, what],
      [`other.${at}.amount`, cash(amount)],
    ]),
  ]);
}

/** `undefined` with errors; the engine checks what the figures mean. */
export function readClose(
  at: Reading,
  fields: ReadonlyMap<string, string>,
  found: readonly string[],
  work: readonly Countable[],
): { readonly form?: CloseForm; readonly errors: Map<string, string> } {
  const text = (name: string, most = 500) => line(at, name, fields.get(name), most);
  const by = text("by", 200);
  const on = fields.get("closedOn")?.trim() ?? "";
  const warrantyDays = number(at, "warrantyDays", fields.get("warrantyDays"));
  const [partsAre, why] = [PARTS.find((each) => each === fields.get("oldParts")), text("oldParts.why")];
  const above = { by: text("above.by", 200) ?? "", reason: text("above.reason") ?? "" };
  const hour = money(at, "hour", fields.get("hour"));
  const wrong = new Map<string, string>();
  const payments = Array.from({ length: rowsIn(fields, "payments") }, (_, row) => paymentIn(at, fields, row, wrong)).flatMap(
    (one) => one ?? [],
  );
  const other = Array.from({ length: rowsIn(fields, "other") }, (_, row) => {
    const [what, amount] = [text(`other.${row}.what`), money(at, `other.${row}.amount`, fields.get(`other.${row}.amount`))];
    if (what && amount === undefined) wrong.set(`other.${row}.amount`, "Other cost: give the amount.");
    return amount === undefined ? [] : [{ what: what ?? "", amount }];
  }).flat();
  const done = Object.fromEntries(
    work.flatMap(({ id, count }): [string, number][] => {
      const given = number(at, doneField(id), fields.get(doneField(id)));
      if (given !== undefined && (given < 0 || !Number.isInteger(given) || given > count))
        wrong.set(doneField(id), `Count done: give a whole number from 0 to ${count}, as agreed.`);
      return given === undefined || given === count ? [] : [[id, given]];
    }),
  );
  const reason = text("reason");
  const errors = errorsIn(at);
  const say = (field: string, is: boolean, said: string) => {
    if (is && !errors.has(field)) errors.set(field, said);
  };
  say("by", !by, "Who closes the job: type the name.");
  say("closedOn", !isDay(on), "Day: write it as year, month, day, such as 2026-11-25.");
  say("warrantyDays", warrantyDays === undefined, "Days of warranty: give a whole number; 0 for none beyond the law.");
  say("oldParts.why", partsAre === "kept" && !why, "Why the parts are kept: the owner reads it.");
  say("hour", hour === undefined && other.length > 0, "What an hour costs: needed beside other costs.");
  say("hour", hour !== undefined && hour < 0, "What an hour costs: give an amount of 0 or more.");
  for (const [field, said] of wrong) say(field, true, said);
  if (errors.size > 0 || !by || warrantyDays === undefined) return { errors };
  return {
    errors,
    form: {
      by,
      found,
      done,
      ...(reason && { reason }),
      ...(hour !== undefined && { costs: { perHour: {}, otherwise: hour, other } }),
      terms: {
        basis: fields.get("basis") === "time and parts" ? "time and parts" : "fixed price",
        on,
        payments,
        warrantyDays,
        oldParts: partsAre === "kept" ? { is: "kept", why: why! } : { is: "returned" },
        ...((above.by || above.reason) && { above }),
      },
    },
  };
}

function paymentIn(
  at: Reading,
  fields: ReadonlyMap<string, string>,
  row: number,
  wrong: Map<string, string>,
): Payment | undefined {
  const field = (name: string) => `payments.${row}.${name}`;
  const amount = money(at, field("amount"), fields.get(field("amount")));
  const on = fields.get(field("on"))?.trim() ?? "";
  if (amount === undefined) {
    if (on !== "" && !at.problems.some((problem) => problem.field === field("amount")))
      wrong.set(field("amount"), "Payment: give the amount, or clear the day.");
    return undefined;
  }
  if (!isDay(on)) wrong.set(field("on"), "Payment: give the day it came, as year, month, day.");
  return { on, amount, for: PAID_FOR.find((each) => each === fields.get(field("for"))) ?? "other" };
}

/** Field that a problem of the engine belongs to; `""`: none of this form. */
export function fieldAt(pointer: string): string {
  const [, first, ...rest] = pointer.split("/");
  if (first !== "terms") return "";
  const [name, row, part] = rest;
  if (name === "on") return "closedOn";
  if (name === "payments") return `payments.${row}.${part}`;
  return name === "above" ? "above.reason" : (name ?? "");
}
