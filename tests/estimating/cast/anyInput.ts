/** Any estimate that can be priced: small, but with everything in it, and rates that do not divide evenly. */
import fc from "fast-check";
import type {
  Assembly,
  EstimateInput,
  Offer,
  PartKind,
  Policy,
  RateBook,
  TaxRules,
  ThreePoint,
  WorkItem,
} from "../../../src/estimating/input.js";
import { PLAIN } from "./plainBook.js";

const milli = (most: number) => fc.integer({ min: 0, max: most * 1000 }).map((value) => value / 1000);

const times = (most: number): fc.Arbitrary<ThreePoint> =>
  fc.tuple(milli(most), milli(most), milli(most)).map((three) => {
    const [low, likely, high] = three.sort((a, b) => a - b) as [number, number, number];
    return { low, likely, high };
  });

/** Percent with up to four decimals. */
const percent = (most: number) => fc.integer({ min: 0, max: most * 10_000 }).map((value) => value / 10_000);
const money = (most: number) => fc.integer({ min: 0, max: most });
const optional = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
const from = <T>(...values: readonly T[]) => fc.constantFrom(...values);

/** Without the keys that are undefined. */
export const defined = <T extends object>(value: T): T =>
  Object.fromEntries(Object.entries(value).filter(([, entry]) => entry !== undefined)) as T;

const CATEGORIES = ["a", "b", "c"] as const;

const tax: fc.Arbitrary<TaxRules> = fc.record({
  included: fc.boolean(),
  categories: fc
    .tuple(percent(100), percent(30), from(0, 6, 20, 21, 25, 100))
    .map((percents) => percents.map((value, i) => ({ id: CATEGORIES[i]!, name: CATEGORIES[i]!, percent: value }))),
  labour: from(...CATEGORIES),
  parts: from(...CATEGORIES),
  freight: from(...CATEGORIES),
  fees: from(...CATEGORIES),
  rounding: fc
    .record({
      level: from("line", "group", "document"),
      mode: from("half up", "half down", "down"),
      extraDigits: optional(fc.integer({ min: 0, max: 3 })),
    })
    .map(defined),
}) as fc.Arbitrary<TaxRules>;

