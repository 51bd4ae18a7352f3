/** What each thing that may be found adds, and what several of them share: one bench minute costs 1.00 and every time is certain, so all of it by hand. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { groupsOf, isCharged } from "../../../src/estimating/labour/groups.js";
import { bareOf } from "../../../src/estimating/pricing/bare.js";
import { possibleWork } from "../../../src/estimating/pricing/possible.js";
import { price, visitNow } from "../../../src/estimating/pricing/price.js";
import { workingsOf } from "../../../src/estimating/pricing/workings.js";
import { assembly, item, job } from "../cast/organ.js";
import { EXACT, is } from "./shares.js";

const MAYBE = { is: "if found", probability: 0.5 } as const;
const maybe = (id: string, given: Partial<WorkItem> = {}) => item(id, { certainty: MAYBE, ...given });
const own = (id: string, work: WorkItem["own"], count = 1): WorkItem => ({ id, own: work!, count, certainty: MAYBE });
const replace = { operation: "replace" } as const;
/** Five screws of 3 minutes, and behind them two. */
const map = { assemblies: [assembly("panel", {}, 5), assembly("board", { behind: ["panel"] }, 2)] };
const offer: Offer = {
  ...{ id: "o", kind: "cap", source: "Pindrake", on: "2026-11-20", currency: "EUR", price: 240, packSize: 1, leadDays: 4 },
  ...{ state: "new", freight: 300 },
};
const kinds = [
  { id: "cap", type: "capacitor", name: "Cap" },
  { id: "coil", type: "capacitor", name: "Coil" },
];
const offers = [offer, { ...offer, id: "q", kind: "coil", price: 900, freight: 500 }];

function possible(items: readonly WorkItem[], rules: Partial<RateBook> = {}, given: Partial<EstimateInput> = {}) {
  const workings = workingsOf(job({ map, kinds, offers, rateBook: { ...EXACT, ...rules, risk: "shared" }, ...given, items }));
  const { input } = workings;
  const counted = price(workings, workings.items.filter(isCharged), visitNow(input, workings.map));
  return possibleWork(groupsOf(workings.items, input.items, "if found"), bareOf(counted, workings), workings);
}
const kindOf = (id: string) => id.split(" ")[0];
const minutes = (labour: readonly { readonly time: { readonly likely: number } }[]) => labour.map(({ time }) => time.likely);
/** Minutes at the bench, other amount, and what it needs with others. */
const eachOf = ({ found }: ReturnType<typeof possible>) =>
  found.map(({ labour, parts, needs }) => [minutes(labour), parts, needs!.map(kindOf)]);
const sharedOf = ({ shared }: ReturnType<typeof possible>) =>
  shared.map(({ id, labour, amount }) => [kindOf(id), minutes(labour), amount]);
const worn = { unit: { maker: "Threnwick", model: "Cadence 3", grade: "worn" } } as const;

