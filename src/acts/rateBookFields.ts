/**
 * What is changed of a rate book, said once for its pages, programs and tables: any part of it. What is given changes, `null` takes away
 * (RFC 7396), what is not said stays; a row of a list goes by its id, and one without is new.
 */
import { z } from "zod";
import { BOARD_SIZES, FASTENER_KINDS, HAZARDS, MOUNTINGS, OFFER_STATES, SCARCITIES } from "../estimating/lists.js";
import { LIMITS } from "../estimating/problems.js";
import { COST_IS } from "../wording/saying.js";
import { maybe, type Saying, saying, several } from "./field.js";
import { ident, isoDate, line, minutes, percent, provenance } from "./shapes/primitives.js";
import { rateBook as whole } from "./shapes/rateBook.js";

type Told = Omit<Saying, "label" | "kind" | "empties">;
const leaf = <S extends z.ZodType>(schema: S, kind: Saying["kind"], label: string, told: Told = {}) =>
  maybe(saying(schema, { ...told, label, kind, empties: true }).nullable());

const text = (label: string, told?: Told) => leaf(line, "line", label, told);
const money = (label: string, told?: Told) =>
  leaf(
    z.number().check(z.gte(0), z.lte(LIMITS.amount)).meta({ description: "Integer minor units of the currency" }),
    "money",
    label,
    told,
  );
const share = (label: string, told?: Told) => leaf(percent, "decimal", label, { unit: "%", decimals: 4, ...told });
const days = (label: string, told?: Told) => leaf(z.number(), "whole", label, { unit: "days", ...told });
const whole_ = (label: string, told?: Told) => leaf(z.number(), "whole", label, told);
const time = (label: string, told?: Told) => leaf(minutes, "decimal", label, { unit: "min", decimals: 3, ...told });
const figure = (label: string, told?: Told) => leaf(z.number(), "decimal", label, { decimals: 4, ...told });
const yes = (label: string, told?: Told) => leaf(z.boolean(), "tick", label, told);
const pick = <C extends string>(label: string, choices: readonly C[], told?: Told) =>
  leaf(z.enum(choices), "choice", label, { choices, ...told });
const of = <S extends z.ZodRawShape>(id: string, shape: S) =>
  z.strictObject(shape).meta({ id, description: "What changes of one row; null takes away, what is not said stays" });

const times = (label: string) =>
  maybe(z.strictObject({ low: time(`${label}, low`), likely: time(`${label}, likely`), high: time(`${label}, high`) }));
const key = { id: maybe(saying(ident, { label: "Id", kind: "line" })) };
const source = maybe(
  z.strictObject({
    basis: pick("Rests on", provenance.shape.basis.options),
    note: text("Source or note", { hint: "Such as where it was read, or how it was measured" }),
  }),
);
const retiredOn = leaf(isoDate, "day", "Offered", { hint: "Retired: kept for what rests on it, and not offered any more" });
const hazards = leaf(z.array(z.enum(HAZARDS)), "several", "Cautions", { choices: HAZARDS });
const labourClass = text("Labour class");
const { family, dielectric } = whole.shape.partTypes.element.shape;
const ways = { remove: times("Take off"), refit: times("Put back"), source, retiredOn };

/** Key of the book -> what a row of it is called in a sentence. */
export const ROWS: Readonly<Record<string, string>> = {
  labourClasses: "Labour class",
  grades: "Condition grade",
  fasteners: "Fastener",
  accessStandards: "Access standard",
  partTypes: "Part type",
  operations: "Operation",
  services: "Service",
  categories: "Tax category",
  markUp: "Mark-up band",
};

