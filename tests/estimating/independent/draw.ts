/** Small random estimates from a seed, quick to draw: every sort of line, every tax rule, figures that do not divide evenly. All invented. */
import type {
  Assembly,
  BoardSize,
  Certainty,
  EstimateInput,
  Mounting,
  Offer,
  PartKind,
  Policy,
  RateBook,
  TaxRules,
  ThreePoint,
  WorkItem,
} from "../../../src/estimating/input.js";
import { PLAIN } from "../cast/plainBook.js";

export interface Dice {
  /** A whole number from 0 up to, not including, `below`. */
  readonly roll: (below: number) => number;
  readonly chance: (share: number) => boolean;
  readonly pick: <T>(of: readonly T[]) => T;
}

/** Mulberry32, a public-domain generator: the same seed gives the same dice. */
export function dice(seed: number): Dice {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const roll = (below: number) => Math.floor(next() * below);
  return { roll, chance: (share) => next() < share, pick: (of) => of[roll(of.length)]! };
}

const SIZES: readonly BoardSize[] = ["small", "medium"];
const MOUNTINGS: readonly Mounting[] = ["on top", "behind another"];

export function drawInput({ roll, chance, pick }: Dice): EstimateInput {
  const minutes = (most: number) => roll(most * 1000 + 1) / 1000;
  const percent = (most: number) => (chance(0.3) ? roll(most + 1) : roll(most * 10_000 + 1) / 10_000);
  /** Low, likely and high are drawn apart, so that using the wrong one would show. */
  const times = (most: number): ThreePoint => {
    const [low, likely, high] = [minutes(most), minutes(most), minutes(most)].sort((a, b) => a - b);
    return { low: low!, likely: likely!, high: high! };
  };
  const maybe = <T>(share: number, value: () => T): T | undefined => (chance(share) ? value() : undefined);

  const tax: TaxRules = {
    included: chance(0.4),
    categories: ["a", "b", "c"].map((id) => ({ id, name: id, percent: pick([0, 5, 20, 25, 100, 8.25, percent(40)]) })),
    labour: pick(["a", "b", "c"]),
    parts: pick(["a", "b", "c"]),
    freight: pick(["a", "b", "c"]),
    fees: pick(["a", "b", "c"]),
    rounding: {
      level: pick(["line", "group", "document"]),
      mode: pick(["half up", "half down", "down"]),
      ...(chance(0.3) && { extraDigits: roll(4) }),
    },
  };

  const source = { basis: "demo" } as const;
  const cap = maybe(0.3, () => roll(500));
  const [first, second] = [roll(200), roll(2000)];
  const rateBook: RateBook = {
    ...PLAIN,
    labourClasses: [
      { ...PLAIN.labourClasses[0]!, ratePerHour: roll(12_000) },
      { ...PLAIN.labourClasses[1]!, ratePerHour: roll(12_000) },
      { ...PLAIN.labourClasses[2]!, ratePerHour: roll(600) },
    ],
    // A step within the lines is worked by hand in fixtures/cases.
    billing: chance(0.5)
      ? {
          minutes: "expected",
          ...(chance(0.5) && { setUps: "replacements" }),
          incrementMinutes: 0,
          minimumCharge: pick([0, 0, 4800, 25_000]),
        }
      : { incrementMinutes: pick([0, 0, 6, 15, 7.25]), minimumCharge: pick([0, 0, 4800, 25_000]) },
    grades: [PLAIN.grades[0]!, { ...PLAIN.grades[1]!, labourPercent: percent(200) }],
    fasteners: [
      { kind: "screw", remove: times(1), refit: times(1), source },
      { kind: "ribbon", remove: times(2), refit: times(2), source },
    ],
    accessStandards: SIZES.flatMap((size) =>
      MOUNTINGS.map((mounting) => ({ size, mounting, remove: times(20), refit: times(20), source })),
    ),
    leads: { desolder: times(1), clear: times(1), fit: times(1), solder: times(1), inspect: times(1), source },
    partTypes: [
      { ...PLAIN.partTypes[0]!, typicalCost: roll(300), leads: roll(4) },
      { ...PLAIN.partTypes[2]!, typicalCost: roll(9000), minutes: times(4) },
    ],
    operations: PLAIN.operations.map((operation) => ({ ...operation, setup: times(10), unit: times(8) })),
    parts: {
      packs: pick(["used", "whole"]),
      offerGoodForDays: 90,
      markUp: chance(0.2)
        ? [{ percent: percent(100) }]
        : [{ upTo: first, percent: percent(200) }, { upTo: first + 1 + second, percent: percent(100) }, { percent: percent(50) }],
      sundries: {
        percentOfParts: pick([0, percent(20)]),
        percentOfLabour: pick([0, percent(10)]),
        ...(cap !== undefined && { cap }),
      },
    },
    scarcity: {
      ...PLAIN.scarcity,
      marginPercent: {
        "in stock": pick([0, percent(10)]),
        "to order": pick([0, percent(20)]),
        scarce: percent(80),
        "donor only": percent(200),
      },
    },
    fees: {
      diagnosis: { amount: roll(9000), creditedOnAgreement: chance(0.5) },
      rushPercent: percent(60),
      storagePerDay: roll(400),
    },
    deposit: { scarcePartsPercent: percent(100), labourPercent: percent(100) },
    ceiling: { abovePercent: percent(30) },
    calendar: { weeklyBenchMinutes: 0.5 + minutes(2000) },
    tax,
  };

  const assemblies = Array.from({ length: roll(5) }, (_, at): Assembly => {
    const earlier = at === 0 ? undefined : `a${roll(at)}`;
    return {
      id: `a${at}`,
      name: `Assembly ${at}`,
      sort: "board",
      access: pick([
        {
          by: "fasteners",
          fasteners: [
            { kind: "screw", count: roll(9) },
            { kind: "ribbon", count: roll(3) },
          ],
        },
        { by: "measured", remove: times(9), refit: times(9) },
        { by: "standard", size: pick(SIZES), mounting: pick(MOUNTINGS) },
      ] as const),
      ...(earlier && at % 2 === 1 && { behind: [earlier] }),
      ...(earlier && at % 2 === 0 && chance(0.3) && { joined: [earlier] }),
      ...(chance(0.1) && { worthDoing: [{ operation: "clean", count: 1 + roll(4), reason: "open anyway" }] }),
    };
  });
  const anAssembly = () => `a${roll(assemblies.length)}`;

  // One offer each, of unlimited pieces: which offer is chosen is tested with the parts.
  const kinds: PartKind[] = ["k0", "k1"].map((id) => {
    const stock = maybe(0.3, () => roll(6));
    const scarcity = maybe(0.4, () => pick(["in stock", "to order", "scarce", "donor only"] as const));
    return {
      id,
      type: id === "k0" ? "capacitor" : "valve",
      name: id,
      ...(chance(0.3) && { leads: roll(5) }),
      ...(stock !== undefined && { stock }),
      ...(scarcity && { scarcity }),
    };
  });
  const offers = kinds.map(({ id }): Offer => {
    const minimumPacks = maybe(0.3, () => 1 + roll(3));
    const freight = maybe(0.6, () => roll(900));
    const [duty, importTax] = [maybe(0.2, () => percent(30)), maybe(0.2, () => percent(30))];
    const parcelFee = maybe(0.2, () => roll(900));
    return {
      id: `offer of ${id}`,
      kind: id,
      source: pick(["Pindrake", "Ember Row"]),
      on: "2026-11-01",
      currency: pick(["EUR", "EUR", "EUR", "JPY", "BHD", "USD"]),
      price: roll(4000),
      packSize: 1 + roll(10),
      leadDays: roll(20),
      state: "new",
      ...(minimumPacks !== undefined && { minimumPacks }),
      ...(freight !== undefined && { freight }),
      ...(duty !== undefined && { dutyPercent: duty }),
      ...(importTax !== undefined && { importTaxPercent: importTax }),
      ...(parcelFee !== undefined && { parcelFee }),
    };
  });

  // Of no decimals, of three, and of two (ISO 4217).
  const exchange = ["JPY", "BHD", "USD"].map((currency) => ({
    currency,
    rate: `${roll(3)}.${String(1 + roll(999_999)).padStart(6, "0")}`,
    on: "2026-11-20",
    source: "demo",
  }));

  const items = Array.from({ length: roll(6) }, (_, at): WorkItem => {
    const operation = pick(["replace", "replace", "clean", "adjust", "soak"]);
    const own = maybe(0.15, () => times(6));
    const certainty: Certainty = pick([
      { is: "planned" },
      { is: "planned" },
      { is: "optional", chosen: true },
      { is: "optional", chosen: false, group: "g" },
      { is: "if found", probability: 0.25 },
    ] as const);
    return {
      // The order of the ids is not that of the lines.
      id: `${pick(["m", "z", "c"])}${at}`,
      operation,
      count: roll(12),
      certainty,
      ...(assemblies.length > 0 && chance(0.75) && { assembly: anAssembly() }),
      ...(operation === "replace" && {
        part: pick([{ type: "capacitor" }, { type: "valve" }, { kind: "k0" }, { kind: "k1" }]),
      }),
      ...(own && { minutes: own }),
    };
  });

  const discount = maybe(0.4, () =>
    chance(0.5) ? { percent: percent(100), reason: "goodwill" } : { amount: roll(20_000), reason: "goodwill" },
  );
  const policy: Policy = {
    rush: chance(0.2),
    diagnosis: chance(0.5),
    ...(discount && { discount }),
    ...(chance(0.3) && { storageDays: roll(30) }),
    ...(chance(0.3) && { prepaid: roll(9000) }),
    ...(chance(0.3) && { diagnosisLimit: roll(12_000) }),
    ...(chance(0.3) && { benchQueueDays: roll(30) }),
    ...(chance(0.2) && { ceiling: roll(90_000) }),
  };

  return {
    schema: 1,
    asOf: "2026-11-25",
    currency: "EUR",
    unit: { maker: "Threnwick", model: "Cadence 3", grade: pick(["sound", "worn"]) },
    map: { assemblies },
    boards: chance(0.4) ? [{ size: pick(SIZES), mounting: pick(MOUNTINGS), count: roll(4) }] : [],
    alreadyOpen: assemblies.length > 0 && chance(0.2) ? [anAssembly()] : [],
    toOpen: assemblies.length > 0 && chance(0.2) ? [anAssembly()] : [],
    items,
    kinds,
    offers,
    exchange,
    rateBook,
    policy,
  };
}
