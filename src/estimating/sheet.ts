/**
 * The one result: every figure with what made it. Pages and documents render it and never add two numbers.
 * Money = integer minor units of `currency`; time = minutes. Every total equals the sum of what stands above it.
 */
import type {
  BoardSize,
  CurrencyCode,
  ExchangeRate,
  FastenerKind,
  Hazard,
  IsoDate,
  Minor,
  Minutes,
  Mounting,
  OfferState,
  Percent,
  Pricing,
  Scarcity,
  TaxRounding,
  ThreePoint,
} from "./input.js";

export interface Sheet {
  readonly schema: 1;
  readonly asOf: IsoDate;
  readonly currency: CurrencyCode;
  readonly rateBook: { readonly id: string; readonly version: number; readonly name: string };
  /** What each part of the sheet rests on. */
  readonly detail: { readonly access: Detail; readonly work: Detail };
  readonly access: AccessResult;
  /** In print order. Positive: charge; negative: credit. The sum is `totals.linesNet`. */
  readonly lines: readonly Line[];
  /** Work behind services: what it takes, at no charge of its own. For the bench, and on no owner's paper. Absent: none. */
  readonly behind?: readonly Line[];
  /** Document allowances and charges, after the lines (EN 16931 order). */
  readonly adjustments: readonly Adjustment[];
  readonly totals: Totals;
  readonly time: TimeResult;
  readonly parts: readonly PartResult[];
  /** Agreed in advance, not in the total: each priced on top of the total. */
  readonly ifFound: readonly GroupPrice[];
  /** What the owner may choose: price on top of, or within, the chosen set. */
  readonly options: readonly GroupPrice[];
  readonly suggestions: readonly Suggestion[];
  /** Usual companions that are not items yet; absent when there are none. */
  readonly companions?: readonly Companion[];
  /** Tax included. `net`: the same without tax, where the pricing sets it. */
  readonly ceiling: { readonly amount: Minor; readonly net?: Minor; readonly from: Source };
  readonly ifDeclined: IfDeclined;
  readonly deposit: { readonly amount: Minor; readonly from: readonly Source[] };
  readonly days: Days;
  readonly validUntil: IsoDate;
  /** `assumed`: nobody said how the unit is powered, so it counts as mains powered. */
  readonly hazards: readonly { readonly hazard: Hazard; readonly from: readonly string[]; readonly assumed?: boolean }[];
  /** A cell is worked on that may keep what the unit holds: ids of that work, and of the work that saves it first; whether anyone asked what it holds. */
  readonly memory?: { readonly asked: boolean; readonly cells: readonly string[]; readonly saved: readonly string[] };
  readonly warnings: readonly Warning[];
  /** For the shop alone; only when asked for (`estimate(input, { risk: true })`), so that no owner's sheet has it. */
  readonly risk?: RiskSummary;
}

/** `items`: ids of the work that it goes with. */
export interface Companion {
  readonly operation: { readonly id: string; readonly name: string };
  readonly reason: string;
  readonly items: readonly string[];
}

export type Detail = "counts" | "grid" | "map" | "mixed" | "none";

/** Where an amount comes from. `name` is what a person reads. */
export type Source =
  | { readonly is: "item"; readonly id: string }
  | { readonly is: "assembly"; readonly id: string; readonly name: string }
  | { readonly is: "boards"; readonly size: BoardSize; readonly mounting: Mounting; readonly count: number }
  | { readonly is: "operation"; readonly id: string; readonly name: string }
  /** `entry` is a JSON pointer into the rate book. */
  | { readonly is: "rate book"; readonly entry: string }
  | { readonly is: "offer"; readonly id: string; readonly source: string; readonly on: IsoDate }
  /** Of one pack, or of the freight: `price` in `currency` at `rate` is `amount`. */
  | ({ readonly is: "exchange"; readonly what: "pack" | "freight"; readonly price: Minor; readonly amount: Minor } & ExchangeRate)
  | { readonly is: "duty"; readonly percent: Percent; readonly base: Minor; readonly amount: Minor }
  | { readonly is: "import tax"; readonly percent: Percent; readonly base: Minor; readonly amount: Minor }
  /** Price of a pack with duty and import tax. */
  | { readonly is: "landed"; readonly packSize: number; readonly amount: Minor }
  | { readonly is: "parcel fee"; readonly amount: Minor }
  /** The source sells no fewer packs, and their pieces are charged. */
  | { readonly is: "minimum order"; readonly packs: number; readonly packSize: number; readonly used: number }
  | { readonly is: "stock"; readonly kind: string }
  | { readonly is: "policy"; readonly entry: string }
  | { readonly is: "rule"; readonly rule: Rule };

