/** Faults found since a revision, on the small organ: cleaning costs 4.00 to set up and 3.00 each; lid 12.00, panel 9.00 with its loom 15.00. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { moneyByCause } from "../../../src/estimating/agreement/causes.js";
import { faultsFound } from "../../../src/estimating/agreement/faultsFound.js";
import { runs } from "../../setup/runs.js";
import { assembly, item, job, ORGAN, on, sum } from "../cast/organ.js";
import { changeList, DEMO, revision, sheetOf } from "./demo.js";

const before = job({ items: [item("whole")] });
const after = (...items: Parameters<typeof on>[]) => job({ items: [...before.items, ...items.map((one) => on(...one))] });

describe("faults found since", () => {
  it("each has its own price on top, with what it shares with the others and the reason it came with", () => {
    const found = faultsFound(before, after(["panel", "a", { reason: "cracked" }], ["loom", "b"]))!;
    expect(found.each).toEqual([
      {
        ...{ item: "a", name: "Panel: clean", reason: "cracked", is: "planned", inTotal: true, price: 4300, shared: 3600 },
        opens: ["Lid", "Panel", "Loom"],
      },
      {
        item: "b",
        name: "Loom: clean",
        is: "planned",
        inTotal: true,
        price: 4300,
        shared: 3600,
        opens: ["Lid", "Panel", "Loom"],
      },
    ]);
    expect(found.together).toBe(3600 + 700 + 700);
  });

  it("one alone shares nothing; what is possible or to be chosen has its price and is not in the total", () => {
    const found = faultsFound(
      before,
      after(
        ["panel", "a"],
        ["loom", "b", { certainty: { is: "if found", probability: 0.2 } }],
        ["back", "c", { certainty: { is: "optional", chosen: false }, count: 2 }],
      ),
    )!;
    expect(found.each.map(({ item, inTotal, price, shared }) => [item, inTotal, price, shared])).toEqual([
      ["a", true, 4300, 0],
      ["b", false, 4300, 3600],
      ["c", false, 1800 + 1000, 0],
    ]);
    expect([found.each[2]!.name, found.together]).toEqual(["Back: clean × 2", 4300]);
  });

  it("says which place the revision before did not have", () => {
    const map = { assemblies: [...ORGAN, assembly("tray", { behind: ["lid"] }, 2)] };
    const now = { ...after(["tray", "a"], ["back", "b"]), map };
    expect(faultsFound(before, now)!.each.map(({ newPlace, opens }) => [newPlace, opens])).toEqual([
      ["Tray", ["Lid", "Tray"]],
      [undefined, ["Back"]],
    ]);
  });

  it("names what is fitted, be it the shop's own words, and leaves out what was counted down to none", () => {
    const relay = { own: { name: "Valve of the old stock", type: "valve", cost: 450 } };
    const found = faultsFound(before, after(["back", "a", { operation: "replace", part: relay }], ["panel", "b", { count: 0 }]))!;
    expect(found.each.map(({ item, name }) => [item, name])).toEqual([["a", "Back: replace, Valve of the old stock"]]);
    expect(faultsFound(before, after(["panel", "b", { count: 0 }]))).toBeUndefined();
  });

  it("are none where nothing was added, and are not told apart of an estimate that is mostly new", () => {
    expect(faultsFound(before, before)).toBeUndefined();
    expect(changeList(before, before)).not.toHaveProperty("faults");
    expect(faultsFound(job(), after(["panel", "a"]))).toBeUndefined();
    const many = after(...Array.from({ length: 21 }, (_, at): Parameters<typeof on> => ["panel", `m${at}`]));
    expect(faultsFound(before, many)).toBeUndefined();
  });

  it("come to the part of the total that extra faults cause, and one by one to that and what they share", () => {
    fc.assert(
      fc.property(fc.constantFrom(...DEMO), fc.array(fc.nat(60), { minLength: 1, maxLength: 4 }), (input, places) => {
        const added = places.map((place, at) => ({
          ...input.items[place % input.items.length]!,
          ...{ id: `x${at}`, certainty: { is: "planned" } as const },
        }));
        const now = { ...input, items: [...input.items, ...added] };
        const found = faultsFound(input, now)!;
        const cause = moneyByCause(input, now)!.find((each) => each.cause === "extra faults");
        expect(found.together).toBe(cause?.amount ?? 0);
        expect(found.together).toBe(sheetOf(now).totals.total - sheetOf(input).totals.total);
        if (added.length === 2) expect(sum(found.each.map(({ price }) => price)) - found.each[0]!.shared).toBe(found.together);
      }),
      runs(40),
    );
  });

  it("are told of any two revisions without failing, and their cause is the same wherever it stands alone", () => {
    fc.assert(
      fc.property(revision, ({ before: was, after: is }) => {
        const list = changeList(was, is);
        if (!list?.faults) return;
        const alone = list.causes.find(({ cause, together }) => cause === "extra faults" && !together);
        if (alone && list.causes.every(({ together }) => !together)) expect(list.faults.together).toBe(alone.amount);
      }),
      runs(60),
    );
  });
});