describe("what may be found", () => {
  it("has its own work, half as long again in a worn unit, and a set-up that nobody did yet beside it", () => {
    const work = possible([item("a"), maybe("f"), maybe("g", { operation: "adjust" })], {}, worn);
    // Clean is set up for a already. Adjust: 10 and 5 minutes at 2.00.
    expect(eachOf(work)).toEqual([
      [[4.5], 0, []],
      [[15], 0, ["setup"]],
    ]);
    expect(sharedOf(work)).toEqual([["setup", [7.5], 0]]);
    expect(work.all).toBe(450 + 3000 + 1500);
    expect([work.found[0]!.probability, work.beyond]).toEqual([0.5, undefined]);
  });

  it("is no bench time where it runs beside the bench, and takes no longer in a worn unit", () => {
    const work = possible([item("a"), maybe("s", { operation: "soak", count: 2 })], {}, worn);
    expect(eachOf(work)).toEqual([[[], 1200, []]]);
    expect(work.groups[0]!.timed.map(({ time }) => time.likely)).toEqual([120]);
  });

  it("opens what is closed, once with others, and nothing that is open", () => {
    const faults = [maybe("f", { assembly: "board" }), maybe("g", { assembly: "panel", count: 2 })];
    const work = possible([item("a"), ...faults]);
    expect(eachOf(work)).toEqual([
      [[3], 0, ["place", "place", "setup"]],
      [[6], 0, ["place", "setup"]],
    ]);
    expect(sharedOf(work).map(([what, time]) => [what, time])).toEqual([
      ["place", [6]],
      ["place", [15]],
      ["setup", [4]],
      ["setup", [4]],
    ]);
    expect(work.all).toBe(2100 + 800 + 300 + 600);
    expect(eachOf(possible([item("a", { assembly: "panel" }), ...faults]))).toEqual([
      [[3], 0, ["place", "setup"]],
      [[6], 0, []],
    ]);
    expect(eachOf(possible([item("a"), ...faults], {}, { alreadyOpen: ["board"] }))).toEqual([
      [[3], 0, ["setup"]],
      [[6], 0, ["setup"]],
    ]);
  });

  it("is set up on more boards where more are counted, by its own count and by what is set up there already", () => {
    const boards = [{ size: "small", mounting: "on top", count: 3 } as const];
    const of = (planned: number, count: number, given: Partial<EstimateInput> = { boards }, rules: Partial<RateBook> = {}) =>
      eachOf(possible([...(planned ? [item("a", { count: planned })] : []), maybe("f", { count })], rules, given))[0];
    expect(of(0, 5)).toEqual([[15, 8], 0, ["setup"]]);
    expect(of(0, 2)).toEqual([[6, 4], 0, ["setup"]]);
    expect(of(0, 1)).toEqual([[3], 0, ["setup"]]);
    expect(of(1, 5)).toEqual([[15, 8], 0, []]);
    expect(of(1, 1)).toEqual([[3, 4], 0, []]);
    expect(of(2, 5)).toEqual([[15, 4], 0, []]);
    expect(of(3, 5)).toEqual([[15], 0, []]);
    expect(of(4, 5)).toEqual([[15], 0, []]);
    expect(of(1, 5, { boards: [{ ...boards[0]!, count: 1 }] })).toEqual([[15], 0, []]);
    expect(of(1, 5, { boards: [{ ...boards[0]!, count: 1 }], toOpen: ["panel"] })).toEqual([[15, 4], 0, []]);
    // By the book only replacements are set up on each board; and work at a place is set up there.
    expect(of(1, 5, { boards }, { billing: { ...EXACT.billing, setUps: "replacements" } })).toEqual([[15], 0, []]);
    const placed = possible([item("a", { assembly: "panel" }), maybe("f", { assembly: "panel", count: 5 })], {}, { boards });
    expect(eachOf(placed)).toEqual([[[15], 0, []]]);
    // Two of one group are set up together: four and one, on three boards.
    const group = { certainty: { ...MAYBE, group: "both" } };
    expect(eachOf(possible([maybe("f", { count: 4, ...group }), maybe("g", group)], {}, { boards }))).toEqual([
      [[12, 3, 8], 0, ["setup"]],
    ]);
  });

  it("is charged its own price: what that leaves above its time is certain, and time worth more is the shop's loss", () => {
    expect(eachOf(possible([item("a"), own("f", { name: "Polish", price: 1900 }, 2)]))).toEqual([[expect.anything(), 3800, []]]);
    expect(eachOf(possible([item("a"), own("g", { name: "Glue", price: 300, minutes: is(2) })]))).toEqual([[[2], 100, []]]);
    expect(eachOf(possible([item("a"), own("g", { name: "Glue", price: 100, minutes: is(2) })]))).toEqual([[[2], 0, []]]);
    expect(possible([item("a"), own("g", { name: "Glue", price: 100, minutes: is(2) })]).all).toBe(100);
    // Time and price of one group: 3 minutes by the hour, and 3.00 of which 2.00 is time.
    const group = { certainty: { ...MAYBE, group: "both" } };
    const both = [maybe("f", group), { ...own("g", { name: "Glue", price: 300, minutes: is(2) }), ...group }];
    expect(eachOf(possible([item("a"), ...both]))).toEqual([[[3, 2], 100, []]]);
  });

  it("pays a source's freight once with others, beyond what is paid already", () => {
    const faults = [
      maybe("f", { ...replace, part: { kind: "cap" } }),
      maybe("g", { ...replace, part: { kind: "coil" }, count: 2 }),
    ];
    const planned = item("a", replace);
    const work = possible([planned, ...faults]);
    // 2.40 and 2 x 9.00; Pindrake is paid 3.00 for the one, 5.00 for the other: 3.00 by both, and 2.00 more.
    expect(eachOf(work).map(([, ...rest]) => rest)).toEqual([
      [240, ["freight"]],
      [1800 + 200, ["freight"]],
    ]);
    expect(sharedOf(work)).toEqual([["freight", [], 300]]);
    const paid = (kind: string) => eachOf(possible([{ ...planned, part: { kind } }, ...faults])).map(([, ...rest]) => rest);
    expect(paid("cap")).toEqual([
      [240, []],
      [1800, ["freight"]],
    ]);
    expect(paid("coil")).toEqual([
      [240, []],
      [1800, []],
    ]);
  });

  it("has a buy plan for a scarce part in place of its margin, and none of a part that nobody offers", () => {
    const scarce = kinds.map((kind) => ({ ...kind, scarcity: "scarce" as const }));
    const fault = [item("a", replace), maybe("f", { ...replace, part: { kind: "cap" }, count: 2 })];
    const planned = possible(fault, {}, { kinds: scarce });
    expect(planned.found[0]!.sourcing).toMatchObject([{ id: "cap", priced: 480, outcomes: [{ probability: 1 }] }]);
    expect(planned.found[0]!.parts).toBe(0);
    const missing = possible(fault, {}, { kinds: scarce, offers: [] });
    expect(missing.found[0]!.sourcing).toEqual([]);
    // Two guessed at 0.10, and half as much again for being scarce.
    expect(missing.found[0]!.parts).toBe(30);
  });
});