/** Rules a sheet may name; wording turns each into one sentence. */
export type Rule =
  | "access charged once per opening"
  | "billing increment"
  | "minimum charge"
  | "mark-up by unit cost"
  | "whole packs"
  | "scarcity margin"
  | "sundries percentage"
  | "sundries cap"
  | "freight once per source"
  | "rush percentage"
  | "diagnosis fee"
  | "diagnosis fee credited"
  | "storage"
  | "discount"
  | "promised price"
  | "ceiling above total"
  | "ceiling set by owner"
  | "ceiling by agreement profile"
  | "ceiling for what may turn up"
  | "price is fixed"
  | "allowance for risk"
  | "diagnosis limit"
  | "deposit on scarce parts"
  | "deposit on labour";

export type LineSort =
  | "access"
  | "replacement"
  | "cleaning"
  | "alignment"
  | "inspection"
  | "fault finding"
  | "test"
  | "soak"
  | "other"
  | "donor pull"
  | "labour rounding"
  | "minimum charge"
  | "part"
  | "scarcity margin"
  | "allowance"
  | "fee";

export type TaxClass = "labour" | "parts" | "freight" | "fees";

export interface Line {
  /** Stable within an input: 'access:shelf', 'labour:ITEM', 'part:KIND-or-TYPE', 'scarcity:KIND-or-TYPE', 'allowance:labour', 'fee:diagnosis' ... */
  readonly id: string;
  readonly sort: LineSort;
  readonly taxClass: TaxClass;
  readonly taxCategory: string;
  readonly assembly?: { readonly id: string; readonly name: string };
  readonly operation?: { readonly id: string; readonly name: string };
  readonly part?: { readonly type: string; readonly kind?: string; readonly name: string };
  readonly labourClass?: { readonly id: string; readonly name: string };
  /** Pieces or operations. */
  readonly count?: number;
  /** Billed minutes, grade included. */
  readonly minutes?: Minutes;
  /** The three figures that `minutes` is the mean of, but for its share of the billing step; only where expected minutes are charged. */
  readonly times?: ThreePoint;
  /** Ten-thousandths of a minor unit for one piece; amount = round(count x unitPrice). */
  readonly unitPriceE4?: number;
  readonly amount: Minor;
  readonly why?: Why;
  readonly from: readonly Source[];
}

/** One plain sentence in waiting. */
export type Why =
  | { readonly rule: "worked" }
  | { readonly rule: "in the way of"; readonly of: readonly string[] }
  | { readonly rule: "joined to"; readonly to: readonly string[] }
  | {
      readonly rule: "by standard";
      readonly size: BoardSize;
      readonly mounting: Mounting;
      readonly lowMinutes: Minutes;
      readonly highMinutes: Minutes;
    }
  /** `setupMinutes`: all set-ups of the line together. `gradePercent`: of these times, for the unit's condition; absent: 100. */
  | {
      readonly rule: "leads";
      readonly leads: number;
      readonly minutesEach: Minutes;
      readonly setupMinutes: Minutes;
      readonly gradePercent?: Percent;
    }
  | {
      readonly rule: "each";
      readonly minutesEach: Minutes;
      readonly setupMinutes: Minutes;
      readonly setups: number;
      readonly gradePercent?: Percent;
    }
  /** Of one count; of the shop's own work, or of a service of its rate book. */
  | { readonly rule: "fixed price"; readonly price: Minor; readonly service?: true }
  | { readonly rule: "brought by the owner" }
  /** What the part would cost by the rate book or catalogue, for `per` pieces, and what one piece costs here. */
  | {
      readonly rule: "price of this line";
      readonly catalogue: Minor;
      readonly per: number;
      readonly cost: Minor;
      readonly reason: string;
      readonly source?: string;
    }
  | { readonly rule: "scarcity"; readonly scarcity: Scarcity; readonly percent: Percent; readonly because: ScarcityReason }
  /** `pieces` are bought so that with `probability` at least `needed` are good; `expected`: what that is expected to spend, reorders included. */
  | {
      readonly rule: "buy plan";
      readonly needed: number;
      readonly pieces: number;
      readonly probability: number;
      readonly expected: Minor;
      readonly catalogue: Minor;
    }
  | { readonly rule: "increment"; readonly minutes: Minutes; readonly increment: Minutes }
  | { readonly rule: "minimum"; readonly minimum: Minor }
  | { readonly rule: "credited" }
  | { readonly rule: "storage days"; readonly days: number }
  | { readonly rule: "labour allowance" }
  /** Names of the parts that are hard to get. */
  | { readonly rule: "sourcing allowance"; readonly parts: readonly string[] }
  /** Names of the work that may be needed. */
  | { readonly rule: "if-found allowance"; readonly work: readonly string[] }
  /** The shop's margin over the expected cost: asked for, not set against any risk. */
  | { readonly rule: "margin allowance" }
  | { readonly rule: "reason"; readonly text: string };

