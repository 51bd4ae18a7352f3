/**
 * Agreement profiles: what a place's law or usage asks of a written estimate, as dated data with its source.
 * Not legal advice: every document and page that shows one says 'check your local law'.
 */
import type { IsoDate, Percent } from "../input.js";

/** Fields a document must carry; `missingFields` looks each up. */
export const DOCUMENT_FIELDS = [
  "shop name",
  "shop address",
  "shop phone",
  "shop e-mail",
  "shop registration",
  "owner name",
  "owner address",
  "date",
  "maker and model",
  "serial",
  "reported fault",
  "work described",
  "total",
  "highest price",
  "validity",
  "days to complete",
  "price of diagnosis",
  "price of teardown and reassembly",
  "stored data notice",
  "used parts notice",
] as const;
export type DocumentField = (typeof DOCUMENT_FIELDS)[number];

export interface AgreementProfile {
  readonly id: string;
  readonly name: string;
  readonly inForceFrom: IsoDate;
  readonly source: string;
  /** How the source was read: the text itself, a secondary source, or from memory. */
  readonly basis: "text read" | "secondary source" | "from memory" | "shop's own";
  /** Percent the bill may exceed the agreed amount without a new agreement; null: the law states no figure, and the tool then allows none. */
  readonly tolerancePercent: Percent | null;
  /** Whether the agreed amount and the tolerance are measured with tax. */
  readonly taxCounts: boolean;
  /** Days the estimate binds at least; the rate book's days apply where this is absent or shorter. */
  readonly validityDays?: number;
  readonly writtenEstimate: boolean;
  /** A spoken agreement to more work counts when it is recorded. */
  readonly spokenAgreement: boolean;
  readonly partsReturned: "offered" | "on request" | "not stated";
  readonly requires: readonly DocumentField[];
  /** Words a document may not use for its amount. */
  readonly neverCalled: readonly string[];
  readonly warrantyDays?: number;
  readonly notes: readonly string[];
}

const BASIC: readonly DocumentField[] = [
  "shop name",
  "owner name",
  "date",
  "maker and model",
  "work described",
  "total",
  "validity",
];

