/**
 * What the owner's pages show: plain data, with neither the input nor anything that tells what work or parts cost the shop.
 * Money = integer minor units of `tongue.currency`, tax included unless a name says otherwise. Texts are ready to be printed.
 */

import type { Cause } from "../../estimating/agreement/causes.js";
import type { ThenAndNow } from "../../estimating/agreement/changeSums.js";
import type { FaultsFound } from "../../estimating/agreement/faultsFound.js";
import type { Mark } from "../../estimating/agreement/rowChanges.js";
import type { IsoDate, Minor, Percent } from "../../estimating/input.js";
import type { Figures } from "../../wording/figures.js";

export type OwnerView = EntryView | GoneView | WaitView | EstimateView;

/** BCP 47, that the page is written in. */
interface InLanguage {
  readonly language: string;
}

export interface OwnerShop {
  readonly name: string;
  readonly address?: readonly string[];
  readonly phone?: string;
  readonly email?: string;
}

/** /o: where a link or a number with its code is exchanged for a cookie. */
export interface EntryView extends InLanguage {
  readonly is: "entry";
  readonly shop: OwnerShop;
  /** As typed before. */
  readonly number?: string;
  /** Why nobody was let in. */
  readonly wrong?: string;
}

/** The link is dead: answered 410. */
export interface GoneView extends InLanguage {
  readonly is: "gone";
  readonly shop: OwnerShop;
  readonly why: "expired" | "withdrawn";
  /** Day and time, as the shop writes them. */
  readonly since: string;
  /** What is current for this job. */
  readonly current: { readonly number: string; readonly revision: number };
}

/** More prices were asked for than one link is told: answered 429. */
export interface WaitView extends InLanguage {
  readonly is: "wait";
  readonly shop: OwnerShop;
  /** Seconds. */
  readonly wait: number;
  /** What was sent, to be sent once more. */
  readonly again: {
    readonly method: "get" | "post";
    readonly path: string;
    readonly fields: readonly (readonly [name: string, value: string])[];
  };
}

export interface EstimateView extends InLanguage {
  readonly is: "estimate";
  readonly shop: OwnerShop;
  readonly tongue: Figures;
  /** The technician's words: what is wrong, and what will be done. */
  readonly summary?: string;
  readonly owner: string;
  readonly unit: {
    readonly maker: string;
    readonly model: string;
    readonly serial?: string;
    readonly reported?: string;
    readonly found?: string;
  };
  readonly paper: OwnerPaper;
  /** The set shown: options chosen, work struck out. Everything below `sheet` and in `texts` is for exactly this set. */
  readonly choice: OwnerChoice;
  readonly sheet: OwnerSheet;
  /** Sets of options to pick one of, each with what all comes to; empty where there are none. */
  readonly packages: readonly {
    readonly name: string;
    readonly options: readonly string[];
    /** What the options in it are called. */
    readonly names: readonly string[];
    readonly total: Minor;
    readonly chosen: boolean;
  }[];
  /** Work that may be left out to agree in part; priced only as a whole set. */
  readonly work: readonly OwnerWork[];
  /** The exact wording that is put on record with each answer. */
  readonly texts: AnswerTexts;
  /** What was agreed in an earlier revision, and stays agreed when this one is declined; once it is, whatever is agreed now. */
  readonly earlier?: { readonly revision: number; readonly total: Minor; readonly ceiling: Minor };
  /** Something is logged on the unit: it may be open. */
  readonly begun: boolean;
  /** The answer that is shown once more before it is sent. */
  readonly checking?: keyof AnswerTexts;
  /** What is agreed to besides the price, as the paper has it. */
  readonly terms?: { readonly heading: string; readonly terms: readonly string[]; readonly beside: string };
  /** What the agreement profile must tell; ends with 'check your local law'. */
  readonly notices: readonly string[];
  /** What is dangerous about the unit at home, and what its memory may lose: until the work is done. */
  readonly caution?: string;
  readonly changes?: OwnerChanges;
  /** Those that are printed with this revision. */
  readonly photos: readonly OwnerPhoto[];
  /** Only `open` takes an answer. */
  readonly state: OwnerState;
  /** The answer that stands. */
  readonly answer?: OwnerAnswer;
  /** Of earlier revisions, where they were taken back after this one was declined; oldest first. */
  readonly takenBack: readonly OwnerAnswer[];
  /** The job is closed: its final account, tax included. `due` below 0 is paid back. */
  readonly account?: {
    readonly on: IsoDate;
    readonly is: "done" | "nothing done" | "handed back";
    readonly corrected: boolean;
    /** Agreed work that was not done, or not all of it. */
    readonly notDone: readonly string[];
    readonly total: Minor;
    readonly due: Minor;
  };
  /** Declined after all, and not closed: what the work comes to that was done while it was agreed, and the most that it and the rest do. */
  readonly agreedThen?: { readonly amount: Minor; readonly upTo: Minor };
  /** Agreed to and not closed: the day it should be ready. */
  readonly ready?: IsoDate;
  /** Payments on record, and what is still to come; `begun`: work began on a deposit that was paid, and what it grew by is owed with the balance. */
  readonly paid: {
    readonly total?: Minor;
    /** In it, for possible work found so far. */
    readonly found?: Minor;
    readonly paid: Minor;
    readonly due?: Minor;
    readonly deposit: Minor;
    readonly begun: boolean;
  };
  readonly questions: readonly OwnerQuestion[];
  /** What was done, to be announced at the top. */
  readonly say?: "answer" | "question" | "other";
  readonly wrong: readonly OwnerFault[];
  /** What was typed, so that nothing is lost. */
  readonly typed?: { readonly name?: string; readonly question?: string };
}

