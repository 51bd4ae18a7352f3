/** One estimate that has every field there is (invented), and each of them spoilt in turn: what is wrong is named once, at that very field, and with what it is of. */
import { describe, expect, it } from "vitest";
import { check } from "../../../src/estimating/check/check.js";
import { amount, checkDay, count, minutes, percent, threePoint } from "../../../src/estimating/check/figures.js";
import { pointerTo, spot, tokensOf } from "../../../src/estimating/check/spot.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { LIMITS } from "../../../src/estimating/problems.js";
import { problemText } from "../../../src/wording/problem.js";
import { assembly, fitBefore, item, job, ORGAN, on } from "../cast/organ.js";
import { about, PLAIN } from "../cast/plainBook.js";

const planned = { is: "planned" } as const;
const own = { name: "Mend the lid", labourClass: "bench", minutes: about(5), price: 500, taxCategory: "full" };
const brass = { name: "Brass hinge", type: "valve", cost: 90, source: "Quillmere", leadDays: 3, packSize: 2, minimumPacks: 1 };
const FULL: EstimateInput = job({
  unit: { maker: "Threnwick", model: "Cadence 3", grade: "sound", declaredValue: 90_000 },
  map: {
    assemblies: [
      ...ORGAN,
      assembly("shelf", { behind: ["back"], joined: ["rail"], counts: { capacitor: 2, clean: 1 } }),
      assembly("tray", {
        access: { by: "measured", remove: about(3), refit: about(4) },
        worthDoing: [{ operation: "replace", count: 2, partType: "capacitor", reason: "worn" }],
      }),
    ],
    fitBefore: [fitBefore("back", "lid")],
  },
  boards: [{ size: "small", mounting: "on top", count: 2 }],
  alreadyOpen: ["back"],
  openAtNoCharge: ["loom"],
  toOpen: ["rail"],
  items: [
    on("top", "cleaned", { minutes: about(2) }),
    item("fitted", {
      operation: "replace",
      part: { kind: "cap" },
      partPrice: { cost: 30, reason: "matched", source: "Quillmere", leadDays: 6 },
    }),
    item("typed", { operation: "replace", part: { type: "capacitor" } }),
    item("maybe", { certainty: { is: "if found", probability: 0.3 } }),
    { id: "mended", own, count: 1, certainty: planned },
    item("hinged", { operation: "replace", part: { own: { ...brass, shareGood: 0.9 } } }),
    { id: "served", service: "check-up", count: 1, certainty: planned },
  ],
  kinds: [{ id: "cap", type: "capacitor", name: "Cap", leads: 2, stock: 5 }],
  offers: [
    {
      ...{ id: "o", kind: "cap", source: "Pindrake", on: "2026-11-20", currency: "EUR", price: 100, packSize: 2, leadDays: 4 },
      ...{ minimumPacks: 2, available: 40, state: "used", shareGood: 0.7, seenGood: { good: 3, bad: 1 }, freight: 300 },
      ...{ dutyPercent: 3, importTaxPercent: 20, parcelFee: 50, pullMinutes: 2 },
    },
  ],
  exchange: [{ currency: "JPY", rate: "0.006", on: "2026-11-20", source: "bank" }],
  rateBook: {
    ...PLAIN,
    partTypes: PLAIN.partTypes.map((type) => ({ ...type, replacedBy: "replace" })),
    companions: [{ operation: "adjust", after: { sorts: ["replacement"] }, reason: "drifts" }],
    services: [
      {
        ...{ id: "check-up", name: "Check-up", price: 4000, source: PLAIN.operations[0]!.source },
        work: [
          { operation: "replace", count: 1, part: { type: "capacitor" }, minutes: about(3) },
          { own: { name: "Listen", labourClass: "bench", minutes: about(5) }, count: 1 },
        ],
      },
    ],
    parts: {
      ...{ markUp: [{ upTo: 500, percent: 40 }, { percent: 20 }], packs: "used", offerGoodForDays: 90, exchangeGoodForDays: 14 },
      sundries: { percentOfParts: 2, percentOfLabour: 3, cap: 900 },
    },
    tax: { ...PLAIN.tax, rounding: { level: "line", mode: "half up", extraDigits: 2 } },
  },
  policy: {
    ...{ discount: { percent: 5, reason: "regular", taxCategory: "none" }, storageDays: 2, benchQueueDays: 9, prepaid: 100 },
    ...{ diagnosisLimit: 9000, ceiling: 90_000, scarcityByType: { valve: "scarce" } },
    pricing: { is: "fixed price", confidencePercent: 80, minimumMarginPercent: 10 },
  },
  paperwork: { date: "2026-11-25" },
});

