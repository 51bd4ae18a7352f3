import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changesBetween, marksOf } from "../../../src/estimating/agreement/changeList.js";
import { moneyByCategory } from "../../../src/estimating/agreement/changeSums.js";
import { difference } from "../../../src/estimating/agreement/difference.js";
import { rowChanges } from "../../../src/estimating/agreement/rowChanges.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { fieldText } from "../../../src/wording/change.js";
import { english } from "../../../src/wording/english/index.js";
import { german } from "../../../src/wording/german/index.js";
import { runs } from "../../setup/runs.js";
import { item, job, on } from "../cast/organ.js";
import { COUNTS, changeList, DEMO, ECHO, ORGAN, revision, sheetOf } from "./demo.js";

const aboveTax = ({ totals }: Sheet) => totals.linesNet - totals.allowances + totals.charges;
const ids = (rows: readonly { readonly id: string }[]) => rows.map(({ id }) => id);
const withItem = (input: EstimateInput, id: string, change: Partial<WorkItem>): EstimateInput => ({
  ...input,
  items: input.items.map((item) => (item.id === id ? { ...item, ...change } : item)),
});
const rowsOf = (before: EstimateInput, after: EstimateInput) => changeList(before, after)!.rows;
const row = (before: EstimateInput, after: EstimateInput, id: string) => rowsOf(before, after).find((each) => each.id === id);

describe("what changed, row by row", () => {
  it("sums to the difference of what is printed above the tax, and by category to that of the totals", () => {
    let compared = 0;
    fc.assert(
      fc.property(revision, ({ before, after }) => {
        const [was, is] = [estimate(before), estimate(after)];
        if (!was.ok || !is.ok) {
          expect(changeList(before, after)).toBeUndefined();
          return;
        }
        compared += 1;
        const { rows, sums, categories, causes, figures } = changeList(before, after)!;
        const printed = rows.filter((each) => each.is === "line" || each.is === "adjustment");
        expect(printed.reduce((sum, { amount }) => sum + amount, 0)).toBe(aboveTax(is.sheet) - aboveTax(was.sheet));
        const change = is.sheet.totals.total - was.sheet.totals.total;
        const amounts = rows.flatMap((each) =>
          each.is === "line"
            ? [each.after?.amount ?? 0]
            : each.is === "adjustment" && each.after
              ? [each.after.charge ? each.after.amount : -each.after.amount]
              : [],
        );
        expect(amounts.reduce((sum, amount) => sum + amount, sums.unchanged)).toBe(sums.aboveTax.after);
        expect(sums.aboveTax.after + sums.taxOnTop.after).toBe(sums.total.after);
        expect(sums.aboveTax.difference + sums.taxOnTop.difference).toBe(sums.total.difference);
        expect(sums.total).toEqual({ before: was.sheet.totals.total, after: is.sheet.totals.total, difference: change });
        // Where one has prices with tax and the other without, tax moves in or out of the rows.
        expect(categories.reduce((sum, money) => sum + money.after - money.before, 0)).toBe(change);
        expect(causes.reduce((sum, { amount }) => sum + amount, 0)).toBe(change);
        expect(figures.some(({ figure }) => figure === "total")).toBe(change !== 0);
      }),
      runs(80),
    );
    expect(compared).toBeGreaterThan(runs(16).numRuns);
  });

  it("keeps to the sheets as issued, and gives no causes where today's prices of them do not explain the difference", () => {
    const issued = sheetOf(ORGAN);
    const dearer = { ...issued, totals: { ...issued.totals, total: issued.totals.total + 500 } };
    const after = withItem(ORGAN, "w08", { count: 5 });
    const list = changesBetween({ input: ORGAN, sheet: dearer }, { input: after, sheet: sheetOf(after) })!;
    expect(list.sums.total.before).toBe(issued.totals.total + 500);
    expect(list.causes).toEqual([]);
    expect(changeList(ORGAN, after)!.causes.length).toBeGreaterThan(0);
  });

  it("names every row that is not the same on both sheets, and no other", () => {
    fc.assert(
      fc.property(revision, ({ before, after }) => {
        const [was, is] = [estimate(before), estimate(after)];
        if (!was.ok || !is.ok) return;
        const named = new Set(rowsOf(before, after).map((each) => `${each.is} ${each.id}`));
        const amounts = ({ lines, adjustments, options, ifFound }: Sheet) => [
          ...lines.map(({ id, amount }): [string, number] => [`line ${id}`, amount]),
          ...adjustments.map(({ id, amount, charge }): [string, number] => [`adjustment ${id}`, charge ? amount : -amount]),
          ...options.map(({ id, price }): [string, number] => [`option ${id}`, price]),
          ...ifFound.map(({ id, price }): [string, number] => [`if found ${id}`, price]),
        ];
        const [earlier, later] = [new Map(amounts(was.sheet)), new Map(amounts(is.sheet))];
        const net = ({ options, ifFound }: Sheet) => [
          ...options.map(({ id, net: own }): [string, number] => [`option ${id}`, own]),
          ...ifFound.map(({ id, net: own }): [string, number] => [`if found ${id}`, own]),
        ];
        const [bare, barer] = [new Map(net(was.sheet)), new Map(net(is.sheet))];
        const roundedOnly = (key: string) =>
          bare.has(key) && bare.get(key) === barer.get(key) && Math.abs(earlier.get(key)! - later.get(key)!) <= 1;
        for (const key of new Set([...earlier.keys(), ...later.keys()]))
          if (earlier.get(key) !== later.get(key) && !roundedOnly(key)) expect(named).toContain(key);
        for (const key of named) expect(earlier.has(key) || later.has(key)).toBe(true);
      }),
      runs(80),
    );
  });

  it("is empty for a revision that changes nothing, such as a new date on the paper", () => {
    for (const job of DEMO) {
      const list = changeList(job, { ...job, paperwork: { ...job.paperwork, date: "2026-12-01", revision: 2 } })!;
      expect(list).toMatchObject({ rows: [], causes: [], figures: [], context: ["paperwork"] });
      expect(list.since).toEqual({ number: job.paperwork!.number, revision: 1, date: "2026-11-25" });
    }
  });

  it("has each line and adjustment of a sheet under an id of its own, or the rows could not be told apart", () => {
    for (const job of DEMO) {
      const sheet = sheetOf(job);
      for (const rows of [sheet.lines, sheet.adjustments, sheet.options, sheet.ifFound])
        expect(new Set(ids(rows)).size).toBe(rows.length);
    }
  });
});

