import { z } from "zod";
import { pricing } from "./estimateInput.js";
import { offerState } from "./part.js";
import {
  amount,
  boardSize,
  fastenerKind,
  hazard,
  maybe,
  minutes,
  mounting,
  percent,
  scarcity,
  taxRounding,
  threePoint,
} from "./primitives.js";

const text = z.string();
/** Beside the sheet, where the paperwork names any. */
export const packagePrices = maybe(
  z.array(z.strictObject({ name: z.string(), options: z.array(z.string()), total: amount, ceiling: amount })).meta({
    description:
      "The packages of the paperwork side by side, as on the page and the PDF: each with what all comes to, tax included, when exactly its options are agreed to, and the ceiling that is agreed with it",
  }),
);
const texts = z.array(text);
const named = z.strictObject({ id: text, name: text });

export const rule = z
  .enum([
    "access charged once per opening",
    "billing increment",
    "minimum charge",
    "mark-up by unit cost",
    "whole packs",
    "scarcity margin",
    "sundries percentage",
    "sundries cap",
    "freight once per source",
    "rush percentage",
    "diagnosis fee",
    "diagnosis fee credited",
    "storage",
    "discount",
    "promised price",
    "ceiling above total",
    "ceiling set by owner",
    "ceiling by agreement profile",
    "ceiling for what may turn up",
    "price is fixed",
    "allowance for risk",
    "diagnosis limit",
    "deposit on scarce parts",
    "deposit on labour",
  ])
  .meta({ id: "Rule" });

export const source = z
  .discriminatedUnion("is", [
    z.strictObject({ is: z.literal("item"), id: text }),
    z.strictObject({ is: z.literal("assembly"), id: text, name: text }),
    z.strictObject({ is: z.literal("boards"), size: boardSize, mounting, count: z.number() }),
    z.strictObject({ is: z.literal("operation"), id: text, name: text }),
    z.strictObject({ is: z.literal("rate book"), entry: text }),
    z.strictObject({ is: z.literal("offer"), id: text, source: text, on: text }),
    z.strictObject({
      is: z.literal("exchange"),
      what: z.enum(["pack", "freight"]),
      currency: text,
      price: amount,
      rate: text,
      on: text,
      source: text,
      amount,
    }),
    z.strictObject({ is: z.literal("duty"), percent, base: amount, amount }),
    z.strictObject({ is: z.literal("import tax"), percent, base: amount, amount }),
    z.strictObject({ is: z.literal("landed"), packSize: z.number(), amount }),
    z.strictObject({ is: z.literal("parcel fee"), amount }),
    z.strictObject({ is: z.literal("minimum order"), packs: z.number(), packSize: z.number(), used: z.number() }),
    z.strictObject({ is: z.literal("stock"), kind: text }),
    z.strictObject({ is: z.literal("policy"), entry: text }),
    z.strictObject({ is: z.literal("rule"), rule }),
  ])
  .meta({ id: "Source" });

const scarcityReason = z
  .discriminatedUnion("is", [
    z.strictObject({ is: z.literal("set by hand") }),
    z.strictObject({ is: z.literal("on the shelf"), stock: z.number() }),
    z.strictObject({ is: z.literal("new parts offered"), sources: z.number() }),
    z.strictObject({ is: z.literal("few sources"), sources: z.number() }),
    z.strictObject({ is: z.literal("several sources"), sources: z.number() }),
    z.strictObject({ is: z.literal("not enough offered"), offered: z.number(), needed: z.number() }),
    z.strictObject({ is: z.literal("old offers only"), newest: text }),
    z.strictObject({ is: z.literal("donor pulls only") }),
    z.strictObject({ is: z.literal("no offers") }),
    z.strictObject({ is: z.literal("usual part") }),
  ])
  .meta({ id: "ScarcityReason" });

