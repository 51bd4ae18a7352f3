/** The final account as the owner reads it. */

import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import { chargesLooking, type OldParts, type Payment } from "../estimating/closeout/account/terms.js";
import type { PartState } from "../estimating/closeout/log/workLog.js";
import type { EstimateInput, Minor } from "../estimating/input.js";
import type { AgreementProfile } from "../estimating/law/profile.js";
import { english } from "./english/index.js";
import { money } from "./figures.js";
import { workTitle } from "./line.js";
import { tickIn } from "./names.js";
import { day } from "./time.js";
import type { Spoken, Tongue } from "./tongue.js";

const said = ({ words = english }: Spoken) => words.account;

export function accountBasisText(
  { basis, handBack, agreedThen }: Pick<FinalAccount, "basis" | "handBack" | "agreedThen">,
  spoken: Spoken = {},
): string {
  const texts = said(spoken).basis;
  if (basis !== "declined") return texts[basis];
  return texts[agreedThen?.charged ? "declined after" : handBack?.opened === false ? "declined unopened" : basis];
}

export const partStateText = (state: PartState, spoken: Spoken = {}): string => said(spoken).partState[state];

/** 'Deposit received on 25 November 2026'. */
export const paymentText = ({ on, for: what }: Payment, tongue: Tongue): string =>
  what === "refund"
    ? said(tongue).givenBack(day(on, tongue.locale))
    : said(tongue).received(said(tongue).payment[what], day(on, tongue.locale));

/** What kept the account within its limit, or let it pass; undefined when it never came near. */
export function limitText(
  { held, limit, above }: Pick<FinalAccount, "held" | "limit" | "above">,
  tongue: Tongue,
): string | undefined {
  if (held.over === 0) return undefined;
  const { limitPassed, limitHeld, promiseHeld } = said(tongue);
  const upTo = money(limit.upTo, tongue);
  const most = limit.withTax ? upTo : (tongue.words ?? english).lines.beforeTax(upTo);
  const past = money(held.over, tongue);
  if (limit.by === "if declined") return promiseHeld(past, most);
  return above ? limitPassed(most, past, above.reason, above.by) : limitHeld(past, most);
}

/** On the shop's pages. */
export const nothingDoneText = ({ limit }: Pick<FinalAccount, "limit">, tongue: Tongue): string =>
  limit.upTo === 0
    ? "The diagnosis fee is credited only if the work goes ahead. Neither a fee nor a limit for looking was promised, so nothing is owed. There is no warranty."
    : `The diagnosis fee is credited only if the work goes ahead. Owed is what declining would have cost: the fee and the time logged for opening and looking, at most ${money(limit.upTo, tongue)}, as promised. There is no warranty.`;

/** Agreed work that was not done, with how much of it was left. */
export const workLeft = (since: FinalAccount["since"], input: EstimateInput): string[] =>
  (since?.notDone ?? []).flatMap(({ item, count }) => {
    const found = input.items.find(({ id }) => id === item);
    return found ? [workTitle({ ...found, count }, input)] : [];
  });

/** 'Warranty: 90 days, until 23 February 2027.' */
export const warrantyText = ({ days, until }: FinalAccount["warranty"], tongue: Tongue): string =>
  days === 0 ? said(tongue).noWarranty : said(tongue).warranty(days, day(until, tongue.locale));

/** To whom, with what, in what state, and what of the parts that were taken out. */
export const handBackTexts = (
  { basis, handBack, oldParts, on }: Pick<FinalAccount, "basis" | "handBack" | "oldParts" | "on">,
  tongue: Tongue,
): string[] => {
  if (!chargesLooking(basis)) return [];
  const { handedBackTo, handedBackWith, notOpened, outReturned, outKept } = said(tongue);
  const { to, accessories = [], note, opened } = handBack ?? {};
  const withIt = accessories.map((line) => tickIn(line, tongue.words?.tag ?? "")).join(", ");
  return [
    ...(to === undefined ? [] : [`${handedBackTo(to, day(on, tongue.locale))} ${handedBackWith(withIt)}`]),
    ...(note === undefined ? [] : [note]),
    opened === false ? notOpened : oldParts.is === "returned" ? outReturned : outKept(oldParts.why),
  ];
};