describe("a row's mark", () => {
  it("says a corrected count with what it was, and the shop's reason for it", () => {
    const after: EstimateInput = {
      ...withItem(ORGAN, "w08", { count: 5 }),
      paperwork: { ...ORGAN.paperwork, whyChanged: { w08: "two more under the heat sink" } },
    };
    expect(row(ORGAN, after, "labour:w08")).toMatchObject({
      mark: "corrected",
      cause: "corrected",
      reason: "two more under the heat sink",
      fields: [{ field: "count", before: 3, after: 5 }],
    });
    expect(row(ORGAN, after, "part:el-47u-50")).toMatchObject({
      mark: "corrected",
      fields: expect.arrayContaining([{ field: "count", before: 9, after: 11 }]),
    });
  });

  it("says that work takes another time each than was thought", () => {
    const time = { low: 2, likely: 3, high: 9 };
    const after = withItem(ORGAN, "w08", { minutes: time });
    const { fields } = row(ORGAN, after, "labour:w08")!;
    expect(fields).toEqual([{ field: "time each", after: time }]);
  });

  it("names another operation, part and assembly as people know them", () => {
    const after = withItem(ORGAN, "w08", { operation: "reflow", assembly: "divider-2", part: { kind: "el-10u-50" } });
    const fields = row(ORGAN, after, "labour:w08")!.fields;
    expect(fields).toContainEqual({ field: "assembly", before: "Top divider board", after: "Middle divider board" });
    expect(fields).toContainEqual({ field: "operation", before: "Replace", after: "Resolder joints, each" });
    expect(fields.map(({ field }) => field)).toEqual(["assembly", "operation", "part"]);
  });

  it("says in words, English and German, what changed inside own work and an own part; what the shop pays stays with the shop", () => {
    const own = (more: Partial<WorkItem> = {}): EstimateInput => ({
      ...ECHO,
      items: [
        ...ECHO.items,
        { id: "own", own: { name: "Listen", minutes: FIVE }, count: 1, certainty: { is: "planned" }, ...more },
      ],
    });
    const chip = { name: "Voice chip", type: "film", cost: 9500, source: "Wrendale Surplus" };
    const fitted = (more: object = {}) => own({ own: { name: "Fit it", minutes: FIVE }, part: { own: { ...chip, ...more } } });
    const told = (before: EstimateInput, after: EstimateInput) =>
      [english, german].map((words) =>
        row(before, after, "labour:own")!
          .fields.map((field) => fieldText(field, { locale: "en-GB", currency: "GBP", words }))
          .join(", "),
      );
    expect(told(own(), own({ own: { name: "Listen", minutes: { low: 9, likely: 9, high: 9 } } }))).toEqual([
      "time each 9\u00a0min instead of 5\u00a0min",
      "Zeit je Stück 9\u00a0min statt 5\u00a0min",
    ]);
    expect(told(own(), own({ own: { name: "Listen again", price: 2000 } }))).toEqual([
      "operation Listen again instead of Listen, time each none instead of 5\u00a0min, price each £20.00 instead of none",
      "Arbeitsgang Listen again statt Listen, Zeit je Stück nichts statt 5\u00a0min, Preis je Stück £20.00 statt nichts",
    ]);
    expect(told(fitted(), fitted({ cost: 12000 }))).toEqual(["the part's price", "Preis des Teils"]);
    expect(told(fitted(), fitted({ source: "By post" }))).toEqual(["where the part comes from", "Herkunft des Teils"]);
    expect(told(fitted(), fitted({ name: "Another chip", cost: 1 }))[0]).toBe("part Another chip instead of Voice chip");
    expect(difference(fitted(), fitted())).toMatchObject({ changed: [] });
  });
  const FIVE = { low: 5, likely: 5, high: 5 };

  it("is silent on a possible price whose tax alone is rounded the other way beside another total", () => {
    const groups = (input: EstimateInput) => [...sheetOf(input).options, ...sheetOf(input).ifFound];
    let silent = 0;
    for (const { id } of ORGAN.items.filter(({ certainty }) => certainty.is === "planned")) {
      const after = { ...ORGAN, items: ORGAN.items.filter((item) => item.id !== id) };
      const was = new Map(groups(ORGAN).map((group) => [group.id, group]));
      const told = new Set(rowsOf(ORGAN, after).flatMap((each) => (each.is === "line" ? [] : [each.id])));
      for (const { id: group, net, price } of groups(after)) {
        const before = was.get(group)!;
        if (net !== before.net) expect(told).toContain(group);
        else if (Math.abs(price - before.price) === 1) {
          silent += 1;
          expect(told).not.toContain(group);
        }
      }
    }
    expect(silent).toBeGreaterThan(0);
  });

  it("says 'price changed' where work and count stand and only the money differs", () => {
    const after: EstimateInput = { ...ECHO, offers: ECHO.offers!.map((offer) => ({ ...offer, price: offer.price * 3 })) };
    const parts = rowsOf(ECHO, after).filter(({ id }) => id.startsWith("part:"));
    expect(parts.length).toBeGreaterThan(3);
    for (const { mark, fields, amount } of parts) {
      expect(mark).toBe("price changed");
      expect(fields.map(({ field }) => field)).toContain("unit price");
      expect(amount).toBeGreaterThan(0);
    }
    expect(rowsOf(ECHO, after).some(({ id }) => id.startsWith("labour:"))).toBe(false);
  });

  it("says 'rounding' where one minor unit of what several lines share fell the other way, and the rows still add up", () => {
    const sheet = sheetOf(ECHO);
    const line = sheet.lines.find(({ id }) => id.startsWith("labour:"))!;
    const by = (more: number, of: Partial<typeof line> = {}): Sheet => ({
      ...sheet,
      lines: sheet.lines.map((each) => (each.id === line.id ? { ...each, ...of, amount: each.amount + more } : each)),
    });
    const marked = (after: Sheet) =>
      rowChanges({ input: ECHO, sheet }, { input: ECHO, sheet: after }).map(({ id, mark, amount }) => [id, mark, amount]);
    expect([marked(by(1)), marked(by(-1)), marked(by(2))]).toEqual([
      [[line.id, "rounding", 1]],
      [[line.id, "rounding", -1]],
      [[line.id, "price changed", 2]],
    ]);
    expect(marked(by(1, { minutes: line.minutes! + 1 }))).toEqual([[line.id, "price changed", 1]]);
  });

  it("says 'rounding', and no time that prints alike, where only the share of a billing step differs", () => {
    const billing = { ...ECHO.rateBook.billing, incrementMinutes: 15, minutes: "expected" as const };
    const before: EstimateInput = { ...ECHO, rateBook: { ...ECHO.rateBook, billing } };
    // The same work once more on another board takes the set-up of the first with it: that is no rounding.
    const twice = before.items.find(({ id }) => id === "w07")!;
    const after: EstimateInput = { ...before, items: [...before.items, { ...twice, id: "another" }] };
    expect(row(before, after, "labour:w07")!.mark).toBe("price changed");
    const standing = rowsOf(before, after).filter(
      ({ id }) => /^(labour|access):/.test(id) && !/another/.test(id) && id !== "labour:w07",
    );
    expect(standing.length).toBeGreaterThan(3);
    const spoken = { locale: "en-GB", currency: "GBP" };
    for (const { mark, fields } of standing) {
      expect(mark).toBe("rounding");
      for (const each of fields) {
        const [, now, was] = /^\S+(?: \S+)*? ([£\d].*) instead of (.*)$/.exec(fieldText(each, spoken))!;
        expect(now).not.toBe(was);
      }
    }
    const dearer = {
      ...before,
      rateBook: {
        ...before.rateBook,
        labourClasses: before.rateBook.labourClasses.map((each) => ({ ...each, ratePerHour: 2 * each.ratePerHour })),
      },
    };
    expect(rowsOf(before, dearer).filter(({ mark }) => mark === "rounding")).toEqual([]);
  });

  it("says 'dropped' with the reason given for it", () => {
    const after: EstimateInput = {
      ...ORGAN,
      items: ORGAN.items.filter(({ id }) => id !== "w34"),
      paperwork: { ...ORGAN.paperwork, whyChanged: { w34: "the owner keeps the jacks as they are" } },
    };
    const dropped = row(ORGAN, after, "labour:w34")!;
    expect(dropped).toMatchObject({ mark: "dropped", cause: "dropped", reason: "the owner keeps the jacks as they are" });
    expect(dropped.amount).toBe(-sheetOf(ORGAN).lines.find(({ id }) => id === "labour:w34")!.amount);
  });

  it("says 'added' for possible work that was found, and nothing was dropped for it", () => {
    const after = withItem(ORGAN, "w06", { certainty: { is: "planned" } });
    expect(row(ORGAN, after, "labour:w06")).toMatchObject({ mark: "added", cause: "found" });
    expect(row(ORGAN, after, "w06")).toBeUndefined();
  });

  it("says that an option was taken up, on the option and on its lines", () => {
    const after = withItem(ORGAN, "w36", { certainty: { is: "optional", chosen: true, group: "new mains lead" } });
    expect(row(ORGAN, after, "new mains lead")).toMatchObject({ is: "option", mark: "corrected", cause: "choice" });
    expect(row(ORGAN, after, "labour:w36")).toMatchObject({ mark: "added", cause: "choice" });
  });

  it("says 'added' for an extra fault that is only an option, though it adds nothing to the total", () => {
    const item: WorkItem = { ...COUNTS.items[5]!, id: "x1", certainty: { is: "optional", chosen: false }, reason: "worn" };
    const list = changeList(COUNTS, { ...COUNTS, items: [...COUNTS.items, item] })!;
    expect(list.causes).toEqual([]);
    expect(list.rows).toEqual([
      expect.objectContaining({ is: "option", id: "x1", mark: "added", cause: "extra faults", reason: "worn" }),
    ]);
  });

  it("is found by row for the document that prints it", () => {
    const after = withItem(ORGAN, "w08", { count: 5 });
    const marks = marksOf(changeList(ORGAN, after)!);
    expect(marks.line.get("labour:w08")).toBe("corrected");
    expect(marks.line.get("labour:w09")).toBeUndefined();
    expect(marks.option.size + marks["if found"].size).toBeLessThanOrEqual(
      sheetOf(after).options.length + sheetOf(after).ifFound.length,
    );
  });
});