interface Field {
  readonly path: string;
  readonly value: unknown;
  readonly spoilt: <T>(value: unknown, look: (input: EstimateInput) => T) => T;
}

/** Each number and text of it, once for all entries of a list. */
function fields(): Field[] {
  const input = structuredClone(FULL);
  const made = new Map<string, Field>();
  const walk = (at: Record<string, unknown>, path: string) => {
    for (const [key, value] of Object.entries(at)) {
      const here = `${path}/${key}`;
      if (value && typeof value === "object") walk(value as Record<string, unknown>, here);
      else
        made.set(here.replace(/\/\d+/g, "/n"), {
          ...{ path: here, value },
          spoilt: (other, look) => {
            at[key] = other;
            try {
              return look(input);
            } finally {
              at[key] = value;
            }
          },
        });
    }
  };
  walk(input as unknown as Record<string, unknown>, "");
  return [...made.values()];
}
const FIELDS = fields();
const told = (field: Field, value: unknown) =>
  field.spoilt(value, (input) => check(input).map((problem) => ({ at: problem.pointer, text: problemText(problem) })));
/** Words of a place that lacks one: an empty name, nothing before the colon, nothing after a comma. */
const GAP = /^:|, :|''|undefined|^\W/;

/** Nothing of these is reckoned with. */
const NO_FIGURE = ["/schema"];
/** What is wrong with one field and makes another wrong too. */
const FOLLOWS = new Set([
  "/rateBook/parts/markUp/0/upTo /rateBook/parts/markUp",
  "/offers/0/dutyPercent /offers/0/price",
  "/offers/0/importTaxPercent /offers/0/price",
]);
/** Numbers that may be below nothing: a credit. */
const CREDIT = ["/items/4/own/price"];

