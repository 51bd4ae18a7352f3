/** What a shop types in before it prices anything: the rate book, the offers and the terms of this job, as figures. */
import type { EstimateInput, Minor, ThreePoint } from "../../../src/estimating/input.js";
import { decimalsOf } from "../../../src/estimating/money/currency.js";
import type { Table } from "./flatOds.js";

export const decimals = ({ currency }: EstimateInput): number => decimalsOf(currency)!;
/** Minor units as people write money. */
export const money = (amount: Minor, input: EstimateInput): number => amount / 10 ** decimals(input);

const NO_LIMIT = 1e9;

/** Three columns each: shortest, likely, longest. */
export const ENDS = ["low", "likely", "high"] as const;
const three = (time: ThreePoint | undefined) => ENDS.map((end) => time?.[end] ?? "");
const heads = (name: string) => ENDS.map((end) => `${name}, ${end}`);

export function rateTables(input: EstimateInput): Table[] {
  const { rateBook: book, policy = {}, offers = [] } = input;
  const write = (amount: Minor) => money(amount, input);
  const { sundries } = book.parts;
  const { discount } = policy;
  return [
    {
      name: "Job",
      heads: ["term", "figure"],
      rows: [
        ["condition percent", book.grades.find(({ id }) => id === input.unit.grade)!.labourPercent],
        ["access class", book.accessClass],
        ["step", book.billing.incrementMinutes],
        ["least charge", write(book.billing.minimumCharge)],
        ["sundries of parts", sundries.percentOfParts],
        ["sundries of labour", sundries.percentOfLabour],
        ["sundries cap", sundries.cap === undefined ? NO_LIMIT : write(sundries.cap)],
        ["rush percent", policy.rush ? book.fees.rushPercent : 0],
        ["discount percent", discount && "percent" in discount ? discount.percent : 0],
        ["discount amount", discount && "amount" in discount ? write(discount.amount) : 0],
        ["prepaid", write(policy.prepaid ?? 0)],
        ["labour tax", book.tax.labour],
        ["parts tax", book.tax.parts],
        ["freight tax", book.tax.freight],
        ["fees tax", book.tax.fees],
      ],
    },
    {
      name: "Classes",
      heads: ["class", "rate per hour", "attended"],
      rows: book.labourClasses.map(({ id, ratePerHour, attended }) => [id, write(ratePerHour), Number(attended)]),
    },
    {
      name: "Fasteners",
      heads: ["kind", ...heads("remove"), ...heads("refit")],
      rows: [
        ...book.fasteners.map(({ kind, remove, refit }) => [kind, ...three(remove), ...three(refit)]),
        ...book.accessStandards.map(({ size, mounting, remove, refit }) => [
          `${size} ${mounting}`,
          ...three(remove),
          ...three(refit),
        ]),
      ],
    },
    {
      name: "Leads",
      heads: ["step", ...heads("minutes per lead")],
      rows: (["desolder", "clear", "fit", "solder", "inspect"] as const).map((step) => [step, ...three(book.leads[step])]),
    },
    {
      name: "Operations",
      heads: ["operation", "class", ...heads("set-up"), ...heads("each"), "replaces a part"],
      rows: book.operations.map(({ id, labourClass, setup, unit, sort }) => [
        id,
        labourClass,
        ...three(setup),
        ...three(unit),
        Number(sort === "replacement"),
      ]),
    },
    {
      name: "Types",
      heads: ["part type", "leads", ...heads("minutes")],
      rows: book.partTypes.map(({ id, leads, minutes }) => [id, leads ?? "", ...three(minutes)]),
    },
    {
      name: "MarkUp",
      heads: ["unit cost up to", "percent"],
      rows: book.parts.markUp.map(({ upTo, percent }) => [upTo === undefined ? NO_LIMIT : write(upTo), percent]),
    },
    {
      name: "Scarcity",
      heads: ["class", "margin percent", "whole packs"],
      rows: Object.entries(book.scarcity.marginPercent).map(([scarcity, percent]) => [
        scarcity,
        percent,
        Number(scarcity === "scarce" || scarcity === "donor only" || book.parts.packs === "whole"),
      ]),
    },
    {
      name: "Offers",
      heads: ["offer", "kind", "source", "pack price", "pack size", "fewest packs", "freight", "minutes to pull", "each", "used"],
      rows: offers.map((offer, index) => [
        offer.id,
        offer.kind,
        offer.source,
        write(offer.price),
        offer.packSize,
        offer.minimumPacks ?? 1,
        write(offer.freight ?? 0),
        offer.pullMinutes ?? 0,
        { formula: `[.D${index + 2}]/[.E${index + 2}]` },
        { formula: `COUNTIF([$Parts.$D$2:.$D$999];[.A${index + 2}])` },
      ]),
    },
    {
      name: "TaxRates",
      heads: ["category", "percent"],
      rows: book.tax.categories.map(({ id, percent }) => [id, percent]),
    },
  ];
}
