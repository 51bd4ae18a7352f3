/** What leaves the shop for a mailbox or a calendar. */
import type { IsoDate } from "../estimating/input.js";

/** What goes to an owner with a link to their page. Lines end with a bare line feed. */
export interface OwnerMail {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

interface MailAbout {
  readonly owner: { readonly name: string; readonly email?: string };
  readonly number: string;
  readonly unit: string;
  readonly revision: number;
  readonly shop: string;
  /** With its secret. */
  readonly address: string;
  readonly code: string;
}

export function ownerMail({ owner, number, unit, revision, shop, address, code }: MailAbout): OwnerMail {
  const page = address.split("#")[0];
  return {
    to: owner.email ?? "",
    subject: `Estimate ${number}, revision ${revision}: ${unit}`,
    text: [
      owner.name ? `Dear ${owner.name},` : "Hello,",
      "",
      `our written estimate for your ${unit} is ready. Read it and answer it here:`,
      "",
      address,
      "",
      `If the link does not open, go to ${page} and type the number ${number} and the code ${code}.`,
      "",
      shop,
    ].join("\n"),
  };
}

/** What a day in a calendar is called. */
type DayName =
  | {
      readonly is: "offer ends";
      readonly number: string;
      readonly revision: number;
      readonly unit: string;
      readonly shop: string;
    }
  | {
      readonly is: "ready";
      readonly number: string;
      readonly unit: string;
      readonly shop: string;
      readonly days: number;
      readonly agreedOn: IsoDate;
    };

export function dayName(name: DayName): { readonly title: string; readonly text: string } {
  const { number, unit, shop } = name;
  if (name.is === "offer ends")
    return {
      title: `Estimate ${number} ends: ${unit}`,
      text: `Last day to agree to revision ${name.revision} of estimate ${number} of ${shop}.`,
    };
  return {
    title: `${unit} about ready (${number})`,
    text: `About ${name.days} ${name.days === 1 ? "day" : "days"} from the answer of ${name.agreedOn}, as the estimate of ${shop} says. Ask before you come.`,
  };
}