describe("where a set costs other than the sum of its parts", () => {
  const steps = { billing: { incrementMinutes: 15, minimumCharge: 0 } };
  const least = (minimumCharge: number) => ({ billing: { incrementMinutes: 0, minimumCharge } });

  it("every set is weighed against what its parts say: time in steps of a quarter hour", () => {
    // 7 minutes planned are charged as 15; 3 more stay within them, 9 more make 16 and are charged as 30, and so do both.
    const work = possible([item("a"), maybe("f"), maybe("g", { count: 3 })], steps);
    expect(work.beyond).toEqual([0, -300, 1500 - 900, 1500 - 1200]);
    expect([work.all, eachOf(work)]).toEqual([
      1500,
      [
        [[3], 0, []],
        [[9], 0, []],
      ],
    ]);
  });

  it("or a least charge: nothing is added until it is passed", () => {
    expect(possible([item("a"), maybe("f"), maybe("g", { count: 3 })], least(1200)).beyond).toEqual([
      0,
      -300,
      // 7 and 9 are 16: 4.00 over.
      400 - 900,
      700 - 1200,
    ]);
    expect(possible([item("a"), maybe("f")], least(700)).beyond).toBeUndefined();
    expect(possible([item("a"), maybe("f")], least(701)).beyond).toBeUndefined();
    expect(possible([item("a"), maybe("f")], least(704)).beyond).toEqual([0, -4]);
    // A price that was said is no time: the least charge is for what is charged by time.
    const said = [{ ...own("a", { name: "Mend", price: 500 }), certainty: { is: "planned" } as const }, maybe("f")];
    expect(possible(said, least(2000)).all).toBe(1500);
  });

  it("or a cap on sundries, or a discount of one sum", () => {
    const sundries = { percentOfParts: 0, percentOfLabour: 10, cap: 100 };
    // 10 % of 7.00 is 0.70: each alone brings 0.30 and is at the cap, and so are both.
    const items = [item("a"), maybe("f"), maybe("g", { count: 3 })];
    const capped = possible(items, { parts: { ...EXACT.parts, sundries } });
    expect([capped.all, capped.beyond]).toEqual([1200 + 30, [0, 0, 0, -30]]);
    expect(capped.found.map(({ parts }) => parts)).toEqual([30, 30]);
    const { cap: _, ...open } = sundries;
    const uncapped = possible(items, { parts: { ...EXACT.parts, sundries: open } });
    expect([uncapped.all, uncapped.beyond]).toEqual([1200 + 120, undefined]);
    // A discount of 9.00 takes all of 7.00; with 3.00 more it is given whole.
    const discount = { amount: 900, reason: "regular" };
    const less = possible(items, {}, { policy: { discount } });
    expect([less.all, less.found.map(({ parts }) => parts), less.beyond]).toEqual([1000, [-200, -200], [0, 0, 0, 200]]);
  });

  const many = (count: number, probability: number) =>
    Array.from({ length: count }, (_, at) => maybe(`f${at}`, { certainty: { is: "if found", probability } }));

  it("up to nine things; of more, or beside options, it is their average, paid once anything turns up", () => {
    const options = (count: number) =>
      Array.from({ length: count }, (_, at) => item(`o${at}`, { certainty: { is: "optional", chosen: false } }));
    const sets = (count: number, beside = 0) =>
      possible([item("a"), ...many(count, 0.5), ...options(beside)], least(100_000)).beyond?.length;
    expect([sets(9), sets(10), sets(8, 1), sets(9, 1), sets(7, 2), sets(8, 2)]).toEqual([
      512,
      undefined,
      256,
      undefined,
      128,
      undefined,
    ]);
    expect([sets(4, 31), sets(1, 32)]).toEqual([16, undefined]);
    expect(possible([item("a"), ...many(10, 0.5)]).shared).toEqual([]);
  });

  it.each([0.5, 0.2])("the average is as often as they turn up: twelve at %f under a least charge that none passes", (chance) => {
    const work = possible([item("a"), ...many(12, chance)], least(1_000_000));
    expect(work.shared.map(({ id, labour }) => [id, labour])).toEqual([["together", []]]);
    expect(work.found.every(({ needs }) => needs!.at(-1) === "together")).toBe(true);
    expect(work.timedShared).toEqual([[]]);
    // Each found is 3.00 that nobody is charged: 12 x 3.00 x chance, given that anything is found.
    const wanted = (-12 * 300 * chance) / (1 - (1 - chance) ** 12);
    expect(Math.abs(work.shared[0]!.amount / wanted - 1)).toBeLessThan(0.05);
    expect(work.all).toBe(0);
  });
});
