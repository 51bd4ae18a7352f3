/**
 * What an estimate is computed from: one plain JSON value. The same value always gives the same sheet, byte for byte.
 *
 * Units everywhere: money = integer minor units of `currency` (ISO 4217); time = minutes, up to three decimals;
 * percentages = percent, up to four decimals (8.25 is 8.25 %); probabilities and shares = 0 to 1; dates = ISO 8601 YYYY-MM-DD.
 */
import type {
  ASSEMBLY_SORTS,
  BOARD_SIZES,
  FASTENER_KINDS,
  HAZARDS,
  MOUNTINGS,
  OFFER_STATES,
  PAPER_DETAILS,
  POWERS,
  SCARCITIES,
} from "./lists.js";

export type IsoDate = string;
export type CurrencyCode = string;
/** Integer minor units of the estimate's currency. */
export type Minor = number;
/** Minutes, up to three decimals. */
export type Minutes = number;
/** Percent, up to four decimals. */
export type Percent = number;

/** A time as low / likely / high, in minutes. What a count charges of it: see `Billing.minutes`. */
export interface ThreePoint {
  readonly low: Minutes;
  readonly likely: Minutes;
  readonly high: Minutes;
}

/** Where a figure comes from: 'published', 'from memory', 'common practice, no source', 'measured here', 'demo'. */
export interface Provenance {
  readonly basis: "published" | "from memory" | "common practice, no source" | "measured here" | "demo";
  readonly note?: string;
}

export interface EstimateInput {
  readonly schema: 1;
  /** Offers and rates are read as of this day. */
  readonly asOf: IsoDate;
  readonly currency: CurrencyCode;
  readonly unit: Unit;
  /** Named assemblies (grid and map level). */
  readonly map?: TeardownMap;
  /** Plain board counts (counts level). May stand beside a map that is only partly drawn. */
  readonly boards?: readonly BoardCount[];
  /** Assemblies that are open already; only what must be opened beyond them is charged. */
  readonly alreadyOpen?: readonly string[];
  /**
   * Assemblies that stand open and whose own opening no estimate charges, such as those opened for diagnosis. Unlike with
   * `alreadyOpen`, what stands in front of them is charged when it must come off.
   */
  readonly openAtNoCharge?: readonly string[];
  /** Assemblies to open whether or not an item names them: boards that were counted before they were named. */
  readonly toOpen?: readonly string[];
  readonly items: readonly WorkItem[];
  readonly kinds?: readonly PartKind[];
  readonly offers?: readonly Offer[];
  /** The shop's rates for what is offered in another currency, one a currency. */
  readonly exchange?: readonly ExchangeRate[];
  readonly rateBook: RateBook;
  readonly policy?: Policy;
  /** Who and where, for the documents only. Never changes a figure. */
  readonly paperwork?: Paperwork;
}

export interface Unit {
  readonly maker: string;
  readonly model: string;
  readonly serial?: string;
  readonly declaredValue?: Minor;
  /** Id of one of the rate book's condition grades. Absent: nobody has judged it yet; it counts as the first of them, and no paper names one. */
  readonly grade?: string;
  readonly accessories?: readonly string[];
  readonly condition?: string;
  readonly reported?: string;
  readonly found?: string;
  /** What the unit holds of the owner's data, such as patch memories; an empty text says it holds none. */
  readonly storedData?: string;
  readonly hazards?: readonly Hazard[];
  /** Absent: nobody said; a rate book with `safety: "by default"` takes it for mains. */
  readonly power?: (typeof POWERS)[number];
}

export type Hazard = (typeof HAZARDS)[number];

export type AssemblySort = (typeof ASSEMBLY_SORTS)[number];

export interface TeardownMap {
  readonly assemblies: readonly Assembly[];
  /** `first` must be refitted before `then`. */
  readonly fitBefore?: readonly FitBefore[];
}

export interface FitBefore {
  readonly first: string;
  readonly then: string;
  readonly why?: string;
}

