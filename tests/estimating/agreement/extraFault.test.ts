import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ExtraFault, extraFault } from "../../../src/estimating/agreement/extraFault.js";
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { runs } from "../../setup/runs.js";
import { item, job, on } from "../cast/organ.js";
import { TAXED } from "../cast/plainBook.js";
import { COUNTS, DEMO, ORGAN, sheetOf } from "./demo.js";

function found(...given: Parameters<typeof extraFault>): Extract<ExtraFault, { ok: true }> {
  const result = extraFault(...given);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result;
}
const total = (input: EstimateInput) => sheetOf(input).totals.total;

/** Cleaning costs 4.00 to set up and 3.00 each; lid 12.00, top 6.00, low 3.00, panel 9.00 with its loom 15.00, back 18.00, rail 3.00. */
describe("a fault found in the small organ, with the lid and the top board in the job", () => {
  const before = job({ items: [on("top")] });

  it("costs only its work on a board the job opens anyway", () => {
    const { now, later, revised } = found(before, { items: [on("top", "x1", { operation: "adjust" })] });
    expect(now).toEqual({ price: 3000, net: 3000, minutes: 15, opens: [] });
    expect(later).toEqual({ price: 4800, net: 4800, minutes: 33, opens: ["Lid", "Top"] });
    expect(total(revised)).toBe(total(before) + 3000);
  });

  it("costs its work and what comes off for it on a board behind", () => {
    const { now, later } = found(before, { items: [on("low", "x1")] });
    expect(now).toEqual({ price: 1000, net: 1000, minutes: 10, opens: ["Low"] });
    expect(later).toEqual({ price: 2800, net: 2800, minutes: 28, opens: ["Lid", "Top", "Low"] });
  });

  it("costs no opening of a board that stands open though no estimate charges it, and the lid stays charged", () => {
    const { now, revised } = found(before, { items: [on("panel", "x1")] }, ["panel", "loom", "lid"]);
    expect(now).toEqual({ price: 700, net: 700, minutes: 7, opens: [] });
    expect(total(revised)).toBe(total(before) + 700);
    expect(revised.openAtNoCharge).toEqual(["panel", "loom"]);
    const access = sheetOf(revised).lines.filter(({ sort }) => sort === "access");
    expect(access.map(({ assembly, amount }) => [assembly!.name, amount])).toEqual([
      ["Lid", 1200],
      ["Top", 600],
    ]);
    expect(sheetOf(revised).access.alreadyOpen).toEqual(["Panel", "Loom"]);
  });

  it("leaves the input as it is where all that stands open is the job's own", () => {
    const { revised } = found(before, { items: [on("top", "x1")] }, ["lid", "top"]);
    expect(revised).toEqual({ ...before, items: [...before.items, on("top", "x1")] });
  });

  it("keeps what arrived open uncharged, then and now", () => {
    const arrivedOpen = job({ items: [on("top")], alreadyOpen: ["lid"] });
    const { now, revised } = found(arrivedOpen, { items: [on("panel", "x1")] }, ["lid"]);
    expect(now.opens).toEqual(["Panel", "Loom"]);
    expect(revised.openAtNoCharge).toBeUndefined();
    expect(total(revised)).toBe(total(arrivedOpen) + now.price);
  });

  it("shares a set-up with the same work on the same board", () => {
    const { now } = found(before, { items: [on("top", "x1")] });
    expect(now.price).toBe(300);
  });

  it("is priced as done even where the owner is left to choose, and stays the owner's choice in the revision", () => {
    const choice: WorkItem = { ...on("low", "x1"), certainty: { is: "optional", chosen: false } };
    const { now, revised } = found(before, { items: [choice] });
    expect(now.price).toBe(1000);
    expect(total(revised)).toBe(total(before));
    expect(sheetOf(revised).options.map(({ price }) => price)).toEqual([1000]);
  });

  it("tells tax apart", () => {
    const { now } = found(job({ items: [on("top")], rateBook: TAXED }), { items: [on("low", "x1")] });
    expect([now.net, now.price]).toEqual([1000, 1200]);
  });

  it("carries today's terms now, and none of them at a later visit", () => {
    const rushed = job({ items: [on("top")], policy: { rush: true, diagnosis: true } });
    const { now, later } = found(rushed, { items: [on("low", "x1")] });
    expect(now.price).toBe(1250);
    expect(later.price).toBe(2800);
  });
});

