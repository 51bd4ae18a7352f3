import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { withChoices } from "../../../src/estimating/agreement/choices.js";
import { partsUnlogged, untimedWork } from "../../../src/estimating/closeout/actual/untimed.js";
import type { JobDone } from "../../../src/estimating/closeout/jobDone.js";
import { type CloseOut, closeOut } from "../../../src/estimating/closeout/variance/closeOut.js";
import { type Figures, VARIANCES } from "../../../src/estimating/closeout/variance/row.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, RateBook, Service, WorkItem } from "../../../src/estimating/input.js";
import { resolve } from "../../../src/estimating/resolve.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { noTimeText } from "../../../src/wording/closeout.js";
import { runs } from "../../setup/runs.js";
import { anyInput } from "../cast/anyInput.js";
import { item, job, on, sum } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { anyLog, done, exactly, INPUT, ITEMS, minutes, revisionOf, sheetOf, used } from "./done.js";

function closed(given: JobDone): CloseOut {
  const result = closeOut(given);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.closeOut;
}
const variance = ({ variance: all }: Figures) =>
  Object.fromEntries(VARIANCES.flatMap((kind) => (all[kind] ? [[kind, all[kind]]] : [])));
const row = ({ rows }: CloseOut, id: string) => rows.find((each) => each.id === id)!;
const price = ({ totals: { linesNet, allowances, charges } }: Sheet) => linesNet - allowances + charges;

/** One bench minute is worth 1.00, one of alignment 2.00. */
const LOG = {
  time: [
    minutes("open lid", 10),
    minutes("open top", 8),
    minutes("open low", 3),
    minutes("clean", 15),
    minutes("clean", 10, { person: "Oskar" }),
    minutes("caps", 16),
    minutes("voice", 20),
  ],
  parts: [used("caps", 5, 12)],
};

it("asks about work that was to be done and nobody timed, and about parts of timed work that nobody logged", () => {
  const chosen = {
    ...INPUT,
    items: ITEMS.map((each) => (each.id === "oil" ? on("rail", "oil", { certainty: { is: "optional", chosen: true } }) : each)),
  };
  const untimed = (of: EstimateInput, timed: readonly string[], parts: readonly string[], found: readonly string[]) => {
    const log = { time: timed.map((each) => minutes(each, 5)), parts: parts.map((each) => used(each, 1, 9)) };
    return [
      untimedWork(of, log, found).map(({ item, partsLogged }) => [item.id, partsLogged]),
      partsUnlogged(of, log, found).map(({ id }) => id),
    ];
  };
  expect(untimed(INPUT, [], ["caps"], [])).toEqual([
    [
      ["clean", false],
      ["caps", true],
      ["voice", false],
    ],
    [],
  ]);
  expect(untimed(INPUT, ["clean", "caps"], [], [])).toEqual([[["voice", false]], ["caps"]]);
  expect(untimed(INPUT, ["clean", "caps"], ["caps"], ["valve"])).toEqual([
    [
      ["voice", false],
      ["valve", false],
    ],
    [],
  ]);
  expect(untimed(INPUT, ["clean", "caps", "voice", "valve"], ["caps"], ["valve"])).toEqual([[], ["valve"]]);
  expect(untimed(INPUT, ["clean", "caps", "voice", "valve"], ["caps"], [])).toEqual([[], []]);
  expect(untimed(chosen, ["clean", "caps", "voice"], ["caps"], [])).toEqual([[["oil", false]], []]);
  const none = { ...INPUT, items: ITEMS.map((each) => ({ ...each, count: 0 })) };
  expect(untimed(none, [], [], ["valve"])).toEqual([[], []]);
});