export const anyRateBook: fc.Arbitrary<RateBook> = fc
  .record({
    rates: fc.tuple(money(20_000), money(20_000), money(2000)),
    grade: percent(300),
    increment: from(0, 0, 6, 15, 0.5, 7.25),
    minimumCharge: from(0, 0, 5000),
    fastener: fc.tuple(times(2), times(2), times(2), times(2)),
    standard: fc.tuple(times(30), times(30)),
    lead: times(0.3),
    operations: fc.tuple(times(10), times(5), times(10), times(5), times(10), times(20), times(60)),
    part: fc.tuple(money(500), money(50_000), money(3000), times(3), fc.integer({ min: 0, max: 40 })),
    markUp: fc.tuple(percent(200), percent(100), percent(50), money(300), money(5000)),
    packs: from("used", "whole"),
    setUps: optional(from("any work" as const, "replacements" as const)),
    sundries: fc.record({ percentOfParts: percent(20), percentOfLabour: percent(10), cap: optional(money(2000)) }),
    margins: fc.tuple(percent(10), percent(30), percent(100), percent(200)),
    fees: fc.tuple(money(9000), fc.boolean(), percent(60), money(300)),
    deposit: fc.tuple(percent(100), percent(100)),
    abovePercent: percent(30),
    weekly: milli(3000),
    tax,
  })
  .map((r): RateBook => {
    const [replace, replaceSetup, clean, cleanSetup, adjust, soakSetup, soak] = r.operations;
    const [cheap, mid, dear] = [r.markUp[0], r.markUp[1], r.markUp[2]];
    return {
      ...PLAIN,
      labourClasses: PLAIN.labourClasses.map((each, i) => ({ ...each, ratePerHour: r.rates[i]! })),
      billing: { incrementMinutes: r.increment, minimumCharge: r.minimumCharge, ...(r.setUps && { setUps: r.setUps }) },
      grades: [
        { ...PLAIN.grades[0]!, labourPercent: 100 },
        { ...PLAIN.grades[1]!, labourPercent: r.grade },
      ],
      fasteners: [
        { ...PLAIN.fasteners[0]!, remove: r.fastener[0], refit: r.fastener[1] },
        { ...PLAIN.fasteners[6]!, remove: r.fastener[2], refit: r.fastener[3] },
      ],
      accessStandards: PLAIN.accessStandards.map((each) => ({ ...each, remove: r.standard[0], refit: r.standard[1] })),
      leads: { ...PLAIN.leads, desolder: r.lead, inspect: r.lead },
      partTypes: [
        { ...PLAIN.partTypes[0]!, typicalCost: r.part[0], leads: r.part[4] },
        { ...PLAIN.partTypes[1]!, typicalCost: r.part[1] },
        { ...PLAIN.partTypes[2]!, typicalCost: r.part[2], minutes: r.part[3] },
      ],
      operations: [
        { ...PLAIN.operations[0]!, setup: replaceSetup, unit: replace },
        { ...PLAIN.operations[1]!, setup: cleanSetup, unit: clean },
        { ...PLAIN.operations[2]!, setup: replaceSetup, unit: adjust },
        { ...PLAIN.operations[3]!, setup: soakSetup, unit: soak },
      ],
      parts: {
        ...PLAIN.parts,
        packs: r.packs as RateBook["parts"]["packs"],
        sundries: defined(r.sundries) as RateBook["parts"]["sundries"],
        markUp: [{ upTo: r.markUp[3], percent: cheap }, { upTo: r.markUp[3] + 1 + r.markUp[4], percent: mid }, { percent: dear }],
      },
      scarcity: {
        ...PLAIN.scarcity,
        marginPercent: {
          "in stock": r.margins[0],
          "to order": r.margins[1],
          scarce: r.margins[2],
          "donor only": r.margins[3],
        },
      },
      fees: {
        diagnosis: { amount: r.fees[0], creditedOnAgreement: r.fees[1] },
        rushPercent: r.fees[2],
        storagePerDay: r.fees[3],
      },
      deposit: { scarcePartsPercent: r.deposit[0], labourPercent: r.deposit[1] },
      ceiling: { abovePercent: r.abovePercent },
      calendar: { weeklyBenchMinutes: Math.max(0.001, r.weekly) },
      tax: r.tax,
    };
  });

/** Assembly n can only be behind or joined to those before it. */
const anyAssemblies: fc.Arbitrary<Assembly[]> = fc
  .array(
    fc.record({
      behind: fc.array(fc.nat(100), { maxLength: 2 }),
      joined: fc.array(fc.nat(100), { maxLength: 1 }),
      access: fc.oneof(
        fc.tuple(fc.nat(20), fc.nat(5)).map(([screws, ribbons]) => ({
          by: "fasteners" as const,
          fasteners: [
            { kind: "screw" as const, count: screws },
            { kind: "ribbon" as const, count: ribbons },
          ],
        })),
        fc.record({ by: from("measured" as const), remove: times(20), refit: times(20) }),
        fc.record({
          by: from("standard" as const),
          size: from("small", "medium", "large"),
          mounting: from("on top", "behind another", "behind a panel with knobs"),
        }),
      ) as fc.Arbitrary<Assembly["access"]>,
      worth: fc.boolean(),
    }),
    { maxLength: 6 },
  )
  .map((list) => {
    const earlier = (picks: readonly number[], at: number) => (at === 0 ? [] : picks.map((pick) => `a${pick % at}`));
    return list.map(({ behind, joined, access, worth }, at): Assembly => {
      // A joint that would close a ring is left out: an assembly is either joined or behind others.
      const only = earlier(behind, at);
      return {
        id: `a${at}`,
        name: `Assembly ${at}`,
        sort: "board",
        access,
        ...(at % 3 === 2 ? { joined: earlier(joined, at).slice(0, 1), behind: [] } : { behind: at % 3 === 1 ? only : [] }),
        ...(worth && { worthDoing: [{ operation: "clean", count: 2, reason: "open anyway" }] }),
      };
    });
  });

const anyKinds: readonly PartKind[] = [
  { id: "shelf", type: "capacitor", name: "Shelf capacitor", stock: 5 },
  { id: "usual", type: "capacitor", name: "Usual capacitor", leads: 3 },
  { id: "rare", type: "dip-40", name: "Rare divider", scarcity: "scarce" },
];

