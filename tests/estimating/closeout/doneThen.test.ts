/** Work of an agreement that was taken back; the small invented organ, invented prices. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { doneThen } from "../../../src/estimating/closeout/account/doneThen.js";
import type { WorkLog } from "../../../src/estimating/closeout/log/workLog.js";
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { resolve } from "../../../src/estimating/resolve.js";
import { runs } from "../../setup/runs.js";
import { job, on } from "../cast/organ.js";
import { anyLog, INPUT, minutes, revisionOf, sheetOf, used } from "./done.js";

const NONE: WorkLog = { time: [], parts: [] };
const linesOf = (input: EstimateInput, done: Record<string, number>, log: Partial<WorkLog> = {}, found: string[] = []) =>
  doneThen({ revision: revisionOf(resolve(input)), found, done }, undefined, { ...NONE, ...log })!.lines.map(
    ({ id, amount }): [string, number] => [id, amount],
  );
const agreedOf = (input: EstimateInput, id: string) => sheetOf(input).lines.find((line) => line.id === id)!.amount;

describe("work done under an agreement that was taken back", () => {
  it("is charged at its agreed price where it is ticked off, whatever was logged on it", () => {
    const price = agreedOf(INPUT, "labour:caps");
    for (const log of [{}, { time: [minutes("caps", 600)] }, { time: [minutes("caps", 0.5)], parts: [used("caps", 1, 900)] }])
      expect(linesOf(INPUT, { caps: 4 }, log)).toEqual([
        ["labour:caps", price],
        ["part:capacitor", agreedOf(INPUT, "part:capacitor")],
      ]);
  });

  it("is charged by its time and at most its agreed price where it is only timed, and its pieces at theirs", () => {
    const [[, half]] = linesOf(INPUT, {}, { time: [minutes("caps", 1)] }) as [[string, number]];
    expect([half > 0, half < agreedOf(INPUT, "labour:caps")]).toEqual([true, true]);
    expect(linesOf(INPUT, {}, { time: [minutes("caps", 900)] })).toEqual([["labour:caps", agreedOf(INPUT, "labour:caps")]]);
    const pieces = linesOf(INPUT, {}, { parts: [used("caps", 2, 90_000)] });
    expect(pieces).toEqual([["part:capacitor", agreedOf(INPUT, "part:capacitor") / 2]]);
  });

  it("is no less where one of the pieces is ticked off too", () => {
    const log = { time: [minutes("caps", 900)], parts: [used("caps", 4, 30)] };
    const all = linesOf(INPUT, {}, log);
    for (const caps of [1, 2, 3, 4]) expect(linesOf(INPUT, { caps }, log)).toEqual(all);
  });

  it("has possible work that was found, and none that was not", () => {
    expect(linesOf(INPUT, { valve: 1 }, {}, ["valve"]).map(([id]) => id)).toContain("labour:valve");
    expect(linesOf(INPUT, { valve: 1, oil: 1 })).toEqual([]);
  });

  it("of a service is its share of the price, by the time of what is ticked off behind it", () => {
    const work = [
      { operation: "clean", count: 3 },
      { operation: "adjust", count: 1 },
    ];
    const services = [{ id: "yearly", name: "Yearly service", price: 6000, work, source: { basis: "demo" as const } }];
    const items: WorkItem[] = [
      { id: "year", service: "yearly", count: 1, certainty: { is: "planned" } },
      on("low", "voice", { operation: "adjust" }),
    ];
    const input = job({ items, rateBook: { ...INPUT.rateBook, services } });
    const [[, part]] = linesOf(input, { "year/1": 3 }) as [[string, number]];
    const { behind = [] } = sheetOf(input);
    const all = behind.reduce((sum, line) => sum + line.minutes!, 0);
    expect(part).toBe(Math.round((6000 * behind[0]!.minutes!) / all));
    expect(linesOf(input, { "year/1": 3, "year/2": 1 })).toEqual([["labour:year", 6000]]);
    expect(linesOf(input, {}, { time: [minutes("year/1", 900)] })).toEqual([["labour:year", 6000]]);
  });

  it("is never dearer, line by line, than it was agreed at", () => {
    const counts = fc.record({ clean: fc.nat(5), caps: fc.nat(4), voice: fc.nat(1) });
    fc.assert(
      fc.property(counts, anyLog(INPUT, sheetOf(INPUT)), (done, log) => {
        const mine: WorkLog = {
          time: log.time.filter(({ work }) => work.is === "item"),
          parts: log.parts.filter(({ override }) => !override),
        };
        const own = new Map<string, number>();
        for (const [id, amount] of linesOf(INPUT, done, mine)) own.set(id, (own.get(id) ?? 0) + amount);
        for (const [id, amount] of own) {
          const agreed = sheetOf(INPUT).lines.find((line) => line.id === id);
          if (agreed) expect(amount, id).toBeLessThanOrEqual(agreed.amount);
        }
      }),
      runs(40),
    );
  });
});