describe("a job closed out", () => {
  const result = () => closed(done(LOG));

  it("has quoted, agreed, allowed and actual by line, with why the last two differ", () => {
    const figures = result().rows.map((each) => [each.id, each.allowed, each.actual, variance(each)]);
    expect(figures).toEqual([
      ["access:lid", 1200, 1000, { efficiency: -200 }],
      ["access:top", 600, 800, { efficiency: 200 }],
      ["access:low", 300, 300, {}],
      ["labour:clean", 1900, 2500, { efficiency: 600 }],
      ["labour:caps", 2000, 1600, { efficiency: -400 }],
      ["labour:voice", 3000, 4000, { efficiency: 1000 }],
      ["part:capacitor caps", 40, 60, { price: 10, usage: 10 }],
    ]);
  });

  it("counts no hours of work that nobody timed on either side, and takes no count above the agreed", () => {
    const untimed = closed(
      done(
        { ...LOG, time: LOG.time.filter(({ work }) => !("id" in work && work.id === "clean")) },
        { untimed: { clean: "done" } },
      ),
    );
    // Cleaning was planned at 4 + 5 x 3 = 19 minutes and took 25.
    expect(untimed.attended).toEqual({ allowed: 75 - 19, actual: 82 - 25 });
    expect(closed(done(LOG, { done: { clean: 9 } })).total).toEqual(result().total);
    expect(row(closed(done(LOG, { done: { clean: 3 } })), "labour:clean").allowed).toBe(1300);
  });

  it("adds them up by work item, by assembly and by category", () => {
    expect(result().items.map((each) => [each.item, each.allowed, each.actual])).toEqual([
      ["clean", 1900, 2500],
      ["caps", 2040, 1660],
      ["voice", 3000, 4000],
      [undefined, 2100, 2100],
    ]);
    expect(result().assemblies.map((each) => [each.assembly?.id, each.allowed, each.actual])).toEqual([
      ["lid", 1200, 1000],
      ["top", 4540, 4960],
      ["low", 3300, 4300],
    ]);
    expect(result().categories.map((each) => [each.category, each.allowed, each.actual])).toEqual([
      ["access", 2100, 2100],
      ["labour", 6900, 8100],
      ["parts", 40, 60],
    ]);
    expect(result().total).toMatchObject({ quoted: 9040, agreed: 9040, allowed: 9040, actual: 10260 });
    expect(variance(result().total)).toEqual({ efficiency: 1200, price: 10, usage: 10 });
    expect(result().attended).toEqual({ allowed: 75, actual: 82 });
  });

  it("has work at a fixed price that was done and not timed stand at its price, and a service with what stands behind it", () => {
    const service: Service = {
      id: "tune",
      name: "Tune",
      price: 6000,
      work: [{ operation: "clean", count: 3 }],
      source: PLAIN.operations[0]!.source,
    };
    const sold = {
      id: "mend",
      own: { name: "Mend the lid", price: 9000 },
      count: 1,
      certainty: { is: "planned" },
      reason: "split",
    } as const;
    const { operation: _, ...tuned } = item("tune", { service: "tune" });
    const input = resolve(job({ items: [...ITEMS, sold, tuned], rateBook: { ...PLAIN, services: [service] } }));
    const { time } = exactly(sheetOf(input), input);
    // The voice took five minutes longer than its fifteen; nothing else is known of the fixed prices than that they were done.
    const log = {
      time: time
        .filter(({ work }) => !("id" in work && /mend|tune/.test(work.id)))
        .map((each) => ("id" in each.work && each.work.id === "voice" ? { ...each, minutes: 20 } : each)),
    };
    const given = {
      revisions: [revisionOf(input)],
      untimed: { mend: "done", tune: "done", "tune/1": "done" },
      unlogged: ["caps"],
    } as const;
    const now = closed(done(log, { ...given, atPrice: true }));
    expect(row(now, "labour:mend")).toMatchObject({ allowed: 9000, actual: 9000, logged: false, untimed: "done" });
    expect(now.items.filter(({ item: of }) => of?.startsWith("tune")).reduce((sum, { actual }) => sum + actual, 0)).toBe(6000);
    expect(variance(now.total)).toEqual({ efficiency: 1000 });
    // As it was reckoned in what is on record.
    expect(row(closed(done(log, given)), "labour:mend")).toMatchObject({ allowed: 9000, actual: 0 });
    // What was timed stands at its time, whatever it was sold at.
    const timed = closed(
      done(
        { ...log, time: [...log.time, minutes("mend", 20)] },
        { ...given, untimed: { tune: "done", "tune/1": "done" }, atPrice: true },
      ),
    );
    expect(row(timed, "labour:mend").actual).toBe(2000);
  });

  it("holds hours on work at a fixed price that no time was allowed for against nothing, and says so", () => {
    const sold: WorkItem = { id: "mend", own: { name: "Mend the lid", price: 9000 }, count: 1, certainty: { is: "planned" } };
    const input = resolve(job({ items: [...ITEMS, sold] }));
    const { time } = exactly(sheetOf(input), input);
    const log = { time: [...time.filter(({ work }) => !("id" in work && work.id === "mend")), minutes("mend", 40)] };
    const given = { revisions: [revisionOf(input)] } as const;
    const now = closed(done(log, { ...given, allowedTime: true }));
    expect(now.attended.actual).toBe(now.attended.allowed);
    expect(noTimeText(row(now, "labour:mend"))).toBe("Sold at a price, with no time allowed.");
    expect(noTimeText(row(now, "labour:voice"))).toBeUndefined();
    // As it was reckoned in what is on record.
    expect(closed(done(log, given)).attended.actual).toBe(now.attended.allowed + 40);
  });

  it("holds hours against the minutes charged where those are expected, and what nobody timed against nothing", () => {
    const rateBook: RateBook = { ...PLAIN, billing: { incrementMinutes: 0, minimumCharge: 0, minutes: "expected" } };
    const input = job({ items: ITEMS, rateBook });
    const revisions = [revisionOf(input)] as const;
    const all = closed(done({ time: exactly(sheetOf(input), input).time }, { revisions }));
    expect(all.attended).toMatchObject({ allowed: all.attended.actual, charged: "expected" });
    const voice = row(all, "labour:voice").minutes!.allowed;
    const rest = closed(done({ time: [minutes("voice", voice - 4)] }, { revisions, untimed: { clean: "done", caps: "done" } }));
    expect(rest.attended.allowed - rest.attended.actual).toBeCloseTo(4, 3);
    expect(rest.total.variance.efficiency).toBe(-800);
  });

  it("puts working at another class under rate, valued on the actual time, and the time under efficiency", () => {
    const cheaper = closed(done({ time: [minutes("voice", 20, { labourClass: "bench" })] }));
    expect(variance(row(cheaper, "labour:voice"))).toEqual({ rate: -2000, efficiency: 1000 });
    const dearer = closed(done({ time: [minutes("voice", 15, { person: "Oskar" })] }, { rates: { Oskar: 15_000 } }));
    expect(variance(row(dearer, "labour:voice"))).toEqual({ rate: 750 });
  });

  it("shares opening that was not told apart over what was opened, by the time allowed", () => {
    const together = closed(done({ time: [minutes("open", 42)] }));
    expect(together.rows.slice(0, 3).map(({ actual }) => actual)).toEqual([2400, 1200, 600]);
    const rest = closed(done({ time: [minutes("open lid", 10), minutes("open", 18)] }));
    expect(rest.rows.slice(0, 3).map(({ actual }) => actual)).toEqual([1000, 1200, 600]);
  });

  it("says where no time was logged on work that was allowed for", () => {
    const half = closed(done({ time: [minutes("clean", 19)] }));
    expect([row(half, "labour:clean").logged, row(half, "labour:caps").logged]).toEqual([true, false]);
  });

  it("has no variance when all went as allowed", () => {
    const sheet = sheetOf(INPUT);
    const exact = closed(done(exactly(sheet, INPUT)));
    expect(variance(exact.total)).toEqual({});
    expect(exact.rows.every((each) => each.actual === each.allowed)).toBe(true);
  });
});