export type ScarcityReason =
  | { readonly is: "set by hand" }
  | { readonly is: "on the shelf"; readonly stock: number }
  | { readonly is: "new parts offered"; readonly sources: number }
  | { readonly is: "few sources"; readonly sources: number }
  | { readonly is: "several sources"; readonly sources: number }
  | { readonly is: "not enough offered"; readonly offered: number; readonly needed: number }
  | { readonly is: "old offers only"; readonly newest: IsoDate }
  | { readonly is: "donor pulls only" }
  | { readonly is: "no offers" }
  /** Counted by part type only, so priced as a usual one. */
  | { readonly is: "usual part" };

export interface Adjustment {
  readonly id: string;
  readonly sort: "discount" | "sundries" | "freight" | "rush" | "promised price";
  readonly charge: boolean;
  /** Always positive; `charge` gives the sign. */
  readonly amount: Minor;
  readonly taxCategory: string;
  readonly taxClass: TaxClass;
  readonly percent?: Percent;
  readonly base?: Minor;
  readonly reason?: string;
  readonly from: readonly Source[];
}

export interface TaxGroup {
  readonly category: string;
  readonly name: string;
  readonly percent: Percent;
  /** Net of tax. */
  readonly base: Minor;
  readonly tax: Minor;
}

/** EN 16931: lines -> allowances and charges -> tax per group -> total -> prepaid -> due. */
export interface Totals {
  /** Sum of `lines`; includes tax when `pricesIncludeTax`. */
  readonly linesNet: Minor;
  readonly allowances: Minor;
  readonly charges: Minor;
  /** linesNet - allowances + charges, less the tax within when prices include it. */
  readonly withoutTax: Minor;
  readonly taxGroups: readonly TaxGroup[];
  readonly tax: Minor;
  readonly total: Minor;
  readonly prepaid: Minor;
  readonly due: Minor;
  readonly pricesIncludeTax: boolean;
  readonly rounding: TaxRounding;
}

export interface AccessResult {
  /** In removal order. */
  readonly removal: readonly OpenedStep[];
  /** Ids in refit order. */
  readonly refit: readonly {
    readonly id: string;
    readonly name: string;
    readonly minutes: Minutes;
    readonly after: readonly string[];
  }[];
  /** Opened by standard only (counts level), no names. */
  readonly boards: readonly {
    readonly size: BoardSize;
    readonly mounting: Mounting;
    readonly count: number;
    readonly minutes: ThreePoint;
  }[];
  /** Already open, so not charged. */
  readonly alreadyOpen: readonly string[];
  /** Removal and refit, grade included. */
  readonly minutes: ThreePoint;
}

export interface OpenedStep {
  readonly id: string;
  readonly name: string;
  readonly remove: ThreePoint;
  readonly refit: ThreePoint;
  readonly fasteners: readonly { readonly kind: FastenerKind; readonly count: number }[];
  readonly why: readonly Why[];
  readonly worked: boolean;
  readonly rests: "fasteners" | "measured" | "standard";
  readonly hazards: readonly Hazard[];
}