export interface Assembly {
  readonly id: string;
  readonly name: string;
  readonly sort: AssemblySort;
  readonly access: Access;
  /** Assemblies that must be off to reach this one. */
  readonly behind?: readonly string[];
  /** Assemblies that come out together with this one. Symmetric: either side may state it. */
  readonly joined?: readonly string[];
  readonly hazards?: readonly Hazard[];
  readonly notes?: string;
  /** Counts the grid starts from: part type id or cleaning operation id -> count. */
  readonly counts?: Readonly<Record<string, number>>;
  /** Work worth doing while this is open. */
  readonly worthDoing?: readonly WorthDoing[];
}

export interface WorthDoing {
  readonly operation: string;
  readonly count: number;
  readonly partType?: string;
  readonly reason: string;
}

export type FastenerKind = (typeof FASTENER_KINDS)[number];

export type BoardSize = (typeof BOARD_SIZES)[number];
export type Mounting = (typeof MOUNTINGS)[number];

/** How an assembly's own removal and refit are timed. */
export type Access =
  | { readonly by: "fasteners"; readonly fasteners: readonly { readonly kind: FastenerKind; readonly count: number }[] }
  | { readonly by: "measured"; readonly remove: ThreePoint; readonly refit: ThreePoint }
  | { readonly by: "standard"; readonly size: BoardSize; readonly mounting: Mounting };

export interface BoardCount {
  readonly size: BoardSize;
  readonly mounting: Mounting;
  readonly count: number;
}

export type Certainty =
  | { readonly is: "planned" }
  /** Agreed in advance, charged only if needed. Items of one `group` turn up together (one Bernoulli). */
  | { readonly is: "if found"; readonly probability: number; readonly group?: string }
  /**
   * The owner chooses. Items of one `group` are one option; `chosen` must then agree. `refused`: the number of the revision in which
   * the owner left this work out; it stays out until it is chosen, or planned anew.
   */
  | { readonly is: "optional"; readonly chosen: boolean; readonly group?: string; readonly refused?: number };

export interface WorkItem {
  readonly id: string;
  /** Absent: the unit as a whole. */
  readonly assembly?: string;
  /** What is done, said in one of three ways: an operation of the rate book, the shop's own words, or a service of the rate book. */
  readonly operation?: string;
  readonly own?: OwnWork;
  readonly service?: string;
  readonly count: number;
  /** What each count consumes: a part type of the rate book, a part kind of the catalogue, or a part in the shop's own words. */
  readonly part?: { readonly type: string } | { readonly kind: string } | { readonly own: OwnPart };
  /** Another price for a known part on this line alone. */
  readonly partPrice?: PartPrice;
  readonly certainty: Certainty;
  readonly reason?: string;
  /** Minutes per count where the shop knows better than its rate book. */
  readonly minutes?: ThreePoint;
  /** What is fitted now, for the substitution warnings. */
  readonly original?: OriginalPart;
}

/** Work in the shop's own words, by its minutes per count, or at a fixed price per count; minutes beside a price are for days and risk. */
export interface OwnWork {
  readonly name: string;
  /** Absent: the one that access is charged at. */
  readonly labourClass?: string;
  readonly minutes?: ThreePoint;
  /** Below 0: a credit. */
  readonly price?: Minor;
  /** Where it is not that of labour. */
  readonly taxCategory?: string;
  readonly hazards?: readonly Hazard[];
}

/** A part in the shop's own words: bought at a cost, or brought by the owner. */
export interface OwnPart {
  readonly name: string;
  /** Part type of the rate book whose leads or minutes it takes. */
  readonly type?: string;
  /** It costs nothing and the shop gives no warranty on it. */
  readonly broughtByOwner?: true;
  /** Per piece. */
  readonly cost?: Minor;
  readonly source?: string;
  /** Absent: new. */
  readonly state?: OfferState;
  readonly leadDays?: number;
  readonly packSize?: number;
  readonly minimumPacks?: number;
  readonly shareGood?: number;
}

export interface PartPrice {
  /** Per piece. */
  readonly cost: Minor;
  readonly reason: string;
  readonly source?: string;
  /** Days to arrive; absent: as its offers say. */
  readonly leadDays?: number;
}

export interface OriginalPart {
  readonly type?: string;
  /** Trade marking, such as 2u2 or 104K. */
  readonly value?: string;
  /** Volts. */
  readonly ratedVolts?: number;
  readonly workingVolts?: number;
  readonly tolerancePercent?: Percent;
  readonly audioGrade?: boolean;
}