describe.each(["string-organ-keyboard", "valve-amplifier", "tape-echo", "plain-counts"])("the demo job %s", (name) => {
  const demo = JSON.parse(readFileSync(new URL(`../../../fixtures/demo/${name}.json`, import.meta.url), "utf8")) as EstimateInput;
  const input: EstimateInput = { ...demo, policy: { ...demo.policy, pricing: { is: "as counted" } } };
  const sheet = sheetOf(input);
  const offers = new Map((input.offers ?? []).map((offer) => [offer.id, offer]));
  const counts = new Map(input.items.map(({ id, count }) => [id, count]));
  /** Each part at what its line says it cost. */
  const parts = sheet.lines.flatMap((line) => {
    if (line.sort !== "part" || !line.part) return [];
    const source = line.from.find((each) => each.is === "offer");
    const offer = source && offers.get(source.id);
    const typical = input.rateBook.partTypes.find(({ id }) => id === line.part!.type)!.typicalCost;
    const paid = { price: offer?.price ?? typical, per: offer?.packSize ?? 1 };
    const { type, kind } = line.part;
    return line.from.flatMap((each) =>
      each.is === "item" ? [used(each.id, counts.get(each.id)!, 0, { paid, part: kind ? { kind } : { type } })] : [],
    );
  });
  const pulls = sheet.lines
    .filter(({ sort }) => sort === "donor pull")
    .map((line) => ({ ...minutes("open", line.minutes!), work: { is: "pull", offer: line.id.slice(5) } }) as const);

  it("done exactly as its sheet has it differs from it only by what it charged for risk", () => {
    const result = closed(done({ time: [...exactly(sheet, input).time, ...pulls], parts }, { revisions: [revisionOf(input)] }));
    const margins = sum(sheet.lines.filter(({ sort }) => sort === "scarcity margin").map(({ amount }) => amount));
    expect(variance(result.total)).toEqual(margins === 0 ? {} : { risk: -margins });
    expect(result.total.agreed).toBe(price(sheet));
    expect(result.risk.every(({ charged, kept }) => kept === charged)).toBe(true);
  });
});