export interface OwnerPhoto {
  readonly href: string;
  readonly caption?: string;
}

interface OwnerPaper {
  /** Such as J-2026-0001. */
  readonly number: string;
  readonly revision: number;
  readonly date: IsoDate;
  readonly validUntil: IsoDate;
  /** Address of the PDF that was issued. */
  readonly pdf: string;
  /** SHA-256, hex. `contentHash` goes back with each answer. */
  readonly contentHash: string;
  readonly pdfHash: string;
}

export interface OwnerChoice {
  /** Ids of options. */
  readonly chosen: readonly string[];
  /** Ids of work items. */
  readonly struck: readonly string[];
}

export interface OwnerSheet {
  /** Sum to `totals.linesNet`. */
  readonly lines: readonly OwnerLine[];
  /** Each heading once, where it first stands, with the sum of its lines. */
  readonly headings: readonly { readonly heading: string; readonly amount: Minor }[];
  /** Signed. */
  readonly adjustments: readonly { readonly id: string; readonly title: string; readonly amount: Minor }[];
  /** Charges beside the lines that go with the work, and discounts by percent, by name. */
  readonly more: readonly string[];
  readonly less: readonly string[];
  readonly totals: {
    readonly linesNet: Minor;
    readonly withoutTax: Minor;
    readonly taxGroups: readonly {
      readonly name: string;
      readonly percent: Percent;
      readonly base: Minor;
      readonly tax: Minor;
    }[];
    readonly tax: Minor;
    readonly total: Minor;
    readonly prepaid: Minor;
    readonly due: Minor;
    readonly pricesIncludeTax: boolean;
  };
  readonly options: readonly OwnerGroup[];
  readonly ifFound: readonly OwnerGroup[];
  /** Not asked for: what it would come to now, and at a later visit. */
  readonly worthDoing: readonly { readonly name: string; readonly reason: string; readonly now: Minor; readonly later: Minor }[];
  readonly ceiling: Minor;
  /** What is charged, where that is time and parts; otherwise empty. */
  readonly billed: string;
  /** Where the total is above what the owner had allowed. */
  readonly raised?: string;
  /** Where all possible work together would pass the ceiling. */
  readonly couldPass?: string;
  readonly ifDeclined: Minor;
  readonly deposit: Minor;
  readonly days: number;
  /** Said of parts whose days of delivery nobody knows. */
  readonly notCounted?: string;
}

export interface OwnerLine {
  readonly id: string;
  readonly heading: string;
  readonly title: string;
  readonly note?: string;
  readonly count?: number;
  readonly amount: Minor;
}