describe("an estimate with every field", () => {
  it("has nothing wrong with it as it stands", () => expect(check(FULL)).toEqual([]));

  it.each([
    ["below nothing", -0.5],
    ["no number at all", Number.NaN],
    ["beyond every limit", 1e300],
  ])("names each figure that is %s, at that figure and with what it is of", (_, wrong) => {
    const figures = FIELDS.filter(({ value, path }) => typeof value === "number" && !NO_FIGURE.includes(path));
    expect(figures.length).toBeGreaterThan(90);
    for (const field of figures) {
      const problems = told(field, wrong);
      const places = problems.map(({ at }) => at).filter((at) => !FOLLOWS.has(`${field.path} ${at}`));
      expect([field.path, ...places]).toEqual([field.path, field.path]);
      for (const { text } of problems) expect(text).not.toMatch(GAP);
    }
    expect(CREDIT.map((path) => told(FIELDS.find((each) => each.path === path)!, -5))).toEqual([[]]);
  });

  it("names each id that stands for nothing, and each day that is none, at that very field and with what it is of", () => {
    const ids =
      /\/(operation|partType|type|kind|labourClass|accessClass|grade|assembly|service|taxCategory|replacedBy|first|then|on|date|asOf|inForceFrom|rate)$|\/(behind|joined|alreadyOpen|openAtNoCharge|toOpen)\/\d+$|\/tax\/(labour|parts|freight|fees)$/;
    const named = FIELDS.filter(
      ({ path, value }) => typeof value === "string" && ids.test(path) && !path.startsWith("/rateBook/fasteners"),
    );
    expect(named.length).toBeGreaterThan(35);
    for (const field of named) {
      const problems = told(field, "nowhere");
      expect([field.path, ...new Set(problems.map(({ at }) => at))]).toEqual([field.path, field.path]);
      for (const { text } of problems) expect(text).not.toMatch(GAP);
    }
  });

  it("names a discount in money, an exchange rate and a price landed from abroad where they are wrong", () => {
    const named = (more: Partial<EstimateInput>) => {
      const problems = check({ ...FULL, ...more });
      for (const problem of problems) expect(problemText(problem)).not.toMatch(GAP);
      return problems.map(({ name, pointer }) => `${name} ${pointer}`);
    };
    const rate = FULL.exchange![0]!;
    const offer = FULL.offers![0]!;
    expect(named({ policy: { discount: { amount: -1, reason: "regular" } } })).toEqual([
      "amount out of range /policy/discount/amount",
    ]);
    expect(named({ exchange: [{ ...rate, currency: "EUR" }] })).toEqual(["exchange rate of itself /exchange/0/currency"]);
    expect(named({ exchange: [{ ...rate, currency: "EURO" }] })).toEqual(["currency unknown /exchange/0/currency"]);
    expect(named({ exchange: [{ ...rate, on: "2026-11-26" }] })).toEqual(["exchange rate ahead /exchange/0/on"]);
    expect(named({ exchange: [{ ...rate, on: "2026-11-25" }] })).toEqual([]);
    expect(named({ offers: [{ ...offer, currency: "GBP" }] })).toEqual(["currency differs /offers/0/currency"]);
    expect(named({ offers: [{ ...offer, currency: "JPY" }] })).toEqual([]);
    expect(named({ offers: [{ ...offer, price: LIMITS.amount }] })).toEqual(["amount out of range /offers/0/price"]);
    expect(named({ offers: [{ ...offer, dutyPercent: 0, importTaxPercent: 0, price: LIMITS.amount }] })).toEqual([]);
    const { importTaxPercent: _, dutyPercent: __, ...bare } = offer;
    const dear = { ...bare, currency: "JPY", price: 100, freight: LIMITS.amount };
    expect(named({ exchange: [{ ...rate, rate: "0.02" }], offers: [dear] })).toEqual(["amount out of range /offers/0/freight"]);
  });

  it("names an id that stands twice at the second", () => {
    const twice = (list: "items" | "kinds" | "offers" | "exchange") => {
      const all: readonly object[] = FULL[list]!;
      return check({ ...FULL, [list]: [...all, all[0]!] }).map(({ name, pointer }) => ({ name, pointer }));
    };
    const key = { items: "id", kinds: "id", offers: "id", exchange: "currency" };
    for (const list of ["items", "kinds", "offers", "exchange"] as const)
      expect(twice(list)).toEqual([{ name: "id repeated", pointer: `/${list}/${FULL[list]!.length}/${key[list]}` }]);
    for (const list of [
      "labourClasses",
      "grades",
      "fasteners",
      "accessStandards",
      "partTypes",
      "operations",
      "services",
    ] as const) {
      const all: readonly object[] = FULL.rateBook[list]!;
      const problems = check({ ...FULL, rateBook: { ...FULL.rateBook, [list]: [...all, all[0]!] } });
      expect(problems.map(({ name, pointer }) => [name, pointer])).toEqual([["id repeated", `/rateBook/${list}/${all.length}`]]);
      for (const problem of problems) expect(problemText(problem)).not.toMatch(GAP);
    }
  });
});