const book = {
  name: text("Name of the rate book"),
  labourClasses: maybe(
    z.array(
      of("LabourClassChange", {
        ...key,
        name: text("Kind of work"),
        ratePerHour: money("An hour"),
        attended: yes("Somebody attends", { hint: "No: a soak test or charging; it takes the bench and nobody's hands" }),
        source,
        retiredOn,
      }),
    ),
  ),
  accessClass: text("Opening and closing is charged as", { help: "counting#access" }),
  billing: maybe(
    z.strictObject({
      minutes: pick("Time charged", ["expected", "likely"], {
        help: "counting#expected",
        hint: "Expected: the mean of shortest, four times likely and longest. At likely times most jobs lose money: times run over more than under",
      }),
      setUps: pick("Set up on each counted board", ["replacements", "any work"], {
        help: "counting#set-ups",
        hint: "Where boards are counted and not named. Replacements: cleaning, tests and the rest are set up once for the unit",
      }),
      incrementMinutes: time("Billing step", { hint: "Time is billed in steps of this; 0: to the minute" }),
      minimumCharge: money("Minimum charge", { hint: "For labour and access together" }),
    }),
  ),
  fees: maybe(
    z.strictObject({
      diagnosis: maybe(
        z.strictObject({
          amount: money("Diagnosis fee", { hint: "For looking at it and saying what it would cost" }),
          creditedOnAgreement: yes("Credited when the work goes ahead"),
        }),
      ),
      rushPercent: share("Rush charge", { hint: "On labour and access" }),
      storagePerDay: money("Storage, a day"),
    }),
  ),
  tax: maybe(
    z.strictObject({
      included: yes("Rates and prices include tax", { help: "taxes" }),
      categories: maybe(
        z.array(
          of("TaxCategoryChange", { ...key, name: text("Tax, as printed", { hint: "Such as VAT 20 %" }), percent: share("Tax") }),
        ),
      ),
      ...{
        labour: text("Tax on labour"),
        parts: text("Tax on parts"),
        freight: text("Tax on freight"),
        fees: text("Tax on fees"),
      },
      rounding: maybe(
        z.strictObject({
          level: pick("Tax is rounded", whole.shape.tax.shape.rounding.shape.level.options),
          mode: pick("A half goes", whole.shape.tax.shape.rounding.shape.mode.options),
          extraDigits: whole_("Digits kept on a line"),
        }),
      ),
    }),
  ),
  parts: maybe(
    z.strictObject({
      markUp: maybe(
        z.array(
          of("MarkUpBandChange", {
            upTo: money("Up to a cost of", { hint: "Empty: everything dearer" }),
            percent: share("Mark-up", {
              hint: "On the cost without tax. Where your prices include tax, it has to cover that tax too",
            }),
          }),
        ),
      ),
      packs: pick("Packs", ["used", "whole"]),
      offerGoodForDays: days("An offer is good for"),
      exchangeGoodForDays: days("An exchange rate is good for"),
      sundries: maybe(
        z.strictObject({
          percentOfParts: share("Sundries on parts"),
          percentOfLabour: share("Sundries on labour"),
          cap: money("Sundries, at most"),
        }),
      ),
    }),
  ),
  deposit: maybe(
    z.strictObject({
      scarcePartsPercent: share("Deposit on scarce parts", { help: "pricing#deposit" }),
      labourPercent: share("Deposit on labour", { help: "pricing#deposit" }),
    }),
  ),
  validityDays: days("An estimate stands for"),
  ceiling: maybe(
    z.strictObject({
      abovePercent: share("Ceiling above the total", { help: "pricing#ceiling" }),
      leavesRoom: yes("Room for the dearest possible work", {
        help: "pricing#ceiling",
        hint: "What was agreed in advance can then be done without asking again",
      }),
    }),
  ),
  risk: pick("What several possible faults open", ["shared", "each"], {
    help: "pricing#risk",
    hint: "In the risk of a job and a fixed price: paid once, however many of them turn up",
  }),
  safety: pick("A unit counts as mains powered", ["by default", "as said"], {
    help: "safety",
    hint: "Cautions, a safety test to offer, and the question what a unit with a memory cell holds",
  }),
  valueSharePercent: share("Flag a total above this share of the unit's value"),
  calendar: maybe(z.strictObject({ weeklyBenchMinutes: time("Bench time in a week") })),
  operations: maybe(
    z.array(
      of("OperationChange", {
        ...key,
        name: text("Name"),
        sort: pick("Sort", whole.shape.operations.element.shape.sort.options),
        labourClass,
        setup: times("Set-up"),
        unit: times("Each"),
        hazards,
        source,
        retiredOn,
      }),
    ),
  ),
  services: maybe(
    z.array(
      of("ServiceChange", {
        ...key,
        name: text("Name"),
        price: money("Price", { hint: "For all of it, whatever its work takes" }),
        work: maybe(
          z.array(
            of("ServiceWorkChange", {
              operation: text("Work"),
              own: maybe(z.strictObject({ name: text("Or in your own words"), labourClass, minutes: times("Minutes"), hazards })),
              part: maybe(z.strictObject({ type: text("Part") })),
              count: figure("Count"),
              minutes: times("Minutes in place of the standard"),
            }),
          ),
        ),
        note: text("Note"),
        source,
        retiredOn,
      }),
    ),
  ),
  partTypes: maybe(
    z.array(
      of("PartTypeChange", {
        ...key,
        name: text("Name"),
        family: pick("Family", family.options),
        leads: whole_("Soldered leads", { hint: "Its time follows from them. Empty: give minutes" }),
        minutes: times("Each, not soldered"),
        replacedBy: text("Fitted by", { hint: "The bench work it counts as in the grid, where it is not Replace" }),
        typicalCost: money("Usual cost", { hint: COST_IS }),
        polarised: yes("Polarised"),
        dielectric: pick("Dielectric", dielectric.def.innerType.options),
        hazards,
        source,
        retiredOn,
      }),
    ),
  ),
  fasteners: maybe(
    z.array(
      of("FastenerChange", {
        kind: saying(z.enum(FASTENER_KINDS), { label: "Kind", kind: "choice", choices: FASTENER_KINDS }),
        ...ways,
      }),
    ),
  ),
  accessStandards: maybe(
    z.array(
      of("AccessStandardChange", {
        size: saying(z.enum(BOARD_SIZES), { label: "Board", kind: "choice", choices: BOARD_SIZES }),
        mounting: saying(z.enum(MOUNTINGS), { label: "Where it sits", kind: "choice", choices: MOUNTINGS }),
        remove: ways.remove,
        refit: ways.refit,
        source,
      }),
    ),
  ),
  leads: maybe(
    z.strictObject({
      ...{
        desolder: times("Desolder"),
        clear: times("Clear"),
        fit: times("Fit"),
        solder: times("Solder"),
        inspect: times("Inspect"),
      },
      source,
    }),
  ),
  grades: maybe(
    z.array(
      of("ConditionGradeChange", {
        ...key,
        name: text("Name"),
        labourPercent: share("Times at"),
        spreadPercent: share("Spread", { hint: "How far jobs of this grade differ from one another" }),
        source,
        retiredOn,
      }),
    ),
  ),
  scarcity: maybe(
    z.strictObject({
      marginFrom: pick("Margin of a scarce part", ["offers", "percent"], {
        help: "scarce-parts#margin",
        hint: "Offers: what buying enough good ones is expected to cost, by its own offers; the percentages where nobody offers it",
      }),
      marginPercent: maybe(
        z.strictObject(
          Object.fromEntries(SCARCITIES.map((each) => [each, share(`Margin, ${each}`, { help: "scarce-parts#margin" })])),
        ),
      ),
      serviceLevel: figure("Chance wanted of enough good pieces", {
        hint: "Above 0 and below 1, such as 0.9",
        help: "scarce-parts#margin",
      }),
      fewSources: whole_("Scarce below so many sources"),
      freshDays: days("An offer counts as fresh for"),
      shareGood: maybe(
        z.strictObject(
          Object.fromEntries(
            OFFER_STATES.map((each) => [
              each,
              figure(`Expected to be good, ${each}`, {
                hint: "From 1 to 100",
                help: "scarce-parts#share-good",
                share: true,
                unit: "%",
              }),
            ]),
          ),
        ),
      ),
      source,
    }),
  ),
};

const { companions } = whole.shape;

export const changeFields = z
  .strictObject({
    inForceFrom: saying(z.iso.date(), { label: "In force from", kind: "day" }),
    carryOut: maybe(saying(z.boolean(), { label: "Save it", kind: "tick" })).meta({
      description: "Absent or false: nothing is written, and what it would do is told",
    }),
    drafts: maybe(several("Open drafts that are priced by it")).meta({
      description: "Ids of drafts; the others keep the version they were begun with",
    }),
    ...book,
    companions,
  })
  .meta({
    id: "RateBookChange",
    description: "What changes from a day on; null takes away, what is not said stays, rows go by id",
  });
export type RateBookChange = z.output<typeof changeFields>;