export const why = z
  .discriminatedUnion("rule", [
    z.strictObject({ rule: z.literal("worked") }),
    z.strictObject({ rule: z.literal("in the way of"), of: texts }),
    z.strictObject({ rule: z.literal("joined to"), to: texts }),
    z.strictObject({
      rule: z.literal("by standard"),
      size: boardSize,
      mounting,
      lowMinutes: minutes,
      highMinutes: minutes,
    }),
    z.strictObject({
      rule: z.literal("leads"),
      leads: z.number(),
      minutesEach: minutes,
      setupMinutes: minutes,
      gradePercent: maybe(z.number()),
    }),
    z.strictObject({
      rule: z.literal("each"),
      minutesEach: minutes,
      setupMinutes: minutes,
      setups: z.number(),
      gradePercent: maybe(z.number()),
    }),
    z.strictObject({ rule: z.literal("fixed price"), price: amount, service: maybe(z.literal(true)) }),
    z.strictObject({ rule: z.literal("brought by the owner") }),
    z.strictObject({
      rule: z.literal("price of this line"),
      catalogue: amount,
      per: z.number(),
      cost: amount,
      reason: text,
      source: maybe(text),
    }),
    z.strictObject({ rule: z.literal("scarcity"), scarcity, percent, because: scarcityReason }),
    z.strictObject({
      rule: z.literal("buy plan"),
      needed: z.number(),
      pieces: z.number(),
      probability: z.number(),
      expected: amount,
      catalogue: amount,
    }),
    z.strictObject({ rule: z.literal("increment"), minutes, increment: minutes }),
    z.strictObject({ rule: z.literal("minimum"), minimum: amount }),
    z.strictObject({ rule: z.literal("credited") }),
    z.strictObject({ rule: z.literal("storage days"), days: z.number() }),
    z.strictObject({ rule: z.literal("labour allowance") }),
    z.strictObject({ rule: z.literal("sourcing allowance"), parts: texts }),
    z.strictObject({ rule: z.literal("if-found allowance"), work: texts }),
    z.strictObject({ rule: z.literal("margin allowance") }),
    z.strictObject({ rule: z.literal("reason"), text }),
  ])
  .meta({ id: "Why" });

const taxClass = z.enum(["labour", "parts", "freight", "fees"]);

export const linePart = z.strictObject({ type: text, kind: maybe(text), name: text });

export const sheetLine = z
  .strictObject({
    id: text,
    sort: z.enum([
      "access",
      "replacement",
      "cleaning",
      "alignment",
      "inspection",
      "fault finding",
      "test",
      "soak",
      "other",
      "labour rounding",
      "minimum charge",
      "donor pull",
      "part",
      "scarcity margin",
      "allowance",
      "fee",
    ]),
    taxClass,
    taxCategory: text,
    assembly: maybe(named),
    operation: maybe(named),
    part: maybe(linePart),
    labourClass: maybe(named),
    count: maybe(z.number()),
    minutes: maybe(minutes),
    times: maybe(threePoint),
    unitPriceE4: maybe(z.number()),
    amount,
    why: maybe(why),
    from: z.array(source),
  })
  .meta({ id: "Line" });

export const adjustment = z
  .strictObject({
    id: text,
    sort: z.enum(["discount", "sundries", "freight", "rush", "promised price"]),
    charge: z.boolean(),
    amount,
    taxCategory: text,
    taxClass,
    percent: maybe(percent),
    base: maybe(amount),
    reason: maybe(text),
    from: z.array(source),
  })
  .meta({ id: "Adjustment" });

export const totals = z
  .strictObject({
    linesNet: amount,
    allowances: amount,
    charges: amount,
    withoutTax: amount,
    taxGroups: z.array(z.strictObject({ category: text, name: text, percent, base: amount, tax: amount })),
    tax: amount,
    total: amount,
    prepaid: amount,
    due: amount,
    pricesIncludeTax: z.boolean(),
    rounding: taxRounding,
  })
  .meta({ id: "Totals" });

const openedStep = z
  .strictObject({
    id: text,
    name: text,
    remove: threePoint,
    refit: threePoint,
    fasteners: z.array(z.strictObject({ kind: fastenerKind, count: z.number() })),
    why: z.array(why),
    worked: z.boolean(),
    rests: z.enum(["fasteners", "measured", "standard"]),
    hazards: z.array(hazard),
  })
  .meta({ id: "OpenedStep" });

