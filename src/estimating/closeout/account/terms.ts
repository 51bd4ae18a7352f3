/** What a final account is made by, beside the job itself. */
import type { Limit } from "../../agreement/limit.js";
import { amount, checkDay, count } from "../../check/figures.js";
import { spot } from "../../check/spot.js";
import type { EstimateInput, IsoDate, Minor } from "../../input.js";
import type { LogProblem, Problem } from "../../problems.js";
import { checkOverride } from "../log/checkEntry.js";
import type { Override } from "../log/workLog.js";

export interface Payment {
  readonly on: IsoDate;
  /** Tax included. */
  readonly amount: Minor;
  readonly for: "deposit" | "diagnosis fee" | "other";
}

export type OldParts =
  | { readonly is: "returned" }
  /** Why, such as an exchange part, or that the owner does not want them. */
  | { readonly is: "kept"; readonly why: string };

export interface AccountTerms {
  readonly basis: "fixed price" | "time and parts";
  readonly on: IsoDate;
  readonly payments: readonly Payment[];
  /** From the day of the account; 0: none. */
  readonly warrantyDays: number;
  readonly oldParts: OldParts;
  /** Where agreements beside the revisions have raised it; otherwise that of the agreed revision and what was found. */
  readonly limit?: Limit;
  /** Who decided, and why, that the account may pass the limit. */
  readonly above?: Override;
}

/** The basis that goes with how the job was priced. */
export const usualBasis = ({ policy }: Pick<EstimateInput, "policy">): AccountTerms["basis"] =>
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
        payment.amount,
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