export interface TimeResult {
  /** Person at the bench, likely, grade included, before billing steps. */
  readonly attended: Minutes;
  readonly unattended: Minutes;
  readonly billed: Minutes;
  readonly spread: ThreePoint;
  /**
   * Where expected minutes are charged: what the lines say, billing steps within them, and the work behind services. Every time that is
   * told of such a sheet is of this kind. Absent where likely minutes are charged, and in sheets from before 2026-11-29.
   */
  readonly charged?: { readonly attended: Minutes; readonly unattended: Minutes; readonly access: Minutes };
}

export interface PartResult {
  readonly type: string;
  readonly kind?: string;
  readonly name: string;
  readonly needed: number;
  readonly charged: number;
  readonly scarcity: Scarcity;
  readonly because: ScarcityReason;
  readonly offer?: string;
  readonly source?: string;
  readonly leadDays: number;
  readonly cost: Minor;
  readonly markUpPercent: Percent;
}

/** What a group of items (an option, or something that may be found) adds. */
export interface GroupPrice {
  readonly id: string;
  readonly items: readonly string[];
  readonly names: readonly string[];
  readonly reason?: string;
  readonly probability?: number;
  readonly chosen?: boolean;
  /** The revision in which the owner left it out. */
  readonly refused?: number;
  /** Tax included: total with the group less total without it, everything else as chosen. */
  readonly price: Minor;
  /** The same without tax. */
  readonly net: Minor;
  readonly minutes: Minutes;
  /** Possible work that a fixed price covers: its price is 0. */
  readonly covered?: true;
}

export interface Suggestion {
  readonly assembly: { readonly id: string; readonly name: string };
  readonly operation: { readonly id: string; readonly name: string };
  readonly count: number;
  readonly partType?: string;
  readonly reason: string;
  /** Tax included. */
  readonly now: Minor;
  readonly later: Minor;
}

export interface IfDeclined {
  /** Tax included: diagnosis + access + refit, never more than the agreed limit. */
  readonly amount: Minor;
  readonly diagnosis: Minor;
  readonly access: Minor;
  readonly tax: Minor;
  readonly limit?: Minor;
  readonly limited: boolean;
}

export interface Days {
  readonly total: number;
  readonly queue: number;
  readonly lead: number;
  readonly bench: number;
}

export type Warning =
  /** Work on a cell, and nobody asked what the unit holds. */
  | { readonly is: "memory not asked" }
  /** Possible work was agreed in advance, and all of it together would pass the ceiling. */
  | { readonly is: "possible work above ceiling"; readonly total: Minor; readonly ceiling: Minor }
  | {
      readonly is: "value share";
      readonly percent: Percent;
      readonly limit: Percent;
      readonly total: Minor;
      readonly declared: Minor;
    }
  | {
      readonly is: "lower voltage";
      readonly item: string;
      readonly part: string;
      readonly original: number;
      readonly replacement: number;
    }
  | {
      readonly is: "derating";
      readonly item: string;
      readonly part: string;
      readonly working: number;
      readonly rated: number;
      readonly limitPercent: Percent;
    }
  | { readonly is: "polarised"; readonly item: string; readonly part: string }
  | { readonly is: "not audio grade"; readonly item: string; readonly part: string }
  | {
      readonly is: "value off";
      readonly item: string;
      readonly part: string;
      readonly offPercent: Percent;
      readonly tolerancePercent: Percent;
    }
  | { readonly is: "value unreadable"; readonly item: string; readonly part: string; readonly marking: string }
  | { readonly is: "old offer"; readonly offer: string; readonly part: string; readonly on: IsoDate; readonly days: number }
  | { readonly is: "not enough offered"; readonly part: string; readonly needed: number; readonly offered: number }
  /** `amount` is charged for the part, `unused` of it for pieces that are left over. */
  | {
      readonly is: "minimum order";
      readonly part: string;
      readonly source: string;
      readonly packs: number;
      readonly packSize: number;
      readonly used: number;
      readonly amount: Minor;
      readonly unused: Minor;
    }
  | {
      readonly is: "old exchange rate";
      readonly currency: CurrencyCode;
      readonly rate: string;
      readonly on: IsoDate;
      readonly days: number;
      readonly goodForDays: number;
    }
  | {
      readonly is: "access by standard";
      readonly lowMinutes: Minutes;
      readonly likelyMinutes: Minutes;
      readonly highMinutes: Minutes;
    }
  | { readonly is: "above ceiling"; readonly total: Minor; readonly ceiling: Minor }
  | { readonly is: "discount limited"; readonly asked: Minor; readonly given: Minor }
  | { readonly is: "currency scale"; readonly currency: CurrencyCode; readonly decimals: number }
  | { readonly is: "missing glyphs"; readonly text: string; readonly characters: readonly string[] };