/** An option, or work that may be found necessary. */
export interface OwnerGroup {
  readonly id: string;
  readonly names: readonly string[];
  readonly reason?: string;
  /** On top of, or within, the chosen set; prices of several are not to be added. */
  readonly price: Minor;
  /** Possible work that a fixed price covers. */
  readonly covered?: true;
  readonly chosen?: boolean;
  /** Said of an option that was left out before. */
  readonly refused?: string;
  readonly probability?: number;
}

export interface OwnerWork {
  readonly id: string;
  readonly title: string;
  readonly reason?: string;
  /** Its own lines of the whole estimate; absent for possible work, which is priced by group. */
  readonly amount?: Minor;
  readonly ifFound: boolean;
  /** Possible work that a fixed price covers. */
  readonly covered?: true;
}

export interface AnswerTexts {
  readonly agreed: string;
  /** Absent while nothing is struck out. */
  readonly "part agreed"?: string;
  readonly declined: string;
}

/** What changed since the revision before. */
export interface OwnerChanges {
  readonly since: number;
  /** Since what was agreed in it, not since all that it offered. */
  readonly agreed: boolean;
  readonly total: ThenAndNow;
  /** Sum to the difference of the totals; empty where that is not split. */
  readonly causes: readonly { readonly cause: Cause; readonly text: string; readonly amount: Minor }[];
  readonly rows: readonly {
    readonly mark: Mark;
    readonly title: string;
    readonly amount: Minor;
    /** Above the tax, within the total; otherwise the price of an option or of possible work. */
    readonly inTotal: boolean;
    readonly reason?: string;
    readonly fields: readonly string[];
  }[];
  /** Found since, each with its own price. */
  readonly faults?: FaultsFound;
  /** Such as 'Never more than £300.00 instead of £250.00'. */
  readonly figures: readonly string[];
}

export type OwnerState =
  | { readonly is: "open" }
  /** See `answer`. `since`: a later one, which leaves this one agreed. */
  | {
      readonly is: "answered";
      readonly since?: { readonly is: "declined" | "offered"; readonly revision: number; readonly href: string };
    }
  /** It holds no longer; only declining is taken. */
  | { readonly is: "lapsed" }
  | { readonly is: "superseded"; readonly revision: number; readonly href: string };

export interface OwnerAnswer {
  readonly answer: "agreed" | "part agreed" | "declined";
  readonly by: string;
  /** Day and time, as the shop writes them, with the zone. */
  readonly at: string;
  readonly channel: "page" | "in person" | "telephone" | "e-mail";
  readonly wording: string;
  /** Absent when declined. */
  readonly amount?: Minor;
  readonly ceiling?: Minor;
  readonly options: readonly string[];
  readonly struck: readonly string[];
  /** Short form of the record's head with this answer in it: a receipt to keep. */
  readonly receipt: string;
  /** It corrects an earlier answer. */
  readonly correction: boolean;
}

export interface OwnerQuestion {
  readonly at: string;
  readonly text: string;
  readonly replies: readonly { readonly at: string; readonly by: string; readonly text: string }[];
}

export interface OwnerFault {
  readonly field: "name" | "answer" | "struck" | "chosen" | "text" | "amount";
  readonly text: string;
}

/** What POST /o/price answers as JSON: the parts of the view that follow the choice. */
export type PricedView = Pick<EstimateView, "choice" | "sheet" | "packages" | "texts">;

/**
 * Forms, application/x-www-form-urlencoded:
 * - /o/entry: `link` (what stands after the # of the address), or `number` and `code`
 * - /o/price: `hash`, `package` (the place of a set, in place of `chosen`), any `chosen`, any `struck` (or any `work` that is to be done, as the page ticks it, and an empty one); `name` is carried along
 * - /o/check: the same, `answer` ('agreed' or 'declined'; agreed with work struck out is checked as 'part agreed')
 * - /o/agreement: the same, `amount` (total shown, minor units), `answer`
 * - /o/question: `hash`, `text`
 * `hash` is `paper.contentHash`.
 */
export const OWNER_PATHS = {
  entry: "/o/entry",
  home: "/o",
  estimate: "/o/estimate",
  pdf: "/o/estimate.pdf",
  account: "/o/final-account.pdf",
  calendar: "/o/calendar.ics",
  photo: "/o/photo",
  price: "/o/price",
  check: "/o/check",
  agreement: "/o/agreement",
  question: "/o/question",
} as const;