describe("work that is said wrong", () => {
  const maybe = { ...item("x"), operation: "replace" };
  it.each<[string, EstimateInput["items"][number], string, string]>([
    ["by nothing", { id: "x", count: 1, certainty: planned }, "/operation", "nothing says what is done"],
    ["by an operation and in own words", item("x", { own }), "", "by an operation and own words"],
    [
      "by a service with a part",
      { id: "x", service: "check-up", count: 1, certainty: planned, part: { kind: "cap" } },
      "",
      "a service and a part of its own",
    ],
    [
      "in own words with minutes beside",
      { id: "x", own, count: 1, certainty: planned, minutes: about(2) },
      "",
      "own words and minutes of its own",
    ],
    ["by a replacement without its part", maybe, "/part", "a replacement needs a part"],
    [
      "by a replacement with a part of no known time",
      { ...maybe, part: { own: { name: "Foot", cost: 5 } } },
      "/part/own/type",
      "the time to replace this part is not known",
    ],
    ["in no words", { id: "x", own: { ...own, name: " " }, count: 1, certainty: planned }, "/own/name", "the work has no name"],
    [
      "in own words without time or price",
      { id: "x", own: { name: "Look" }, count: 1, certainty: planned },
      "/own",
      "neither minutes nor a price",
    ],
    [
      "with a part of no cost",
      { ...maybe, part: { own: { name: "Foot", type: "valve" } } },
      "/part/own/cost",
      "the part has no cost",
    ],
    [
      "with a part that is brought and costs",
      { ...maybe, part: { own: { name: "Foot", type: "valve", cost: 1, broughtByOwner: true } } },
      "/part/own/cost",
      "the owner brings this part",
    ],
    [
      "with a price of no part",
      item("x", { partPrice: { cost: 5, reason: "fair" } }),
      "/partPrice",
      "another price needs a part",
    ],
    [
      "with a price without a reason",
      { ...maybe, part: { kind: "cap" }, partPrice: { cost: 5, reason: " " } },
      "/partPrice/reason",
      "nothing says why",
    ],
    [
      "with a reason longer than is printed",
      { ...maybe, part: { kind: "cap" }, partPrice: { cost: 5, reason: "x".repeat(201) } },
      "/partPrice/reason",
      "201 characters, above the limit of 200",
    ],
  ])("%s is named where it is said", (_, wrong, at, says) => {
    const problems = check({ ...FULL, items: [...FULL.items, wrong] });
    expect(problems.map(({ pointer }) => pointer)).toEqual([`/items/${FULL.items.length}${at}`]);
    expect(problemText(problems[0]!)).toContain(says);
    expect(problemText(problems[0]!)).not.toMatch(GAP);
  });
});

describe("a service of the rate book", () => {
  const [service] = FULL.rateBook.services!;
  const { work, ...rest } = service!;
  const [replaced, own2] = work;
  const { part: _, minutes: __, ...bare } = replaced!;
  const saying = { name: "Listen" };
  it.each<[string, object, string, string]>([
    ["without work", { ...rest, work: [] }, "/work", "nothing stands behind its price"],
    ["without a name", { ...service, name: " " }, "/name", "the work has no name"],
    [
      "with work said twice",
      { ...rest, work: [{ ...bare, own: own2!.own, minutes: about(3) }] },
      "/work/0",
      "an operation and own words",
    ],
    ["with work that nothing says", { ...rest, work: [{ count: 1 }] }, "/work/0/operation", "nothing says what is done"],
    ["with work without time", { ...rest, work: [{ own: saying, count: 1 }] }, "/work/0/own", "neither minutes nor a price"],
    ["with a replacement without its part", { ...rest, work: [bare] }, "/work/0/part", "a replacement needs a part"],
    ["with no count", { ...rest, work: [{ ...replaced, count: 0 }] }, "/work/0/count", "there is no count to work with"],
    ["with more works than it may have", { ...rest, work: Array(101).fill(replaced) }, "/work", "there are 100 of it"],
  ])("%s is named where it is said", (___, wrong, at, says) => {
    const services = [wrong as NonNullable<EstimateInput["rateBook"]["services"]>[number]];
    const problems = check({ ...FULL, items: [], rateBook: { ...FULL.rateBook, services } });
    expect(problems.map(({ pointer }) => pointer)).toEqual([`/rateBook/services/0${at}`]);
    expect(problemText(problems[0]!)).toContain(says);
    expect(problemText(problems[0]!)).not.toMatch(GAP);
  });

  it("may have a replacement by its minutes alone, and a hundred works", () => {
    for (const works of [[{ ...bare, minutes: about(3) }], Array<typeof replaced>(100).fill(replaced)]) {
      const services = [{ ...rest, work: works as typeof work }];
      expect(check({ ...FULL, items: [], rateBook: { ...FULL.rateBook, services } })).toEqual([]);
    }
  });
});

