import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { toMilli } from "../../src/estimating/money/scales.js";
import { resolve } from "../../src/estimating/resolve.js";
import type { Line, Sheet } from "../../src/estimating/sheet.js";
import { runs } from "../setup/runs.js";
import { anyInput } from "./cast/anyInput.js";
import { accessCost, item, job, on, sheet, sum } from "./cast/organ.js";
import { PLAIN, TAXED } from "./cast/plainBook.js";

const sheetOf = (input: EstimateInput): Sheet => {
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
};

describe("an estimate of nothing", () => {
  it("is a sheet of zeros", () => {
    const nothing = sheet();
    expect(nothing.lines).toEqual([]);
    expect(nothing.adjustments).toEqual([]);
    expect(nothing.warnings).toEqual([]);
    expect(nothing.detail).toEqual({ access: "none", work: "none" });
    expect(nothing.totals).toMatchObject({ linesNet: 0, tax: 0, total: 0, due: 0 });
    expect([nothing.ceiling.amount, nothing.ifDeclined.amount, nothing.deposit.amount, nothing.days.total]).toEqual([0, 0, 0, 0]);
  });

  it("needs neither a map, nor kinds, nor offers, nor a policy", () => {
    const { map: _, ...bare } = job();
    expect(sheetOf(bare)).toEqual(sheet());
  });
});

/** One job by hand: two boards deep, a part, a step, a rush, a discount, tax of 20 %, and 50.00 paid already. */
describe("a whole estimate", () => {
  const whole = sheet({
    items: [
      on("low", "a", { operation: "replace", count: 3, part: { type: "capacitor" } }),
      on("top", "b", { operation: "adjust" }),
      item("c", { operation: "soak", count: 2 }),
    ],
    rateBook: {
      ...TAXED,
      billing: { incrementMinutes: 15, minimumCharge: 0 },
      parts: { ...PLAIN.parts, markUp: [{ percent: 50 }], sundries: { percentOfParts: 0, percentOfLabour: 2 } },
    },
    policy: { rush: true, discount: { percent: 10, reason: "second unit" }, prepaid: 5000, diagnosis: true },
  });

  it("lists access, labour by assembly, steps, parts and fees in that order", () => {
    expect(whole.lines.map(({ id, minutes, amount }) => [id, minutes, amount])).toEqual([
      ["access:lid", 12, 1200],
      ["access:top", 6, 600],
      ["access:low", 3, 300],
      ["labour:b", 15, 3000],
      ["labour:a", 8 + 3 * 3, 1700],
      ["labour:c", 120, 1200],
      // Bench 38 minutes up to 45; alignment is 15 already.
      ["rounding:bench", 7, 700],
      ["part:capacitor", undefined, 45],
      ["fee:diagnosis", undefined, 4000],
    ]);
  });

  it("adds allowances and charges after the lines, then tax, then what is paid", () => {
    expect(whole.adjustments.map(({ id, charge, amount }) => [id, charge, amount])).toEqual([
      ["discount", false, 1275],
      ["sundries", true, 174],
      ["rush", true, 2175],
    ]);
    expect(whole.totals).toMatchObject({
      linesNet: 12_745,
      allowances: 1275,
      charges: 2349,
      withoutTax: 13_819,
      tax: 2764,
      total: 16_583,
      prepaid: 5000,
      due: 11_583,
    });
  });

  it("says in every line and charge what it comes from", () => {
    for (const { id, from } of [...whole.lines, ...whole.adjustments]) expect(from.length, id).toBeGreaterThan(0);
  });
});