describe("what may be found, and what is not done", () => {
  it("is allowed at agreed prices once it is found, and said to be found", () => {
    const found = closed(done({ time: [minutes("valve", 11)], parts: [] }, { found: ["valve"] }));
    expect(row(found, "labour:valve")).toMatchObject({ quoted: 0, agreed: 0, allowed: 1100, actual: 1100 });
    expect(found.scope).toEqual([
      {
        cause: { is: "found" },
        amount: 1110,
        categories: [
          { category: "labour", amount: 1100 },
          { category: "parts", amount: 10 },
        ],
      },
    ]);
    expect(found.ifFound.map((each) => [each.group.id, each.probability, each.found])).toEqual([["valve", 0.3, true]]);
  });

  it("is not allowed for when it was left undone; what was opened for it stays", () => {
    const left = closed(done({ time: [minutes("open low", 3)] }, { done: { voice: 0, caps: 3 } }));
    expect(row(left, "labour:voice")).toMatchObject({ agreed: 3000, allowed: 0, actual: 0 });
    expect(left.scope.map(({ cause, amount }) => [cause.is, amount])).toEqual([
      ["not done", left.total.allowed - left.total.agreed],
    ]);
    const both = closed(done({ time: [minutes("valve", 11)] }, { found: ["valve"], done: { voice: 0 } }));
    expect(both.scope.map(({ cause, amount }) => [cause.is, amount])).toEqual([
      ["not done", -3300],
      ["found", 1110 + 300],
    ]);
    expect(row(left, "labour:caps")).toMatchObject({ agreed: 2000, allowed: 1700 });
    expect(row(left, "access:low")).toMatchObject({ agreed: 300, allowed: 300, actual: 300 });
    const unopened = closed(done({}, { done: { voice: 0 } }));
    expect(row(unopened, "access:low")).toMatchObject({ agreed: 300, allowed: 0 });
  });
});

describe("change of scope", () => {
  const extra: EstimateInput = { ...INPUT, items: [...ITEMS, on("panel", "knobs", { count: 2 })] };
  const chosen = withChoices(INPUT, ["oil"]);
  const steps = closed(
    done({}, { revisions: [revisionOf(INPUT, 1), revisionOf(chosen, 1), revisionOf(withChoices(extra, ["oil"]), 2)] }),
  );

  it("is kept apart by revision and choice, and sums to agreed less quoted", () => {
    expect(steps.scope.map(({ cause, amount }) => [cause, amount])).toEqual([
      [{ is: "choice", revision: 1 }, 700 + 1800 + 300],
      [{ is: "revision", from: 1, to: 2 }, 1000 + 900 + 1500],
    ]);
    expect(sum(steps.scope.map(({ amount }) => amount))).toBe(steps.total.allowed - steps.total.quoted);
  });
  it("never shows in the variances", () => {
    expect(row(steps, "labour:knobs")).toMatchObject({ quoted: 0, agreed: 1000, allowed: 1000 });
    expect(steps.total.variance.efficiency).toBe(-steps.total.allowed + 40);
  });
});

describe("what nobody agreed to", () => {
  const override = { reason: "smoke from the supply", by: "Oskar" };
  const current: EstimateInput = { ...INPUT, items: [...ITEMS, on("back", "burn", { count: 1 })] };
  const log = {
    time: [minutes("burn", 30, { override }), minutes("open back", 12, { override })],
    parts: [used("caps", 2, 500, { part: { type: "dip-40" }, override })],
  };

  it("stands in rows of its own, beside no allowance", () => {
    const result = closed(done(log, { current }));
    expect(
      result.rows.filter(({ category }) => category === "not agreed").map((each) => [each.id, each.actual, variance(each)]),
    ).toEqual([
      ["not agreed labour:burn", 3000, { "not agreed": 3000 }],
      ["not agreed access:back", 1200, { "not agreed": 1200 }],
      ["not agreed part:dip-40/1", 1000, { "not agreed": 1000 }],
    ]);
  });
  it("is reckoned against the item's own part when it was fitted in its place", () => {
    const result = closed(done({ parts: [used("caps", 4, 500, { part: { type: "dip-40" }, override, insteadOf: true })] }));
    expect(variance(row(result, "part:capacitor caps"))).toEqual({ price: 1960 });
  });
  it("without an override is named, and the rest is closed out all the same", () => {
    const result = closeOut(done({ ...LOG, time: [...LOG.time, minutes("oil", 5)] }));
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.problems.map(({ name, pointer }) => [name, pointer])).toEqual([["work not agreed", "/time/7/work"]]);
    expect(result.partial!.total).toEqual(closed(done(LOG)).total);
  });
});