export type Scarcity = (typeof SCARCITIES)[number];
export type OfferState = (typeof OFFER_STATES)[number];

export interface PartKind {
  readonly id: string;
  /** Id of one of the rate book's part types. */
  readonly type: string;
  readonly name: string;
  /** Trade marking: 4k7, 2u2, 104, R47, 104K, 8 MFD, 250 uuF. */
  readonly value?: string;
  readonly ratedVolts?: number;
  readonly tolerancePercent?: Percent;
  /** radial, axial, DIP-16, ... */
  readonly form?: string;
  readonly audioGrade?: boolean;
  /** Overrides the number of leads of the part type. */
  readonly leads?: number;
  /** Set by hand; otherwise computed from the offers. */
  readonly scarcity?: Scarcity;
  /** Pieces on the shelf, free of freight and lead time. */
  readonly stock?: number;
  readonly notes?: string;
}

/** Whole pieces, 0 or more. */
export interface SeenGood {
  readonly good: number;
  readonly bad: number;
}

export interface Offer {
  readonly id: string;
  readonly kind: string;
  readonly source: string;
  readonly on: IsoDate;
  readonly currency: CurrencyCode;
  /** For one pack. */
  readonly price: Minor;
  readonly packSize: number;
  /** Fewest packs sold at once. */
  readonly minimumPacks?: number;
  /** Pieces to be had; absent: no known limit. */
  readonly available?: number;
  readonly leadDays: number;
  readonly state: OfferState;
  /** Share expected to be good, 0 < share <= 1. Absent: 1 for new and reproduction parts, the rate book's share for the other states. */
  readonly shareGood?: number;
  /** Pieces like these that came in and were tested. They correct the share, which counts for five pieces, and say how sure it is. */
  readonly seenGood?: SeenGood;
  /** Once per source and estimate. */
  readonly freight?: Minor;
  /** Of the price, freight apart. */
  readonly dutyPercent?: Percent;
  /** Of price and duty. */
  readonly importTaxPercent?: Percent;
  /** Asked on each parcel, in the estimate's currency; paid with the freight. */
  readonly parcelFee?: Minor;
  /** Minutes to pull one piece from a donor unit. */
  readonly pullMinutes?: Minutes;
}

/** What the shop reckons another currency at. */
export interface ExchangeRate {
  readonly currency: CurrencyCode;
  /** Units of the estimate's currency for one of it: a plain decimal, such as 0.7915. */
  readonly rate: string;
  readonly on: IsoDate;
  readonly source: string;
}

export interface RateBook {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly currency: CurrencyCode;
  readonly inForceFrom: IsoDate;
  readonly labourClasses: readonly LabourClass[];
  readonly billing: Billing;
  readonly grades: readonly ConditionGrade[];
  readonly fasteners: readonly FastenerStandard[];
  readonly accessStandards: readonly AccessStandard[];
  /** Labour class that access is charged at. */
  readonly accessClass: string;
  /** Minutes per lead of a soldered replacement. */
  readonly leads: LeadStandard;
  readonly partTypes: readonly PartType[];
  readonly operations: readonly Operation[];
  /** Offered, never forced. */
  readonly companions?: readonly Companion[];
  /** Work sold at a price of its own. */
  readonly services?: readonly Service[];
  readonly parts: PartsRules;
  readonly scarcity: ScarcityRules;
  readonly fees: Fees;
  readonly deposit: { readonly scarcePartsPercent: Percent; readonly labourPercent: Percent };
  readonly tax: TaxRules;
  /** The ceiling stands this far above the total. */
  readonly ceiling: {
    readonly abovePercent: Percent;
    /** And at least the total with the dearest possible work, which was agreed in advance. Absent: the percentage alone, as books had it. */
    readonly leavesRoom?: boolean;
  };
  readonly calendar: { readonly weeklyBenchMinutes: Minutes };
  /**
   * How the risk of a job is reckoned. 'shared': what several possible faults need is opened, set up and paid once; what is certain to turn up is
   * as if planned; buy plans by least expected spend. Absent: each fault by itself, as books had it.
   */
  readonly risk?: "each" | "shared";
  /**
   * 'by default': a unit counts as mains powered and its supply as charged until someone says otherwise, and a memory cell asks what the
   * unit holds. Absent: only what is said counts, as books had it.
   */
  readonly safety?: "by default" | "as said";
  /** Flag the estimate when the total passes this share of the declared value. */
  readonly valueSharePercent: Percent;
  readonly validityDays: number;
}

