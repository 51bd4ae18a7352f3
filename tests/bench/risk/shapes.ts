/** Thirty invented jobs (demo): 1 to 200 items, places in trees and diamonds, set-ups, reorders, steps, least charge, spreads of 10 to 90 %. One bench minute costs 1.00. */
import type { Assembly, EstimateInput, Offer, PartKind, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { assembly, item, job } from "../../estimating/cast/organ.js";
import { PLAIN } from "../../estimating/cast/plainBook.js";

/** Spreads whole numbers evenly over 0..1 (golden ratio). */
const mixed = (n: number): number => (n * 0.6180339887) % 1;

const place = (id: string, behind: readonly string[] = [], minutes = 12): Assembly =>
  assembly(id, {
    access: {
      by: "measured",
      remove: { low: minutes * 0.6, likely: minutes, high: minutes * 2.2 },
      refit: { low: minutes * 0.5, likely: minutes * 0.8, high: minutes * 1.6 },
    },
    behind: [...behind],
  });

const TREE = [
  place("lid"),
  place("left", ["lid"], 20),
  place("right", ["lid"], 15),
  place("left-a", ["left"]),
  place("left-b", ["left"], 25),
  place("right-a", ["right"], 18),
  place("right-b", ["right-a"], 9),
];
const DIAMOND = [
  place("lid"),
  place("west", ["lid"], 22),
  place("east", ["lid"], 16),
  place("core", ["west", "east"], 10),
  place("rail", ["east"], 14),
  place("deep", ["core", "rail"], 8),
];
const CHAIN = Array.from({ length: 12 }, (_, n) => place(`c${n}`, n > 0 ? [`c${n - 1}`] : [], 5 + (n % 4) * 3));

interface Given {
  readonly planned?: number;
  readonly found?: number;
  readonly chance?: (n: number) => number;
  readonly map?: readonly Assembly[];
  readonly spread?: number;
  readonly step?: number;
  readonly minimum?: number;
  readonly cap?: number;
  /** Scarce parts of planned work, and of work that may be found. */
  readonly scarce?: readonly [number, number];
  readonly minutes?: number;
  /** Found work in the places of the map; planned work on the unit as a whole. */
  readonly operation?: (n: number) => string;
}

const bookOf = ({ spread = 25, step = 0, minimum = 0, cap }: Given): RateBook => ({
  ...PLAIN,
  billing: { minutes: "expected", incrementMinutes: step, minimumCharge: minimum },
  grades: PLAIN.grades.map((grade) => ({ ...grade, spreadPercent: spread })),
  scarcity: { ...PLAIN.scarcity, marginFrom: "offers" },
  ...(cap !== undefined && { parts: { ...PLAIN.parts, sundries: { percentOfParts: 0, percentOfLabour: 10, cap } } }),
});

function shape(given: Given): EstimateInput {
  const { planned = 3, found = 3, chance = (n) => 0.1 + 0.5 * mixed(n + 3), map = TREE, scarce = [0, 0], minutes = 20 } = given;
  const operation = given.operation ?? (() => "clean");
  const times = (n: number) => {
    const likely = minutes * (0.4 + 1.2 * mixed(n));
    return { low: likely * 0.6, likely, high: likely * 2.5 };
  };
  const rare = Array.from(
    { length: scarce[0] + scarce[1] },
    (_, n): PartKind => ({ id: `rare-${n}`, type: "valve", name: `Rare ${n}` }),
  );
  const offers = rare.flatMap(({ id }, n): Offer[] =>
    [0, 1].map((way) => ({
      id: `${id}-${way}`,
      kind: id,
      source: `source ${(n + way) % 3}`,
      on: "2026-11-20",
      currency: "EUR",
      price: 900 + 400 * way + 150 * n,
      packSize: 1,
      available: 6,
      leadDays: 7,
      state: "used",
      shareGood: 0.6 + 0.2 * way,
      freight: 300,
    })),
  );
  const part = (n: number) => (rare[n] ? { operation: "replace", part: { kind: rare[n]!.id } } : {});
  const two = (n: number) => String(n).padStart(3, "0");
  return job({
    rateBook: bookOf(given),
    map: { assemblies: [...map] },
    kinds: rare,
    offers,
    items: [
      ...Array.from(
        { length: planned },
        (_, n): WorkItem => item(`a${two(n)}`, { operation: "clean", minutes: times(n), ...(n < scarce[0] ? part(n) : {}) }),
      ),
      ...Array.from(
        { length: found },
        (_, n): WorkItem =>
          item(`f${two(n)}`, {
            operation: operation(n),
            assembly: map[(n * 5 + 3) % map.length]!.id,
            minutes: times(n + 11),
            certainty: { is: "if found", probability: chance(n) },
            ...(n < scarce[1] ? part(scarce[0] + n) : {}),
          }),
      ),
    ],
    policy: { pricing: { is: "fixed price", confidencePercent: 80 } },
  });
}

const even = (probability: number) => () => probability;
const two = (n: number) => (n % 2 === 0 ? "clean" : "replace");
const withParts = (n: number) => (n % 3 === 0 ? "adjust" : "clean");

/** Three, or eight, faults at one place that nothing else opens. */
const onePanel = (found: number, probability: number, spread = 25): EstimateInput =>
  shape({ planned: 1, found, chance: even(probability), map: [place("panel", [], 60)], spread, minutes: 10 });

export const SHAPES: Readonly<Record<string, EstimateInput>> = {
  "one item": shape({ planned: 1, found: 0 }),
  "one item, spread 10": shape({ planned: 1, found: 0, spread: 10 }),
  "one item, spread 90": shape({ planned: 1, found: 0, spread: 90 }),
  "two behind one panel": onePanel(2, 0.3),
  "three behind one panel": onePanel(3, 0.3),
  "eight behind one panel": onePanel(8, 0.3),
  "eight behind one panel, likely": onePanel(8, 0.9),
  "eight behind one panel, spread 10": onePanel(8, 0.3, 10),
  "thirty behind one panel, rare": onePanel(30, 0.04),
  "tree, five faults": shape({ found: 5 }),
  "tree, five faults, spread 65": shape({ found: 5, spread: 65 }),
  "tree, nine faults, two operations": shape({ found: 9, operation: withParts }),
  "tree, twenty faults": shape({ planned: 6, found: 20, chance: (n) => 0.05 + 0.3 * mixed(n) }),
  "tree, twenty faults, spread 10": shape({ planned: 6, found: 20, spread: 10, chance: (n) => 0.05 + 0.3 * mixed(n) }),
  "diamond, four faults": shape({ found: 4, map: DIAMOND }),
  "diamond, eight faults": shape({ found: 8, map: DIAMOND }),
  "diamond, twelve faults, spread 80": shape({ found: 12, map: DIAMOND, spread: 80 }),
  "diamond, eighteen faults, two operations": shape({ planned: 5, found: 18, map: DIAMOND, operation: withParts }),
  "chain of twelve, twelve faults": shape({ planned: 4, found: 12, map: CHAIN, chance: even(0.15) }),
  "three scarce parts, planned": shape({ found: 2, scarce: [3, 0] }),
  "scarce parts, planned and found": shape({ found: 5, scarce: [2, 3] }),
  "steps of 15, three faults": shape({ found: 3, step: 15 }),
  "steps of 15, six faults": shape({ found: 6, step: 15, operation: withParts }),
  "steps of 30, twelve faults": shape({ found: 12, step: 30 }),
  "least charge, two faults": shape({ planned: 1, found: 2, minimum: 9000, minutes: 15 }),
  "least charge, nine faults": shape({ planned: 1, found: 9, minimum: 12_000, minutes: 15, chance: even(0.12) }),
  "sundries with a cap, five faults": shape({ found: 5, cap: 1200 }),
  "hundred items, spread 90": shape({ planned: 70, found: 30, map: DIAMOND, spread: 90, chance: (n) => 0.05 + 0.4 * mixed(n) }),
  "hundred items, spread 65": shape({
    planned: 50,
    found: 50,
    map: TREE,
    spread: 65,
    chance: (n) => 0.05 + 0.4 * mixed(n),
    scarce: [4, 4],
  }),
  "two hundred items": shape({
    planned: 120,
    found: 80,
    map: [...DIAMOND, ...CHAIN],
    spread: 30,
    step: 6,
    chance: (n) => 0.03 + 0.3 * mixed(n),
    operation: two,
    minutes: 14,
  }),
};