describe("what was charged for risk", () => {
  const scarce = job({
    items: [on("top", "divider", { operation: "replace", part: { kind: "divider" }, count: 2 })],
    kinds: [{ id: "divider", type: "dip-40", name: "Divider", scarcity: "scarce" }],
    rateBook: PLAIN,
  });
  const with5 = (count: number, paid: number) =>
    closed(done({ parts: [used("divider", count, paid, { part: { kind: "divider" } })] }, { revisions: [revisionOf(scarce)] }));

  it("is worth what is left of it after the parts", () => {
    // Two at 0.10 with half as much again for the risk.
    expect(with5(2, 10).risk.map(({ charged, used: spent, kept }) => [charged, spent, kept])).toEqual([[10, 0, 10]]);
    expect(with5(3, 12).risk.map(({ charged, used: spent, kept }) => [charged, spent, kept])).toEqual([[10, 16, -6]]);
    expect(with5(2, 9).risk[0]).toMatchObject({ used: -2, kept: 12 });
  });
  it("gives way to what was really spent", () => {
    const result = with5(2, 10);
    expect(variance(row(result, "scarcity:divider"))).toEqual({ risk: -10 });
  });
});

describe("any job", () => {
  const anyJob = anyInput
    .filter((input) => estimate(input).ok)
    .chain((input) =>
      fc.record({
        input: fc.constant(input),
        log: anyLog(input, sheetOf(input)),
        left: fc.array(fc.record({ item: fc.nat(9), count: fc.nat(5) }), { maxLength: 3 }),
        found: fc.boolean(),
        rate: fc.option(fc.nat(20_000), { nil: undefined }),
        dropped: fc.nat(9),
      }),
    );

  it("sums to the minor unit, by item, assembly, category, kind and step", () => {
    let compared = 0;
    fc.assert(
      fc.property(anyJob, ({ input, log, left, found, rate, dropped }) => {
        const first = { ...input, items: input.items.filter((_, index) => index !== dropped) };
        const result = closeOut({
          revisions: [revisionOf(first, 1), revisionOf(input, 2)],
          found: found ? input.items.flatMap(({ id, certainty }) => (certainty.is === "if found" ? [id] : [])) : [],
          done: Object.fromEntries(left.flatMap(({ item, count }) => (input.items[item] ? [[input.items[item].id, count]] : []))),
          log,
          ...(rate !== undefined && { rates: { Oskar: rate } }),
        });
        const made = result.ok ? result.closeOut : result.partial!;
        if (result.ok) compared += 1;
        const { total, rows, items, assemblies, categories, scope } = made;
        for (const parts of [rows, items, assemblies, categories])
          for (const figure of ["quoted", "agreed", "allowed", "actual"] as const)
            expect(sum(parts.map((part) => part[figure]))).toBe(total[figure]);
        for (const part of [total, ...rows, ...items, ...assemblies, ...categories])
          expect(sum(VARIANCES.map((kind) => part.variance[kind]))).toBe(part.actual - part.allowed);
        for (const { category, variance: split, actual, allowed } of categories) {
          if (category === "access" || category === "labour") expect(split.rate + split.efficiency).toBe(actual - allowed);
          if (category === "parts") expect(split.price + split.usage).toBe(actual - allowed);
        }
        expect(total.quoted).toBe(price(sheetOf(first)));
        expect(total.agreed).toBe(price(sheetOf(input)));
        expect(sum(scope.map(({ amount }) => amount))).toBe(total.allowed - total.quoted);
        for (const { amount, categories: split } of scope) expect(sum(split.map((each) => each.amount))).toBe(amount);
        expect(rows.flatMap((each) => Object.values(each.variance)).every(Number.isSafeInteger)).toBe(true);
      }),
      runs(80),
    );
    expect(compared).toBeGreaterThan(runs(25).numRuns);
  });

  it("does not depend on the order of the log", () => {
    fc.assert(
      fc.property(anyJob, fc.boolean(), ({ input, log }, parts) => {
        const turned = parts ? { ...log, parts: log.parts.toReversed() } : { ...log, time: log.time.toReversed() };
        const totals = [log, turned].map((each) => {
          const result = closeOut({ revisions: [revisionOf(input)], found: [], done: {}, log: each });
          return (result.ok ? result.closeOut : result.partial!).total;
        });
        expect(totals[1]).toEqual(totals[0]);
      }),
      runs(30),
    );
  });
});