/** What stands for what rests on it from this day, and is not offered any more. */
interface Retirable {
  readonly retiredOn?: IsoDate;
}

export interface LabourClass extends Retirable {
  readonly id: string;
  readonly name: string;
  readonly ratePerHour: Minor;
  /** false: soak test, charging; occupies the bench calendar, not a person. */
  readonly attended: boolean;
  readonly source: Provenance;
}

export interface Billing {
  /**
   * What a count charges of a three-point time. 'expected': its mean, (low + 4 likely + high) / 6, with the billing step within the lines
   * it belongs to. Absent: the likely time, with a line for the step; so priced what was made before there was a choice, and a shop loses
   * money by it, because times skew high.
   */
  readonly minutes?: "likely" | "expected";
  /**
   * What work on the unit as a whole is set up on each counted board for. 'replacements': they alone, and all else once. Absent: any work,
   * as books had it, which prices counts above what the same work comes to by its assemblies.
   */
  readonly setUps?: "any work" | "replacements";
  /** Attended minutes of each labour class are billed in steps of this; 0 = to the exact minute. */
  readonly incrementMinutes: Minutes;
  /** Least charge for labour and access together, before tax. */
  readonly minimumCharge: Minor;
}

export interface ConditionGrade extends Retirable {
  readonly id: string;
  readonly name: string;
  /** All attended minutes are multiplied by this. */
  readonly labourPercent: Percent;
  /** Coefficient of variation, in percent, of the unit-condition factor within this grade. */
  readonly spreadPercent: Percent;
  readonly source: Provenance;
}

export interface FastenerStandard extends Retirable {
  readonly kind: FastenerKind;
  readonly remove: ThreePoint;
  readonly refit: ThreePoint;
  readonly source: Provenance;
}

export interface AccessStandard {
  readonly size: BoardSize;
  readonly mounting: Mounting;
  readonly remove: ThreePoint;
  readonly refit: ThreePoint;
  readonly source: Provenance;
}

export interface LeadStandard {
  readonly desolder: ThreePoint;
  readonly clear: ThreePoint;
  readonly fit: ThreePoint;
  readonly solder: ThreePoint;
  readonly inspect: ThreePoint;
  readonly source: Provenance;
}

export type PartFamily =
  | "capacitor"
  | "resistor"
  | "control"
  | "semiconductor"
  | "valve"
  | "cell"
  | "connector"
  | "lamp"
  | "mechanical"
  | "other";

/** One column of the count grid. */
export interface PartType extends Retirable {
  readonly id: string;
  readonly name: string;
  readonly family: PartFamily;
  /** Soldered leads per piece: the replacement's minutes derive from them. */
  readonly leads?: number;
  /** Minutes per piece for parts that are not soldered (plugged, clipped, screwed). Give `leads` or `minutes`. */
  readonly minutes?: ThreePoint;
  /** Id of the replacement that this type is taken for; absent: the first of the book. */
  readonly replacedBy?: string;
  readonly polarised?: boolean;
  readonly dielectric?: "aluminium" | "tantalum" | "film" | "other";
  /** Cost of a usual one, for counts without a part kind. */
  readonly typicalCost: Minor;
  readonly hazards?: readonly Hazard[];
  readonly source: Provenance;
}

type OperationSort = "replacement" | "cleaning" | "alignment" | "inspection" | "fault finding" | "test" | "soak" | "other";

/** Bench work with a time standard. A cleaning operation is a column of the count grid. */
export interface Operation extends Retirable {
  readonly id: string;
  readonly name: string;
  readonly sort: OperationSort;
  readonly labourClass: string;
  /** Once per assembly and operation. */
  readonly setup: ThreePoint;
  /** Per count; for a replacement this is handling, and the part type's minutes come on top. */
  readonly unit: ThreePoint;
  readonly hazards?: readonly Hazard[];
  readonly source: Provenance;
}