/**
 * What the shop reads about the risk of a job. Amounts are those of the lines: without tax, or tax included when `taxIncluded`.
 * Times and parts are worth what the owner is charged for them, so the cost is that of the job, margins of its rates included.
 */
export interface RiskSummary {
  readonly taxIncluded: boolean;
  readonly expected: Minor;
  /** Standard deviation. */
  readonly sd: Minor;
  /** 'p of 100 jobs like this cost that or less', rounded up. */
  readonly p10: Minor;
  readonly p50: Minor;
  readonly p80: Minor;
  readonly p95: Minor;
  /** `price`: what is charged; with time and parts, the ceiling that holds, whether it is the one that the pricing asks for, the owner's own or the law's. `chanceOfLoss`: P(cost > price); `expectedLoss`: E(cost - price)+, over all jobs. */
  readonly tried: { readonly price: Minor; readonly chanceOfLoss: number; readonly expectedLoss: Minor };
  /** Chance, 0 to 1, that the job costs the amount or less; amounts rise. */
  readonly curve: readonly { readonly amount: Minor; readonly chance: number }[];
  /** Largest first. */
  readonly contributions: readonly RiskShare[];
  readonly buyPlans: readonly PlannedBuy[];
  /** Days from now by which half of such jobs are ready, and four in five. */
  readonly completion: {
    readonly p50: { readonly days: number; readonly on: IsoDate };
    readonly p80: { readonly days: number; readonly on: IsoDate };
  };
  /** So many possible faults overlap that some access is reckoned more than once: the figures are somewhat high. */
  readonly bounded?: true;
  readonly pricing: PricingUsed;
}

export interface RiskShare {
  readonly source: "condition" | "labour" | "sourcing" | "if found";
  /** Id of a grade, of a line ('labour:ITEM', 'access:shelf'), of a part kind, or of a group that may be found. */
  readonly id: string;
  readonly name: string;
  /** What certainty about this alone would take off P80; below 0 where its expected cost weighs more than its chance. */
  readonly takesOff: Minor;
}

export interface PricingUsed {
  readonly by: Pricing;
  /** Every time and part as charged, nothing found; without scarcity margin where a buy plan takes its place. */
  readonly deterministic: Minor;
  /** What the lines, allowances and charges come to. */
  readonly price: Minor;
  /** What the pricing asks for. */
  readonly ceiling?: Minor;
  /** Why the price, or the ceiling, is higher than the confidence or the percentage alone would have it. */
  readonly raisedTo?: "deterministic price" | "minimum margin";
}

/** How to buy one part so that enough pieces are good. */
export interface PlannedBuy {
  readonly part: NonNullable<Line["part"]>;
  /** The group that may be found and needs it; absent: the work as charged. */
  readonly group?: string;
  /** Good pieces wanted beyond the shelf. */
  readonly needed: number;
  readonly serviceLevel: number;
  readonly buys: readonly Buy[];
  /** Beyond what the sheet charges for freight already. */
  readonly freight: Minor;
  readonly spend: Minor;
  /** Reorders of what turns out bad included. */
  readonly expectedSpend: Minor;
  /** P(enough good pieces). */
  readonly probability: number;
  /** Whether that is the service level or better. */
  readonly reached: boolean;
  /** What would bring the chance up to the service level. */
  readonly raisers: readonly Raiser[];
  readonly leadDays: number;
  /** A reorder adds this. */
  readonly reorderDays: number;
}

export interface Buy {
  readonly offer: string;
  readonly source: string;
  readonly state?: OfferState;
  readonly packs: number;
  readonly pieces: number;
  /** Packs and pulling, freight apart. */
  readonly spend: Minor;
}

/** What would bring the chance up to the service level, everything else on offer being bought too. */
export type Raiser =
  | { readonly is: "an offer" }
  | {
      readonly is: "more of an offer";
      readonly offer: string;
      readonly source: string;
      readonly state?: OfferState;
      readonly pieces: number;
    }
  | { readonly is: "pieces surely good"; readonly pieces: number }
  | { readonly is: "a lower service level"; readonly level: number };