describe("a fault counted, not mapped", () => {
  it("brings its own boards to open, now and later", () => {
    const extra = {
      items: [item("x1", { operation: "clean-pots", count: 4 })],
      boards: [{ size: "small", mounting: "on top", count: 1 }] as const,
    };
    const { now, later, laterAtLeast, revised } = found(COUNTS, extra);
    expect(laterAtLeast).toBe(false);
    expect(revised.boards).toHaveLength(COUNTS.boards!.length + 1);
    expect(total(revised)).toBe(total(COUNTS) + now.price);
    expect(later.price).toBeGreaterThan(0);
  });

  it("says that a later visit costs at least so much where the board to open is not named", () => {
    const { laterAtLeast } = found(COUNTS, { items: [item("x1", { operation: "clean-pots", count: 4 })] });
    expect(laterAtLeast).toBe(true);
  });
});

describe("any extra fault on any demo job", () => {
  const fault = fc.record({
    job: fc.constantFrom(...DEMO),
    picks: fc.array(fc.tuple(fc.nat(200), fc.nat(200), fc.integer({ min: 1, max: 9 })), { minLength: 1, maxLength: 3 }),
    open: fc.array(fc.nat(200), { maxLength: 4 }),
  });

  it("adds to the total exactly what it is said to cost, and never takes back access charged before", () => {
    fc.assert(
      fc.property(fault, ({ job: input, picks, open }) => {
        const assemblies = input.map?.assemblies ?? [];
        const items = picks.map(([model, place, count], at): WorkItem => {
          const { assembly: _, ...like } = input.items[model % input.items.length]!;
          const where = assemblies.length > 0 ? { assembly: assemblies[place % assemblies.length]!.id } : {};
          return { ...like, ...where, id: `x${at}`, count, certainty: { is: "planned" } };
        });
        const standing = assemblies.length > 0 ? open.map((pick) => assemblies[pick % assemblies.length]!.id) : [];
        const { now, revised } = found(input, { items }, standing);
        const [was, is] = [sheetOf(input), sheetOf(revised)];
        expect(is.totals.total - was.totals.total).toBe(now.price);
        expect(is.totals.withoutTax - was.totals.withoutTax).toBe(now.net);
        for (const line of was.lines.filter(({ sort }) => sort === "access"))
          expect(is.lines.find(({ id }) => id === line.id)?.amount).toBe(line.amount);
        const opened = new Set(standing.map((id) => assemblies.find((each) => each.id === id)!.name));
        expect(now.opens.filter((name) => opened.has(name))).toEqual([]);
      }),
      runs(80),
    );
  });

  it("costs no more now than with nothing open beforehand", () => {
    fc.assert(
      fc.property(fc.nat(200), fc.nat(200), (place, open) => {
        const assemblies = ORGAN.map!.assemblies;
        const extra = { items: [item("x1", { operation: "reflow", assembly: assemblies[place % assemblies.length]!.id })] };
        const closed = found(ORGAN, extra).now.price;
        expect(found(ORGAN, extra, [assemblies[open % assemblies.length]!.id]).now.price).toBeLessThanOrEqual(closed);
      }),
      runs(50),
    );
  });
});

describe("what cannot be added", () => {
  it("is named: an id that is taken, an assembly that is not there, an open one that is not there", () => {
    const name = (result: ExtraFault) => (result.ok ? [] : result.problems.map(({ name, pointer }) => [name, pointer]));
    expect(name(extraFault(ORGAN, { items: [ORGAN.items[0]!] }))).toEqual([["id repeated", `/items/${ORGAN.items.length}/id`]]);
    expect(name(extraFault(ORGAN, { items: [on("attic", "x1", { operation: "reflow" })] }))).toEqual([
      ["assembly unknown", `/items/${ORGAN.items.length}/assembly`],
    ]);
    expect(name(extraFault(ORGAN, { items: [] }, ["attic"]))).toEqual([["assembly unknown", "/openAtNoCharge/0"]]);
  });

  it("is the job's own problem where the job has one", () => {
    const broken = { ...ORGAN, unit: { ...ORGAN.unit, grade: "mint" } };
    expect(extraFault(broken, { items: [] })).toMatchObject({ ok: false, problems: [{ name: "grade unknown" }] });
  });
});
