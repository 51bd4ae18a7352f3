/** What a final account is made by, beside the job itself, and how it is held to what was agreed. */
import { type Limit, over } from "../../agreement/limit.js";
import { amount, checkDay, count } from "../../check/figures.js";
import { spot } from "../../check/spot.js";
import type { EstimateInput, IsoDate, Minor, TaxRules } from "../../input.js";
import type { LogProblem, Problem } from "../../problems.js";
import type { Totals } from "../../sheet.js";
import { type AllowanceOrCharge, addUp, type Taxed } from "../../totals/addUp.js";
import { leastAllowance } from "../../totals/leastAllowance.js";
import { checkOverride } from "../log/checkEntry.js";
import type { Override } from "../log/workLog.js";

export interface Payment {
  readonly on: IsoDate;
  /** Tax included; below 0 where it was given back. */
  readonly amount: Minor;
  readonly for: "deposit" | "balance" | "diagnosis fee" | "decline fee" | "refund" | "other";
}

export type OldParts =
  | { readonly is: "returned" }
  /** Why, such as an exchange part, or that the owner does not want them. */
  | { readonly is: "kept"; readonly why: string };

/** A unit that goes back with nothing agreed to, or nothing of it done. */
export interface HandBack {
  /** Absent where nothing of what was agreed was done: nobody is asked. */
  readonly to?: string;
  /** Of what came with it. */
  readonly accessories: readonly string[];
  /** In what state it goes. */
  readonly note?: string;
  /** Said where no opening is in the log: it never was. */
  readonly opened?: false;
}

export interface AccountTerms {
  /**
   * declined, or taken back before an estimate was issued: nothing was agreed to, and what paper or receipt promised for that holds.
   * nothing done: agreed, and then nothing of it was done; looking costs what it would have cost to decline, unless it is waived.
   */
  readonly basis: "fixed price" | "time and parts" | "declined" | "taken back" | "nothing done";
  readonly on: IsoDate;
  readonly payments: readonly Payment[];
  /** From the day of the account; 0: none. */
  readonly warrantyDays: number;
  readonly oldParts: OldParts;
  /** Where agreements beside the revisions have raised it; otherwise that of the agreed revision and what was found. */
  readonly limit?: Limit;
  readonly handBack?: HandBack;
  /** Declined, or an earlier agreement stands: entries of the log from while an agreement stood that was taken back, the most that they and the rest may come to together, tax included, and whether they are charged. */
  readonly agreedThen?: { readonly entries: readonly string[]; readonly upTo: Minor; readonly charged: boolean };
  /** Declined: entries of the log made on an override after an answer that are no looking, and so are not charged; absent where there are none, and in accounts that charged them so. */
  readonly notLooking?: readonly string[];
  /** Where nothing was done: the shop charges nothing for looking either. */
  readonly lookingWaived?: true;
  /** Who decided, and why, that the account may pass the limit. */
  readonly above?: Override;
}

export const nothingAgreed = (basis: AccountTerms["basis"]): basis is "declined" | "taken back" =>
  basis === "declined" || basis === "taken back";

/** Nothing is charged but looking, as far as it was promised. */
export const chargesLooking = (basis: AccountTerms["basis"]): basis is "declined" | "taken back" | "nothing done" =>
  nothingAgreed(basis) || basis === "nothing done";

/** The basis that goes with how the job was priced. */
export const usualBasis = ({ policy }: Pick<EstimateInput, "policy">): "fixed price" | "time and parts" =>
  policy?.pricing?.is === "time and parts with ceiling" ? "time and parts" : "fixed price";

export function checkTerms({ on, payments, warrantyDays, above }: AccountTerms): (Problem | LogProblem)[] {
  return [
    ...checkDay(
      on,
      spot(() => "Final account", "terms", "on"),
    ),
    ...payments.flatMap((payment, index) => [
      ...checkDay(
        payment.on,
        spot(() => `Payment ${index + 1}`, "terms", "payments", index, "on"),
      ),
      ...amount(
        payment.for === "refund" ? -payment.amount : payment.amount,
        spot(() => `Payment ${index + 1}`, "terms", "payments", index, "amount"),
      ),
    ]),
    ...count(
      warrantyDays,
      spot(() => "Days of warranty", "terms", "warrantyDays"),
    ),
    ...(above
      ? checkOverride(
          above,
          spot(() => "Final account, above the limit", "terms", "above"),
        )
      : []),
  ];
}

export interface Held {
  /** How far the bill would have passed the limit, with tax or without as the limit is measured; 0: it does not. */
  readonly over: Minor;
  /** Taken off so that it does not, by tax category; empty when it need not be, or may not be. */
  readonly allowances: readonly AllowanceOrCharge[];
  readonly totals: Totals;
}

/** What is billed never passes the limit agreed, unless a record says who decided that it may. */
export function holdToLimit(
  lines: readonly Taxed[],
  adjustments: readonly AllowanceOrCharge[],
  tax: TaxRules,
  prepaid: Minor,
  limit: Limit,
  mayPass: boolean,
): Held {
  const totals = addUp(lines, adjustments, tax, prepaid);
  const by = over(limit, totals);
  if (mayPass || by === 0) return { over: by, allowances: [], totals };
  return { over: by, ...leastAllowance(lines, adjustments, tax, prepaid, (held) => over(limit, held) > 0) };
}
