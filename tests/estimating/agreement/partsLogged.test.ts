/** What a log comes to where work is billed as agreed: as the account says it. The demo jobs (invented). */
import { describe, expect, it } from "vitest";
import { type AgreedWork, type LoggedWork, logged } from "../../../src/estimating/agreement/workLog.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { partOf, resolve } from "../../../src/estimating/resolve.js";
import { AMPLIFIER, ECHO, ORGAN, sheetOf } from "./demo.js";

const work = (input: EstimateInput) => ({ input: resolve(input), sheet: sheetOf(input), asAgreed: true });

/** All time as it is charged, and every piece, sold at what the pile cost: nothing of that is on the bill. */
function asPlanned({ input, sheet }: ReturnType<typeof work>): LoggedWork[] {
  const time = sheet.lines.flatMap(({ id, sort, minutes, labourClass, taxClass }): LoggedWork[] => {
    if (taxClass !== "labour" || minutes === undefined) return [];
    const on = id.startsWith("labour:") ? { item: id.slice("labour:".length) } : {};
    return [{ ...on, minutes, ...(labourClass && sort !== "fee" && { labourClass: labourClass.id }) }];
  });
  const charged = input.items.filter(({ certainty: is }) => is.is === "planned" || (is.is === "optional" && is.chosen));
  return [...time, ...charged.filter((item) => partOf(item)).map(({ id, count }) => ({ item: id, pieces: count, parts: 7 }))];
}

describe("a log of work that is billed as agreed", () => {
  it.each([
    ["organ", ORGAN],
    ["tape echo", ECHO],
    ["amplifier", AMPLIFIER],
  ])("of all that was planned comes to the agreed total: parts with their margin (%s)", (_, input) => {
    const agreed = work(input);
    const lines = (sort: string) => agreed.sheet.lines.filter((line) => line.sort === sort);
    const { total } = logged(agreed.input, agreed, asPlanned(agreed));
    expect(lines("part").length).toBeGreaterThan(0);
    // Lines of the same work are rounded one by one.
    expect(Math.abs(total - agreed.sheet.totals.total)).toBeLessThanOrEqual(3);
  });

  it("charges the margin of a scarce part with its pieces, and pieces beyond those agreed at their selling price", () => {
    const agreed = work(ORGAN);
    const line = (id: string) => agreed.sheet.lines.find((each) => each.id === id)!.amount;
    const net = (sheet: AgreedWork["sheet"], pieces: number) =>
      logged(agreed.input, { ...agreed, sheet }, [{ item: "w12", pieces, parts: 500 * pieces }]).withoutTax;
    const margin = line("scarcity:divider-7");
    const bare = { ...agreed.sheet, lines: agreed.sheet.lines.filter(({ id }) => id !== "scarcity:divider-7") };
    expect(margin).toBeGreaterThan(0);
    expect(net(agreed.sheet, 1) - net(bare, 1)).toBe(margin);
    // Sundries of 4 % of the parts come with them, and none of the margin.
    expect(net(agreed.sheet, 3) - net(agreed.sheet, 1)).toBe(1000 + 40);
  });

  it("has work at a fixed price once it is ticked off, with its fees, and nothing of it before", () => {
    const eye = { id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 1 };
    const input: EstimateInput = { ...ECHO, items: [...ECHO.items, { ...eye, certainty: { is: "planned" } }] };
    const agreed = work(input);
    expect(logged(input, agreed, [])).toMatchObject({ total: 0 });
    expect(logged(input, agreed, [], { eye: 0 })).toMatchObject({ total: 0 });
    const ticked = logged(input, agreed, [], { eye: 1 });
    expect(ticked.total).toBeGreaterThan(0);
    expect(logged(input, agreed, [{ item: "eye", minutes: 12 }], { eye: 1 })).toEqual(ticked);
    expect(logged(input, agreed, [{ item: "eye", minutes: 90 }])).toEqual(ticked);
  });
});