describe("any estimate", () => {
  it("is the sum of what is printed", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const { lines, adjustments, totals, time, access } = sheetOf(input);
        expect(sum(lines.map(({ amount }) => amount))).toBe(totals.linesNet);
        const of = (charge: boolean) => sum(adjustments.filter((each) => each.charge === charge).map(({ amount }) => amount));
        expect([of(false), of(true)]).toEqual([totals.allowances, totals.charges]);
        expect(sum(totals.taxGroups.map(({ tax }) => tax))).toBe(totals.tax);
        expect(sum(totals.taxGroups.map(({ base }) => base))).toBe(totals.withoutTax);
        expect(totals.withoutTax + totals.tax).toBe(totals.total);
        expect(totals.total - totals.prepaid).toBe(totals.due);
        const minutes = (wanted: readonly { minutes?: number }[]) => sum(wanted.map((line) => toMilli(line.minutes ?? 0)));
        expect(minutes(lines)).toBe(toMilli(time.billed));
        expect(minutes(lines.filter(({ sort }) => sort === "access"))).toBe(toMilli(access.minutes.likely));
        expect(new Set(lines.map(({ id }) => id)).size).toBe(lines.length);
      }),
      runs(100),
    );
  });

  it("tells of the time that its lines charge, where expected minutes are charged, and of no other elsewhere", () => {
    fc.assert(
      fc.property(anyInput, ({ rateBook, ...input }) => {
        const at = (minutes: "expected" | "likely") =>
          sheetOf({ ...input, rateBook: { ...rateBook, billing: { ...rateBook.billing, minutes } } });
        const { lines, behind = [], time, access } = at("expected");
        const by = new Map(rateBook.labourClasses.map(({ id, attended }) => [id, attended]));
        const minutes = (wanted: (line: Line) => boolean) =>
          sum([...lines, ...behind].filter(wanted).map((line) => toMilli(line.minutes ?? 0))) / 1000;
        const attends = ({ labourClass }: Line) => labourClass && by.get(labourClass.id);
        expect(time.charged).toEqual({
          attended: minutes((line) => attends(line) === true),
          unattended: minutes((line) => attends(line) === false),
          access: minutes(({ sort }) => sort === "access"),
        });
        for (const { id, minutes: back } of access.refit) {
          const { refit } = access.removal.find((step) => step.id === id)!;
          expect(back).toBeCloseTo((refit.low + 4 * refit.likely + refit.high) / 6, 2);
        }
        expect(at("likely").time.charged).toBeUndefined();
      }),
      runs(100),
    );
  });

  it("gives the same bytes for the same input", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const again = JSON.parse(JSON.stringify(input)) as EstimateInput;
        expect(JSON.stringify(estimate(again))).toBe(JSON.stringify(estimate(input)));
      }),
      runs(100),
    );
  });

  it("names where each amount came from by an entry that is there", () => {
    const at = (root: unknown, pointer: string): unknown =>
      pointer
        .split("/")
        .slice(1)
        .reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], root);
    fc.assert(
      fc.property(anyInput, (input) => {
        const outcome = estimate(input);
        if (!outcome.ok) return;
        const { rateBook } = resolve(input);
        for (const { id, from } of [...outcome.sheet.lines, ...outcome.sheet.adjustments])
          for (const source of from) {
            expect(source, id).toHaveProperty("is");
            if (source.is === "rate book")
              expect(at(rateBook, source.entry || "/nowhere"), `${id}: ${source.entry}`).toBeDefined();
          }
      }),
      runs(60),
    );
  });

  it("does not change its input", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const before = structuredClone(input);
        estimate(input);
        expect(input).toEqual(before);
      }),
      runs(30),
    );
  });

  it("does not depend on the order of its items, nor on that of its offers", () => {
    fc.assert(
      fc.property(
        anyInput.chain((input) =>
          fc.tuple(
            fc.constant(input),
            fc.shuffledSubarray([...input.items], { minLength: input.items.length }),
            fc.shuffledSubarray([...(input.offers ?? [])], { minLength: input.offers?.length ?? 0 }),
          ),
        ),
        ([input, items, offers]) => {
          const [before, after] = [sheetOf(input), sheetOf({ ...input, items, offers })];
          const byId = ({ lines }: Sheet) => Object.fromEntries(lines.map(({ id, amount }) => [id, amount]));
          expect(byId(after)).toEqual(byId(before));
          expect(after.totals).toEqual(before.totals);
          expect([after.deposit, after.days, after.time]).toEqual([before.deposit, before.days, before.time]);
        },
      ),
      runs(100),
    );
  });

  it("never has less access because more work is added", () => {
    fc.assert(
      fc.property(anyInput, fc.nat(), (input, seed) => {
        const assemblies = input.map?.assemblies ?? [];
        fc.pre(assemblies.length > 0);
        const more = on(assemblies[seed % assemblies.length]!.id, "more");
        const [before, after] = [sheetOf(input), sheetOf({ ...input, items: [...input.items, more] })];
        expect(accessCost(after)).toBeGreaterThanOrEqual(accessCost(before));
        const opened = ({ access }: Sheet) => new Set(access.removal.map(({ id }) => id));
        expect([...opened(before)].every((id) => opened(after).has(id))).toBe(true);
      }),
      runs(100),
    );
  });

  it("has no access left to charge when what it opens is open already", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const opened = sheetOf(input).access.removal.map(({ id }) => id);
        const after = sheetOf({ ...input, boards: [], alreadyOpen: [...(input.alreadyOpen ?? []), ...opened] });
        expect([accessCost(after), after.access.removal]).toEqual([0, []]);
      }),
      runs(100),
    );
  });

  it("names options and finds by what they would change, exactly", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const before = sheetOf(input);
        for (const { items, chosen, price } of before.options) {
          const certainty = (on: boolean) => ({ is: "optional", chosen: on }) as const;
          const flipped = input.items.map((each) =>
            items.includes(each.id) ? { ...each, certainty: { ...each.certainty, ...certainty(!chosen) } } : each,
          );
          const after = sheetOf({ ...input, items: flipped });
          const [more, less] = chosen ? [before, after] : [after, before];
          expect(price).toBe(more.totals.total - less.totals.total);
        }
        for (const { items, price } of before.ifFound) {
          const found = input.items.map((each) =>
            items.includes(each.id) ? { ...each, certainty: { is: "planned" } as const } : each,
          );
          expect(price).toBe(sheetOf({ ...input, items: found }).totals.total - before.totals.total);
        }
      }),
      runs(100),
    );
  });
});