const anyOffers: fc.Arbitrary<Offer[]> = fc
  .array(
    fc
      .record({
        kind: from("shelf", "usual", "rare"),
        source: from("Pindrake", "Ember Row", "Halden"),
        on: from("2026-11-01", "2026-05-01"),
        price: money(9000),
        packSize: fc.integer({ min: 1, max: 10 }),
        minimumPacks: optional(fc.integer({ min: 1, max: 3 })),
        available: optional(fc.integer({ min: 0, max: 40 })),
        leadDays: fc.nat(30),
        state: from("new", "new old stock", "used", "donor pull", "reproduction"),
        freight: optional(money(1500)),
        pullMinutes: optional(milli(10)),
      })
      .map((offer) => defined({ ...offer, currency: "EUR" }) as unknown as Offer),
    { maxLength: 5 },
  )
  .map((offers) => offers.map((offer, i) => ({ ...offer, id: `offer-${i}` })));

const anyPolicy: fc.Arbitrary<Policy> = fc
  .record({
    discount: optional(
      fc.oneof(
        percent(100).map((value) => ({ percent: value, reason: "goodwill" })),
        money(30_000).map((amount) => ({ amount, reason: "goodwill" })),
      ),
    ),
    rush: optional(fc.boolean()),
    storageDays: optional(fc.nat(60)),
    diagnosis: optional(fc.boolean()),
    diagnosisLimit: optional(money(20_000)),
    prepaid: optional(money(20_000)),
    benchQueueDays: optional(fc.nat(40)),
    ceiling: optional(money(90_000)),
    scarcityByType: optional(from({}, { valve: "scarce" as const })),
  })
  .map((policy) => defined(policy) as Policy);

const anyItem = (assemblies: number): fc.Arbitrary<Omit<WorkItem, "id">> =>
  fc
    .record({
      assembly: optional(fc.nat(Math.max(0, assemblies - 1))),
      work: from("replace", "replace", "clean", "adjust", "soak"),
      part: from(
        { type: "capacitor" },
        { type: "dip-40" },
        { type: "valve" },
        { kind: "shelf" },
        { kind: "usual" },
        { kind: "rare" },
      ),
      count: fc.nat(30),
      minutes: optional(times(10)),
      certainty: from(
        { is: "planned" },
        { is: "planned" },
        { is: "optional", chosen: true },
        { is: "optional", chosen: false, group: "both" },
        { is: "if found", probability: 0.3 },
      ),
    })
    .map(({ assembly, work, part, ...rest }) =>
      defined({
        ...rest,
        operation: work,
        assembly: assembly === undefined || assemblies === 0 ? undefined : `a${assembly}`,
        part: work === "replace" ? part : undefined,
      }),
    ) as fc.Arbitrary<Omit<WorkItem, "id">>;

export const anyInput: fc.Arbitrary<EstimateInput> = fc
  .tuple(anyRateBook, anyAssemblies, anyOffers, anyPolicy)
  .chain(([rateBook, assemblies, offers, policy]) =>
    fc
      .record({
        items: fc.array(anyItem(assemblies.length), { maxLength: 8 }),
        boards: fc.array(
          fc.record({
            size: from("small", "medium", "large"),
            mounting: from("on top", "behind another", "behind a panel with knobs"),
            count: fc.nat(4),
          }),
          { maxLength: 3 },
        ),
        open: fc.array(fc.nat(99), { maxLength: 2 }),
        toOpen: fc.array(fc.nat(99), { maxLength: 2 }),
        grade: from("sound", "worn"),
      })
      .map(({ items, boards, open, toOpen, grade }): EstimateInput => {
        const places = (picks: readonly number[]) =>
          assemblies.length === 0 ? [] : picks.map((pick) => `a${pick % assemblies.length}`);
        return {
          schema: 1,
          asOf: "2026-11-25",
          currency: "EUR",
          unit: { maker: "Threnwick", model: "Cadence 3", grade, declaredValue: 50_000 },
          map: { assemblies },
          boards: boards as unknown as EstimateInput["boards"] & object,
          alreadyOpen: places(open),
          toOpen: places(toOpen),
          items: items.map((item, i) => ({ ...item, id: `item-${i}` })),
          kinds: anyKinds,
          offers,
          rateBook,
          policy,
        };
      }),
  );