export const PROFILES: readonly AgreementProfile[] = [
  {
    id: "plain",
    name: "No law profile: the shop's own terms",
    inForceFrom: "2026-01-01",
    source: "common practice, no source",
    basis: "shop's own",
    tolerancePercent: 0,
    taxCounts: true,
    writtenEstimate: true,
    spokenAgreement: true,
    partsReturned: "on request",
    requires: BASIC,
    neverCalled: [],
    notes: [],
  },
  {
    id: "us-ca",
    name: "California: electronic set repair",
    inForceFrom: "2024-01-01",
    source: "16 CCR 2721, 2722, 2722.5, 2723; Business and Professions Code 9844.5",
    basis: "text read",
    tolerancePercent: 0,
    taxCounts: false,
    writtenEstimate: true,
    spokenAgreement: true,
    partsReturned: "offered",
    requires: [
      "shop name",
      "shop address",
      "shop phone",
      "shop registration",
      "owner name",
      "owner address",
      "date",
      "maker and model",
      "serial",
      "reported fault",
      "total",
      "price of diagnosis",
      "price of teardown and reassembly",
    ],
    neverCalled: ["minimum"],
    notes: [
      "Nothing above the estimate without the owner's prior consent, written or spoken (16 CCR 2722(a)).",
      "Sales tax is not part of the estimate (16 CCR 2722(b)).",
      "The price of teardown and reassembly follows the pattern of sister rules (16 CCR 3353(c)); for this trade it is from memory.",
    ],
  },
  {
    id: "us-md-pg",
    name: "Prince George's County, Maryland: television and radio repair",
    inForceFrom: "2024-01-01",
    source: "Prince George's County Code 24A-107",
    basis: "text read",
    tolerancePercent: 10,
    taxCounts: true,
    writtenEstimate: true,
    spokenAgreement: true,
    partsReturned: "offered",
    requires: [...BASIC, "serial", "price of diagnosis", "used parts notice"],
    neverCalled: [],
    notes: [
      "Not more than 10 % above the estimate without prior consent.",
      "The invoice separates labour and parts and marks used or rebuilt parts.",
    ],
  },
  {
    id: "ca-on",
    name: "Ontario: Consumer Protection Act 2002, section 10",
    inForceFrom: "2005-07-30",
    source: "Consumer Protection Act 2002 s.10, as explained by the province",
    basis: "secondary source",
    tolerancePercent: 10,
    taxCounts: true,
    writtenEstimate: true,
    spokenAgreement: false,
    partsReturned: "not stated",
    requires: [...BASIC, "shop address"],
    neverCalled: [],
    notes: ["Not more than 10 % above the estimate unless the consumer agrees to an amended one."],
  },
  {
    id: "ca-qc",
    name: "Quebec: Consumer Protection Act, repair of appliances",
    inForceFrom: "2024-01-01",
    source: "CPA P-40.1 s.168 and following; consumer regulator's page on electronic devices",
    basis: "text read",
    tolerancePercent: 0,
    taxCounts: true,
    writtenEstimate: true,
    spokenAgreement: false,
    partsReturned: "on request",
    requires: [...BASIC, "shop address", "owner address"],
    neverCalled: [],
    warrantyDays: 90,
    notes: [
      "Only repairs the owner expressly authorised may be added.",
      "Warranty of three months on parts and labour from delivery.",
    ],
  },
  {
    id: "de",
    name: "Germany: cost estimate, BGB 649",
    inForceFrom: "2018-01-01",
    source: "BGB 649, 632(3)",
    basis: "text read",
    tolerancePercent: null,
    taxCounts: true,
    writtenEstimate: true,
    spokenAgreement: true,
    partsReturned: "not stated",
    requires: BASIC,
    neverCalled: [],
    notes: [
      "The law states no figure: a substantial overrun must be notified without undue delay and the owner may then terminate. This tool allows none without agreement.",
    ],
  },
  {
    id: "uk",
    name: "United Kingdom: Consumer Rights Act 2015, sections 49 to 52",
    inForceFrom: "2015-10-01",
    source: "Consumer Rights Act 2015 ss.49-52, explanatory notes",
    basis: "text read",
    tolerancePercent: null,
    taxCounts: true,
    writtenEstimate: false,
    spokenAgreement: true,
    partsReturned: "not stated",
    requires: BASIC,
    neverCalled: [],
    notes: ["What the trader writes is binding where the consumer relies on it.", "Consumer prices are shown with VAT."],
  },
  {
    id: "au",
    name: "Australia: Australian Consumer Law, section 101 and repair notices",
    inForceFrom: "2011-07-01",
    source: "ACL s.101; repair notices in force since 1 July 2011",
    basis: "text read",
    tolerancePercent: null,
    taxCounts: true,
    writtenEstimate: false,
    spokenAgreement: true,
    partsReturned: "not stated",
    requires: [...BASIC, "stored data notice", "used parts notice"],
    neverCalled: [],
    notes: [
      "An itemised bill is owed within 7 days when asked for within 30 days.",
      "Notice before accepting goods that hold the owner's data.",
    ],
  },
  {
    id: "eu-form",
    name: "European repair information form, Directive (EU) 2024/1799",
    inForceFrom: "2026-07-31",
    source: "Directive (EU) 2024/1799, article 4",
    basis: "secondary source",
    tolerancePercent: 0,
    taxCounts: true,
    validityDays: 30,
    writtenEstimate: true,
    spokenAgreement: false,
    partsReturned: "not stated",
    requires: [
      ...BASIC,
      "shop address",
      "shop phone",
      "shop e-mail",
      "reported fault",
      "highest price",
      "days to complete",
      "price of diagnosis",
    ],
    neverCalled: [],
    notes: [
      "Conditions bind for at least 30 calendar days.",
      "The list of fields is from memory; check annex I before relying on it.",
    ],
  },
];

export const profileOf = (id: string | undefined): AgreementProfile =>
  PROFILES.find((profile) => profile.id === id) ?? PROFILES[0]!;