it("work is called by what it is, where it is wrong", () => {
  const text = (wrong: Partial<EstimateInput>) =>
    check({ ...FULL, ...wrong })
      .map(problemText)
      .join();
  const fewer = { count: -1 };
  expect(text({ items: [on("top", "a", fewer)] })).toContain("Board 'Top', clean: ");
  expect(text({ items: [item("a", fewer)] })).toContain("Unit as a whole, clean: ");
  const replace = (part: NonNullable<EstimateInput["items"][number]["part"]>) =>
    item("a", { operation: "replace", part, ...fewer });
  expect(text({ items: [replace({ kind: "cap" })] })).toContain("replace cap: ");
  expect(text({ items: [replace({ type: "dip-40" })] })).toContain("replace dip-40: ");
  expect(text({ items: [replace({ own: { name: "Foot", type: "valve", cost: 5 } })] })).toContain("replace foot: ");
  expect(text({ items: [{ id: "a", own: { ...own, name: "x".repeat(70) }, certainty: planned, ...fewer }] })).toContain(
    `${"x".repeat(60)}…: `,
  );
  const counts = (of: Record<string, number>) =>
    text({
      map: { assemblies: [...ORGAN.slice(0, 1), assembly("shelf", { counts: of })] },
      items: [],
      alreadyOpen: [],
      openAtNoCharge: [],
      toOpen: [],
    });
  expect(counts({ capacitor: -1 })).toContain("Board 'Shelf', capacitor: ");
  expect(counts({ clean: -1 })).toContain("Board 'Shelf', clean: ");
  expect(counts({ knobs: -1 })).toContain("Board 'Shelf', knobs: ");
  for (const token of ["a/b", "~c", "d~1e", "plain"])
    expect(tokensOf(pointerTo(spot(() => "", "map", token, 3)))).toEqual(["map", token, "3"]);
});

it("a figure is taken up to its limit, and not a hair beyond", () => {
  const at = spot(() => "It", "it");
  const names = (problems: readonly { readonly name: string }[]) => problems.map(({ name }) => name).join();
  const time = (low: number, likely: number, high: number) => names(threePoint({ low, likely, high }, at));
  expect([0, LIMITS.count].map((value) => names(count(value, at)))).toEqual(["", ""]);
  expect([-1, LIMITS.count + 1, 0.5, Number.NaN].map((value) => names(count(value, at)))).toEqual([
    ...["count negative", "count too large", "count fractional", "count missing"],
  ]);
  expect([0, 1].map((value) => names(count(value, at, 5, 1)))).toEqual(["count missing", ""]);
  expect([0, LIMITS.amount].map((value) => names(amount(value, at)))).toEqual(["", ""]);
  expect([-1, LIMITS.amount + 1].map((value) => names(amount(value, at)))).toEqual(Array(2).fill("amount out of range"));
  expect(names(amount(0.5, at))).toBe("amount fractional");
  expect([0, 100].map((value) => names(percent(value, at)))).toEqual(["", ""]);
  expect([-0.1, 100.1].map((value) => names(percent(value, at)))).toEqual(Array(2).fill("percent out of range"));
  expect([0, LIMITS.minutes].map((value) => names(minutes(value, at)))).toEqual(["", ""]);
  expect([-0.1, LIMITS.minutes + 0.1].map((value) => names(minutes(value, at)))).toEqual(Array(2).fill("minutes out of range"));
  expect([time(0, 0, 0), time(1, 1, 2), time(1, 2, 2), time(0, 1, LIMITS.minutes)]).toEqual(["", "", "", ""]);
  expect([time(2, 1, 3), time(1, 3, 2)]).toEqual(Array(2).fill("times out of order"));
  expect(time(-1, 1, 2)).toBe("minutes out of range");
  expect(["2026-11-25", "2024-02-29"].map((day) => names(checkDay(day, at)))).toEqual(["", ""]);
  for (const day of ["2026-02-29", "2026-13-01", "2026-11-25T10:00", "on 2026-11-25", "26-11-25", "2026-11-00"])
    expect([day, names(checkDay(day, at))]).toEqual([day, "date unreadable"]);
});

