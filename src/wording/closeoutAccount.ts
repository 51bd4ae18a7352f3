import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import type { OldParts, Payment } from "../estimating/closeout/account/terms.js";
import type { PartState } from "../estimating/closeout/log/workLog.js";
import { day } from "./day.js";
import { counted } from "./list.js";
import { money } from "./money.js";
import type { Tongue } from "./tongue.js";

const BASIS: Readonly<Record<FinalAccount["basis"], string>> = {
  "fixed price": "Fixed price, as agreed",
  "time and parts": "Time and parts, up to the limit agreed",
};
export const accountBasisText = (basis: FinalAccount["basis"]): string => BASIS[basis];

const STATE: Readonly<Record<PartState, string>> = { new: "new", used: "used", reconditioned: "reconditioned" };
export const partStateText = (state: PartState): string => STATE[state];

const PAYMENT: Readonly<Record<Payment["for"], string>> = {
  deposit: "Deposit",
  "diagnosis fee": "Diagnosis fee",
  other: "Payment",
};
/** 'Deposit received on 25 November 2026'. */
export const paymentText = ({ on, for: what }: Payment, { locale }: Tongue): string =>
  `${PAYMENT[what]} received on ${day(on, locale)}`;

/** What kept the account within its limit, or let it pass; undefined when it never came near. */
export function limitText(
  { held, limit, above }: Pick<FinalAccount, "held" | "limit" | "above">,
  tongue: Tongue,
): string | undefined {
  if (held.over === 0) return undefined;
  const most = `${money(limit.upTo, tongue)}${limit.withTax ? "" : " before tax"}`;
  const past = money(held.over, tongue);
  return above
    ? `The limit agreed, ${most}, is passed by ${past}: ${above.reason} (${above.by}).`
    : `${past} above the limit agreed, ${most}, is not charged.`;
}

/** 'Warranty: 90 days, until 23 February 2027.' */
export const warrantyText = ({ days, until }: FinalAccount["warranty"], { locale }: Tongue): string =>
  days === 0 ? "No warranty beyond what the law gives." : `Warranty: ${counted(days, "day")}, until ${day(until, locale)}.`;

export const oldPartsText = (oldParts: OldParts): string =>
  oldParts.is === "returned"
    ? "The parts that were replaced are returned with the unit."
    : `The parts that were replaced are not returned: ${oldParts.why}.`;

/** What was done beyond the agreement is the shop's; undefined when nothing was. */
export const notChargedText = ({ notCharged }: Pick<FinalAccount, "notCharged">, tongue: Tongue): string | undefined =>
  notCharged === 0 ? undefined : `Work and parts worth ${money(notCharged, tongue)} were not agreed and are not charged.`;