const accessResult = z
  .strictObject({
    removal: z.array(openedStep),
    refit: z.array(z.strictObject({ id: text, name: text, minutes, after: texts })),
    boards: z.array(z.strictObject({ size: boardSize, mounting, count: z.number(), minutes: threePoint })),
    alreadyOpen: texts,
    minutes: threePoint,
  })
  .meta({ id: "AccessResult" });

const partResult = z
  .strictObject({
    type: text,
    kind: maybe(text),
    name: text,
    needed: z.number(),
    charged: z.number(),
    scarcity,
    because: scarcityReason,
    offer: maybe(text),
    source: maybe(text),
    leadDays: z.number(),
    cost: amount,
    markUpPercent: percent,
  })
  .meta({ id: "PartResult" });

export const groupPrice = z
  .strictObject({
    id: text,
    items: texts,
    names: texts,
    reason: maybe(text),
    probability: maybe(z.number()),
    chosen: maybe(z.boolean()),
    refused: maybe(z.int()),
    price: amount,
    net: amount,
    minutes,
    covered: maybe(z.literal(true)),
  })
  .meta({ id: "GroupPrice" });

const suggestion = z
  .strictObject({
    assembly: named,
    operation: named,
    count: z.number(),
    partType: maybe(text),
    reason: text,
    now: amount,
    later: amount,
  })
  .meta({ id: "Suggestion" });

export const companion = z.strictObject({ operation: named, reason: text, items: texts }).meta({ id: "OfferedCompanion" });

export const warning = z
  .discriminatedUnion("is", [
    z.strictObject({ is: z.literal("possible work above ceiling"), total: amount, ceiling: amount }),
    z.strictObject({ is: z.literal("value share"), percent, limit: percent, total: amount, declared: amount }),
    z.strictObject({
      is: z.literal("lower voltage"),
      item: text,
      part: text,
      original: z.number(),
      replacement: z.number(),
    }),
    z.strictObject({
      is: z.literal("derating"),
      item: text,
      part: text,
      working: z.number(),
      rated: z.number(),
      limitPercent: percent,
    }),
    z.strictObject({ is: z.literal("polarised"), item: text, part: text }),
    z.strictObject({ is: z.literal("not audio grade"), item: text, part: text }),
    z.strictObject({
      is: z.literal("value off"),
      item: text,
      part: text,
      offPercent: percent,
      tolerancePercent: percent,
    }),
    z.strictObject({ is: z.literal("value unreadable"), item: text, part: text, marking: text }),
    z.strictObject({ is: z.literal("old offer"), offer: text, part: text, on: text, days: z.number() }),
    z.strictObject({ is: z.literal("not enough offered"), part: text, needed: z.number(), offered: z.number() }),
    z.strictObject({
      is: z.literal("minimum order"),
      part: text,
      source: text,
      packs: z.number(),
      packSize: z.number(),
      used: z.number(),
      amount,
      unused: amount,
    }),
    z.strictObject({
      is: z.literal("old exchange rate"),
      currency: text,
      rate: text,
      on: text,
      days: z.number(),
      goodForDays: z.number(),
    }),
    z.strictObject({
      is: z.literal("access by standard"),
      lowMinutes: minutes,
      likelyMinutes: minutes,
      highMinutes: minutes,
    }),
    z.strictObject({ is: z.literal("memory not asked") }),
    z.strictObject({ is: z.literal("above ceiling"), total: amount, ceiling: amount }),
    z.strictObject({ is: z.literal("discount limited"), asked: amount, given: amount }),
    z.strictObject({ is: z.literal("currency scale"), currency: text, decimals: z.number() }),
    z.strictObject({ is: z.literal("missing glyphs"), text, characters: texts }),
  ])
  .meta({ id: "Warning" });

const raiser = z
  .discriminatedUnion("is", [
    z.strictObject({ is: z.literal("an offer") }),
    z.strictObject({
      is: z.literal("more of an offer"),
      offer: text,
      source: text,
      state: maybe(offerState),
      pieces: z.number(),
    }),
    z.strictObject({ is: z.literal("pieces surely good"), pieces: z.number() }),
    z.strictObject({ is: z.literal("a lower service level"), level: z.number() }),
  ])
  .meta({ id: "Raiser" });