describe("how much is asked at once", () => {
  const flat = PLAIN.operations[0]!.source;
  const service = {
    id: "ten",
    name: "Ten",
    price: 1,
    source: flat,
    work: Array.from({ length: 10 }, () => ({ operation: "clean", count: 1 })),
  };
  const served = (count: number): EstimateInput =>
    job({
      rateBook: { ...PLAIN, services: [service] },
      items: Array.from({ length: count }, (_, at) => ({ id: `s${at}`, service: "ten", count: 1, certainty: planned })),
    });
  const many = (count: number, rateBook = PLAIN, more: Partial<EstimateInput> = {}) =>
    job({
      ...{ rateBook, ...more },
      items: Array.from({ length: count }, (_, at) => item(`i${at}`, { certainty: { is: "optional", chosen: false } })),
    });
  const names = (input: EstimateInput) => check(input).map((problem) => [problem.name, "limit" in problem && problem.limit]);

  it("counts what stands behind services", () => {
    expect(check(served(200)).map(({ name }) => name)).toContain("too many items");
    expect(check(served(150))).toEqual([]);
  });

  it("allows fewer choices where each is weighed among all the work: shared risk, or a price that follows from it", () => {
    const shared = { ...PLAIN, risk: "shared" } as const;
    const byRisk = { pricing: { is: "time and parts with ceiling", confidencePercent: 90 } } as const;
    expect(names(many(LIMITS.choices))).toEqual([]);
    expect(names(many(LIMITS.choices + 1))).toEqual([["too many choices", LIMITS.choices]]);
    expect(names(many(LIMITS.weighedChoices, shared))).toEqual([]);
    expect(names(many(LIMITS.weighedChoices + 1, shared))).toEqual([["too many choices", LIMITS.weighedChoices]]);
    expect(names(many(LIMITS.weighedChoices + 1, PLAIN, { policy: byRisk }))).toEqual([
      ["too many choices", LIMITS.weighedChoices],
    ]);
    // 12,000 / 150 works leave 80.
    expect(names(many(150, shared))).toEqual([["too many choices", 80]]);
  });

  it("tells how many counts of offered pieces its buy plans would look at", () => {
    const offer = FULL.offers![0]!;
    const { seenGood: _, ...half } = { ...offer, shareGood: 0.5 };
    const asked = (offers: number, pieces: number) =>
      check({
        ...job({ kinds: FULL.kinds! }),
        items: [item("w", { operation: "replace", count: pieces, part: { kind: "cap" } })],
        offers: Array.from({ length: offers }, (_, at) => ({ ...half, id: `o${at}` })),
      });
    // 3 x 60 / 0.5 = 360 of an offer: 10 + 360 + 360² / 50 = 2,962.
    expect(asked(25, 60)).toEqual([]);
    expect(asked(26, 60)).toMatchObject([{ name: "too many offers", looked: 26 * 2962, limit: LIMITS.looked }]);
  });
});