describe("the figures beside the total", () => {
  it("are named with both values where they differ", () => {
    const after: EstimateInput = { ...withItem(ORGAN, "w08", { count: 9 }), asOf: "2026-11-27" };
    const figures = changeList(ORGAN, after)!.figures;
    expect(figures.map(({ figure }) => figure)).toEqual(expect.arrayContaining(["total", "ceiling", "due", "valid until"]));
    expect(figures.find(({ figure }) => figure === "valid until")).toEqual({
      figure: "valid until",
      before: "2026-12-25",
      after: "2026-12-27",
    });
    expect(figures.some(({ figure }) => figure === "paid already")).toBe(false);
  });
});

describe("money by category", () => {
  it("keeps opening, labour, parts, margins, fees, charges and tax apart", () => {
    const [was, is] = [sheetOf(ORGAN), sheetOf({ ...ORGAN, toOpen: ["transformer"] })];
    const moved = moneyByCategory(was, is).filter(({ before, after }) => before !== after);
    expect(moved.map(({ category }) => category)).toEqual(expect.arrayContaining(["access", "tax"]));
    expect(moved.map(({ category }) => category)).not.toContain("parts");
  });

  it("puts minutes under labour, what is fitted under parts, and what must come off under opening", () => {
    const was = job({ items: [item("whole")] });
    const fitted = on("back", "b", { operation: "replace", part: { type: "valve" }, count: 2 });
    const moved = moneyByCategory(sheetOf(was), sheetOf({ ...was, items: [...was.items, fitted] }));
    // Plain book: cleaning 4 + 3 minutes, replacing 8 and 2 + 1 for each valve of 0.10, six screws of 3 minutes.
    expect(moved).toEqual([
      { category: "access", before: 0, after: 1800 },
      { category: "labour", before: 700, after: 700 + 1400 },
      { category: "parts", before: 0, after: 20 },
    ]);
    const looked = moneyByCategory(sheetOf(was), sheetOf({ ...was, policy: { diagnosis: true } }));
    expect(looked.filter(({ category }) => category !== "labour")).toEqual([
      { category: "fees", before: 0, after: was.rateBook.fees.diagnosis.amount },
    ]);
  });
});