const plannedBuy = z
  .strictObject({
    part: linePart,
    group: maybe(text),
    needed: z.number(),
    serviceLevel: z.number(),
    buys: z.array(
      z.strictObject({
        offer: text,
        source: text,
        state: maybe(offerState),
        packs: z.number(),
        pieces: z.number(),
        spend: amount,
      }),
    ),
    freight: amount,
    spend: amount,
    expectedSpend: amount,
    probability: z.number(),
    reached: z.boolean(),
    raisers: z.array(raiser),
    leadDays: z.number(),
    reorderDays: z.number(),
  })
  .meta({ id: "PlannedBuy" });

const readyBy = z.strictObject({ days: z.number(), on: text });

export const riskSummary = z
  .strictObject({
    taxIncluded: z.boolean(),
    expected: amount,
    sd: amount,
    p10: amount,
    p50: amount,
    p80: amount,
    p95: amount,
    tried: z.strictObject({ price: amount, chanceOfLoss: z.number(), expectedLoss: amount }),
    curve: z.array(z.strictObject({ amount, chance: z.number() })),
    contributions: z.array(
      z.strictObject({
        source: z.enum(["condition", "labour", "sourcing", "if found"]),
        id: text,
        name: text,
        takesOff: amount,
      }),
    ),
    buyPlans: z.array(plannedBuy),
    completion: z.strictObject({ p50: readyBy, p80: readyBy }),
    bounded: maybe(z.literal(true)).meta({
      description: "So many possible faults overlap that some access is reckoned more than once: the figures are somewhat high",
    }),
    pricing: z.strictObject({
      by: pricing,
      deterministic: amount,
      price: amount,
      ceiling: maybe(amount),
      raisedTo: maybe(z.enum(["deterministic price", "minimum margin"])),
    }),
  })
  .meta({ id: "RiskSummary" });

const detail = z.enum(["counts", "grid", "map", "mixed", "none"]);

export const sheet = z
  .strictObject({
    schema: z.literal(1),
    asOf: text,
    currency: text,
    rateBook: z.strictObject({ id: text, version: z.number(), name: text }),
    detail: z.strictObject({ access: detail, work: detail }),
    access: accessResult,
    lines: z.array(sheetLine),
    behind: maybe(z.array(sheetLine)).meta({ description: "Work behind services, at no charge of its own" }),
    adjustments: z.array(adjustment),
    totals,
    time: z.strictObject({
      ...{ attended: minutes, unattended: minutes, billed: minutes, spread: threePoint },
      charged: maybe(z.strictObject({ attended: minutes, unattended: minutes, access: minutes })).meta({
        description: "Where expected minutes are charged: what the lines say, and the work behind services",
      }),
    }),
    parts: z.array(partResult),
    ifFound: z.array(groupPrice),
    options: z.array(groupPrice),
    suggestions: z.array(suggestion),
    companions: maybe(z.array(companion)),
    ceiling: z.strictObject({ amount, net: maybe(amount), from: source }).meta({
      description: "As owner, law or pricing set it; agreeing to a total above it raises it (`neverMore` beside the sheet)",
    }),
    ifDeclined: z.strictObject({
      amount,
      diagnosis: amount,
      access: amount,
      tax: amount,
      limit: maybe(amount),
      limited: z.boolean(),
    }),
    deposit: z.strictObject({ amount, from: z.array(source) }),
    days: z.strictObject({ total: z.number(), queue: z.number(), lead: z.number(), bench: z.number() }),
    validUntil: text,
    hazards: z.array(z.strictObject({ hazard, from: texts, assumed: maybe(z.boolean()) })).meta({
      description: "assumed: nobody said how the unit is powered, so it counts as mains powered",
    }),
    memory: maybe(z.strictObject({ asked: z.boolean(), cells: texts, saved: texts })).meta({
      description: "Ids of work on a cell that may keep what the unit holds, and of the work that saves it first",
    }),
    warnings: z.array(warning),
    risk: maybe(riskSummary),
  })
  .meta({ id: "Sheet" });
