/** What leaves the shop for a mailbox or a calendar. */
import type { IsoDate } from "../estimating/input.js";
import { ownersPageIn } from "./ownersPage.js";

/** What goes to an owner with a link to their page. Lines end with a bare line feed. */
export interface OwnerMail {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

interface MailAbout {
  readonly owner: { readonly name: string; readonly email?: string; readonly language?: string | undefined };
  readonly number: string;
  readonly unit: string;
  readonly revision: number;
  readonly shop: string;
  /** With its secret. */
  readonly address: string;
  readonly code: string;
}

export function ownerMail({ owner, number, unit, revision, shop, address, code }: MailAbout): OwnerMail {
  const page = address.split("#")[0]!;
  const texts = ownersPageIn(owner.language).mail;
  return {
    to: owner.email ?? "",
    subject: texts.subject(number, revision, unit),
    text: [
      ...[texts.dear(owner.name), "", texts.ready(unit), ""],
      ...[address, "", texts.otherwise(page, number, code), "", shop],
    ].join("\n"),
  };
}

/** What a day in a calendar is called. */
type DayName = {
  readonly number: string;
  readonly unit: string;
  readonly shop: string;
  readonly language?: string | undefined;
} & (
  | { readonly is: "offer ends"; readonly revision: number }
  | { readonly is: "ready"; readonly days: number; readonly agreedOn: IsoDate }
);

export function dayName(name: DayName): { readonly title: string; readonly text: string } {
  const { number, unit, shop, language } = name;
  const { calendar: texts } = ownersPageIn(language);
  return name.is === "offer ends"
    ? { title: texts.offerEnds(number, unit), text: texts.lastDay(name.revision, number, shop) }
    : { title: texts.ready(unit, number), text: texts.fromAnswer(name.days, name.agreedOn, shop) };
}