export const oldPartsText = (oldParts: OldParts, spoken: Spoken = {}): string =>
  oldParts.is === "returned" ? said(spoken).partsReturned : said(spoken).partsKept(oldParts.why);

/** On the shop's pages. */
export const agreedWorkAsked = (amount: Minor, tongue: Tongue): string =>
  `Work worth ${money(amount, tongue)}, tax included, was done while it was agreed, before the owner took that back. Say whether it is charged.`;

/** What was done as agreed before that was taken back; undefined where nothing was. */
export function agreedThenText(
  { agreedThen, basis }: Pick<FinalAccount, "agreedThen" | "basis">,
  tongue: Tongue,
): string | undefined {
  if (!agreedThen) return undefined;
  const { charged, amount, held } = agreedThen;
  const cash = (of: Minor) => money(of, tongue);
  const beside = charged ? (basis === "declined" ? basis : "agreed") : "";
  const texts = said(tongue);
  return [
    texts.agreedThen(cash(amount + (held?.over ?? 0)), beside),
    ...(held ? [texts.thenHeld(cash(held.over), cash(held.upTo), cash(amount))] : []),
  ].join(" ");
}

/** What each allowance is for: the limit, or the most that all comes to with work of an agreement taken back. */
export const allowanceTexts = (
  { held: { allowances }, agreedThen, basis }: Pick<FinalAccount, "held" | "agreedThen" | "basis">,
  spoken: Spoken = {},
): string[] => {
  const { abovePromised, aboveLimit, aboveAll } = said(spoken).paper;
  const own = allowances.length - (agreedThen?.held?.rows ?? 0);
  return allowances.map((_, at) => (at >= own ? aboveAll : chargesLooking(basis) ? abovePromised : aboveLimit));
};

/** What was done beyond the agreement is the shop's; undefined when nothing was. */
export const notChargedText = ({ notCharged }: Pick<FinalAccount, "notCharged">, tongue: Tongue): string | undefined =>
  notCharged === 0 ? undefined : said(tongue).notCharged(money(notCharged, tongue));

/** What an agreement profile has the bill tell the owner; empty for the shop's own terms. */
export function accountNotices(profile: AgreementProfile, { words: { law } = english }: Spoken = {}): string[] {
  const { id, partsReturned, warrantyMonths, itemisedBill } = profile;
  if (id === "plain") return [];
  return [
    ...(law.partsReturned[partsReturned] ? [law.partsReturned[partsReturned]] : []),
    ...(warrantyMonths ? [law.warranty(warrantyMonths)] : []),
    ...(itemisedBill ? [law.itemisedBill(itemisedBill.askWithinDays, itemisedBill.giveWithinDays)] : []),
    `${law.writtenFor(law.name(profile))} ${law.notAdvice}`,
  ];
}

/** On the shop's pages. */
export interface OwedShown {
  readonly total?: Minor;
  readonly found?: Minor;
  /** In the total, for work of a later revision that was taken back. */
  readonly beside?: Minor;
  readonly paid: Minor;
  readonly due?: Minor;
  readonly deposit: Minor;
}

/** 'Total 100.00, paid 20.00, still to pay 80.00; of the deposit 10.00 is awaited.' With what was found: 'Total 100.00, of it 30.00 for possible work found necessary, as far as it is logged, paid ...'. */
export function owedText({ total, found, beside, paid, due, deposit }: OwedShown, tongue: Tongue): string {
  const cash = (amount: Minor) => money(amount, tongue);
  const rest = due === undefined ? "nothing agreed yet" : due < 0 ? `to be paid back ${cash(-due)}` : `still to pay ${cash(due)}`;
  const awaited = deposit > 0 ? `; of the deposit ${cash(deposit)} is awaited` : "";
  const necessary = found ? `of it ${cash(found)} for possible work found necessary, as far as it is logged, ` : "";
  const before = beside ? `of it ${cash(beside)} for work done while it was agreed, before that was taken back, ` : "";
  return `${total === undefined ? "" : `Total ${cash(total)}, ${necessary}${before}`}${total === undefined ? "Paid" : "paid"} ${cash(paid)}, ${rest}${awaited}.`;
}