/** Work that usually follows other work: that of these sorts, on parts of these families, at such places, or under one of these hazards. */
export interface Companion {
  /** Id of one of the rate book's operations. */
  readonly operation: string;
  /** It comes before anything is opened, such as saving a memory. */
  readonly first?: true;
  readonly after: {
    readonly sorts?: readonly OperationSort[];
    readonly families?: readonly PartFamily[];
    readonly places?: readonly AssemblySort[];
    readonly hazards?: readonly Hazard[];
  };
  readonly reason: string;
}

/** A flat-rate line: sold at its price as one line. What is behind it tells time, parts and cautions, and bears no charge of its own. */
export interface Service extends Retirable {
  readonly id: string;
  readonly name: string;
  readonly price: Minor;
  /** For one count of the service. */
  readonly work: readonly ServiceWork[];
  readonly note?: string;
  readonly source: Provenance;
}

/** By an operation of the rate book, or by the shop's own words and minutes. */
export interface ServiceWork {
  readonly operation?: string;
  readonly own?: Omit<OwnWork, "price" | "taxCategory">;
  readonly count: number;
  readonly part?: { readonly type: string };
  readonly minutes?: ThreePoint;
}

export interface PartsRules {
  /** First band whose `upTo` is not below the unit cost; the last band has no `upTo`. */
  readonly markUp: readonly { readonly upTo?: Minor; readonly percent: Percent }[];
  /** 'used': the pieces used are charged; 'whole': whole packs are charged. Scarce and donor-only parts are always charged in whole packs. */
  readonly packs: "used" | "whole";
  /** Offers older than this are warned about. */
  readonly offerGoodForDays: number;
  /** Exchange rates older than this are warned about; absent: 14. */
  readonly exchangeGoodForDays?: number;
  readonly sundries: { readonly percentOfParts: Percent; readonly percentOfLabour: Percent; readonly cap?: Minor };
}

export interface ScarcityRules {
  /**
   * Where the margin of a hard part comes from. 'offers': what its buy plan is expected to spend beyond the catalogue cost, and the
   * percentages only where nobody offers it. Absent: the percentages, whatever its offers say.
   */
  readonly marginFrom?: "percent" | "offers";
  /** Margin on the catalogue cost of each class. */
  readonly marginPercent: Readonly<Record<Scarcity, Percent>>;
  /** Chance wanted of having enough good pieces, 0 < level < 1. */
  readonly serviceLevel: number;
  /** A part is scarce when it has fewer sources than this, none of them new. */
  readonly fewSources: number;
  /** An offer counts as fresh for this many days. */
  readonly freshDays: number;
  /** Share good assumed where the offer does not say. */
  readonly shareGood: Readonly<Record<OfferState, number>>;
  readonly source: Provenance;
}

interface Fees {
  readonly diagnosis: { readonly amount: Minor; readonly creditedOnAgreement: boolean };
  /** Percent of labour and access. */
  readonly rushPercent: Percent;
  readonly storagePerDay: Minor;
}

export interface TaxCategory {
  readonly id: string;
  /** Name as printed, such as 'VAT 20 %'. */
  readonly name: string;
  readonly percent: Percent;
}

export interface TaxRules {
  /** true: all rates, prices and fees include tax. */
  readonly included: boolean;
  readonly categories: readonly TaxCategory[];
  readonly labour: string;
  readonly parts: string;
  readonly freight: string;
  readonly fees: string;
  readonly rounding: TaxRounding;
}

export interface TaxRounding {
  readonly level: "line" | "group" | "document";
  readonly mode: "half up" | "half down" | "down";
  /** Line level only: digits kept beyond the minor unit before the sum is rounded (0 if absent). */
  readonly extraDigits?: number;
}

/** What is decided for this one estimate. */
export interface Policy {
  /** `taxCategory`: off the lines of that category alone. */
  readonly discount?:
    | { readonly percent: Percent; readonly reason: string; readonly taxCategory?: string }
    | { readonly amount: Minor; readonly reason: string; readonly taxCategory?: string };
  readonly rush?: boolean;
  readonly storageDays?: number;
  /** Charge the rate book's diagnosis fee. */
  readonly diagnosis?: boolean;
  /** Agreed limit, tax included, on what is owed if the owner declines after opening. */
  readonly diagnosisLimit?: Minor;
  readonly prepaid?: Minor;
  readonly benchQueueDays?: number;
  /** The owner's own ceiling, tax included. Otherwise the rate book's percentage above the total. */
  readonly ceiling?: Minor;
  /** Scarcity set by hand per part type of the grid. */
  readonly scarcityByType?: Readonly<Record<string, Scarcity>>;
  /** Id of the agreement profile (agreement/profile.ts). */
  readonly profile?: string;
  /** How the price stands to the risk of the job. Absent: as counted. */
  readonly pricing?: Pricing;
}

/** `confidencePercent`: how many of 100 such jobs may cost no more. `minimumMarginPercent`: least share of the price left over the expected cost. */
export type Pricing =
  /** Every time at `likely`, the rate book's margin on scarce parts, nothing found. */
  | { readonly is: "as counted" }
  /** Risk stands in the price as allowance lines; what may be found is within it. */
  | { readonly is: "fixed price"; readonly confidencePercent: Percent; readonly minimumMarginPercent?: Percent }
  /** The price is what is counted; the ceiling holds at the confidence. */
  | { readonly is: "time and parts with ceiling"; readonly confidencePercent: Percent; readonly minimumMarginPercent?: Percent }
  /** A fixed price of the expected cost and so many percent of it. */
  | { readonly is: "expected cost plus"; readonly percent: Percent; readonly minimumMarginPercent?: Percent };

export interface Party {
  readonly name: string;
  readonly address?: readonly string[];
  readonly phone?: string;
  readonly email?: string;
  readonly taxNumber?: string;
  readonly registration?: string;
}

export interface Paperwork {
  readonly shop?: Party;
  readonly owner?: Party;
  readonly number?: string;
  readonly revision?: number;
  readonly date?: IsoDate;
  /** Address of the owner's page, printed as text and QR. */
  readonly link?: string;
  /** What the owner types beside the number where the link cannot be followed. */
  readonly code?: string;
  /** Short form of the head of the job's chain of events as this left the shop; printed at the foot. */
  readonly chainHead?: string;
  readonly terms?: readonly string[];
  /** Why a work item was dropped or corrected since the revision before, by its id. */
  readonly whyChanged?: Readonly<Record<string, string>>;
  readonly paper?: "A4" | "Letter";
  /** BCP 47, such as en-GB: how figures and days are written. */
  readonly locale?: string;
  /** BCP 47 language of the document's own words, such as de; English when absent or not known. */
  readonly language?: string;
  /** How much of the reckoning the owner's paper shows; absent: letter. Totals and rights are the same. */
  readonly detail?: PaperDetail;
  /** The technician's words for the owner: what is wrong, and what will be done. */
  readonly summary?: string;
  /** Sets of options, side by side for the owner to pick one. */
  readonly packages?: readonly Package[];
  /** How texts that the fonts cannot print are spelled on paper: by the text as it stands. */
  readonly spellings?: Readonly<Record<string, string>>;
  /** What the shop's own names are called in the paper's language, by the text as it stands. */
  readonly names?: Readonly<Record<string, string>>;
  /** Printed small at the foot of every page, such as the bank account. */
  readonly footer?: readonly string[];
  /** SHA-256, in hex, of the picture at the top; its bytes are given beside the input. */
  readonly logo?: string;
  /** Printed on the last pages; their bytes are given beside the input. */
  readonly photos?: readonly PaperPhoto[];
}

/** A set of options under a name, such as minimal, advised, full. Options that the estimate has no more are in no set. */
export interface Package {
  readonly name: string;
  /** Ids of options on the sheet. */
  readonly options: readonly string[];
}

export type PaperDetail = (typeof PAPER_DETAILS)[number];

export interface PaperPhoto {
  /** Id of the photo on record. */
  readonly id: string;
  /** Of its file, in hex. */
  readonly sha256: string;
  readonly caption?: string;
  /** How it is turned to stand upright, 2 to 8 as in Exif 2.32, tag Orientation; absent: as it is. */
  readonly turn?: number;
}
