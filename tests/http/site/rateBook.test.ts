/** The rate book made the shop's own, by its pages: what is typed is shown with what it does, then saved as the next version. Demo data. */
import { describe, expect, it } from "vitest";
import { type Seen, words } from "../support/noScript.js";
import { issued, story } from "../support/story.js";

const book = async ({ opened }: Awaited<ReturnType<typeof story>>) =>
  ((await (await opened.call("/api/rate-books/bench-book")).json()) as { book: Record<string, never> }).book as never as {
    version: number;
    labourClasses: { id: string; ratePerHour: number; source: { basis: string; note?: string } }[];
    operations: { id: string; name: string; unit: { low: number; likely: number; high: number }; retiredOn?: string }[];
    partTypes: { id: string; typicalCost: number; leads?: number; minutes?: object }[];
    tax: { included: boolean; categories: { id: string; name: string; percent: number }[] };
    parts: { markUp: { upTo?: number; percent: number }[]; sundries: { cap?: number } };
    fees: { diagnosis: { amount: number; creditedOnAgreement: boolean } };
  };

const said = ({ html }: Seen) => words(html).replaceAll("\u00a0", " ");

describe("the hourly rate", () => {
  it("is typed, seen on open drafts and jobs, and saved as the next version", async () => {
    const told = await story();
    await issued(await story(0)).catch(() => undefined);
    const page = await told.desk.get("/rate-book");
    expect(page.status).toBe(200);
    const see = await told.desk.press(page, "See what it does", { "labourClasses.0.ratePerHour": "60" });
    expect(see.status, said(see)).toBe(200);
    expect(said(see)).toMatch(/Labour class 'Bench work': An hour\s+48\.00\s+60\.00/);
    expect(said(see)).toMatch(/J-2026-0001/);
    expect(said(see)).toMatch(/\+£\d/);
    expect((await book(told)).version).toBe(1);
    const saved = await told.desk.press(see, "Save version 2");
    expect(said(saved)).toContain("Saved: version 2.");
    const { labourClasses } = await book(told);
    expect(labourClasses[0]).toMatchObject({ ratePerHour: 6000, source: { basis: "from memory" } });
    expect(labourClasses[1]).toMatchObject({ source: { basis: "demo" } });
  });

  it("keeps what was typed on the way back from what it does", async () => {
    const told = await story();
    const see = await told.desk.press(await told.desk.get("/rate-book"), "See what it does", {
      "labourClasses.0.ratePerHour": "61.50",
      "tax.included": "yes",
    });
    const back = await told.desk.press(see, "Back to the figures");
    expect(back.html).toMatch(/name="labourClasses\.0\.ratePerHour"[^>]*value="61\.50"/);
    expect(back.html).toMatch(/<option value="yes" selected[^>]*>yes: tax is in them/);
  });

  it.each([
    [
      "a rate of 0",
      { "labourClasses.0.ratePerHour": "0" },
      "labourClasses.0.ratePerHour",
      "0 is no rate for work that somebody attends",
    ],
    [
      "an empty rate",
      { "labourClasses.0.ratePerHour": "" },
      "labourClasses.0.ratePerHour",
      "Labour class 'Bench work', An hour is missing",
    ],
    ["a tax of 250 %", { "tax.categories.0.percent": "250" }, "tax.categories.0.percent", "250 % is out of range"],
    ["a rate in letters", { "labourClasses.0.ratePerHour": "dear" }, "labourClasses.0.ratePerHour", "'dear' is not a number"],
    ["a day before the version in use", { inForceFrom: "2025-12-31" }, "inForceFrom", "cannot start before it"],
    ["bands with a hole", { "parts.markUp.0.percent": "" }, "parts.markUp.0.percent", "Mark-up is missing"],
  ])("refuses %s beside the field, and keeps the rest", async (_, filled, field, sentence) => {
    const told = await story();
    const page = await told.desk.get("/rate-book");
    const again = await told.desk.press(page, "See what it does", { "fees.diagnosis.amount": "41", ...filled });
    expect(again.status).toBe(422);
    expect(said(again)).toContain(sentence);
    expect(again.html).toContain(`href="#${field}"`);
    expect(again.html).toContain(`id="${field}-wrong"`);
    expect(again.html).toMatch(/name="fees\.diagnosis\.amount"[^>]*value="41"/);
    expect(said(again)).not.toMatch(/labourClasses|ratePerHour|\bpartTypes\b/);
    expect((await book(told)).version).toBe(1);
  });

  it("says so where nothing was changed", async () => {
    const told = await story();
    const again = await told.desk.press(await told.desk.get("/rate-book"), "See what it does");
    expect(again.status).toBe(422);
    expect(said(again)).toContain("Nothing is changed");
  });

  it("meets a version that someone else saved meanwhile, and goes on top of it", async () => {
    const told = await story();
    const page = await told.desk.get("/rate-book");
    const other = await told.desk.press(page, "See what it does", { "fees.rushPercent": "33" });
    await told.desk.press(other, "Save version 2");
    const met = await told.desk.press(page, "See what it does", { "labourClasses.0.ratePerHour": "70" });
    expect([met.status, said(met)]).toEqual([409, expect.stringContaining("Someone else saved a version meanwhile")]);
    expect(met.html).toMatch(/name="labourClasses\.0\.ratePerHour"[^>]*value="70"/);
  });
});

describe("tax, bands and fee", () => {
  it("change together; an emptied tax goes, a new band finds its place, an emptied cap is none", async () => {
    const told = await story();
    const { tax, parts } = await book(told);
    const next = parts.markUp.length;
    const see = await told.desk.press(await told.desk.get("/rate-book"), "See what it does", {
      "tax.categories.0.name": "Sales tax 8.25 %",
      "tax.categories.0.percent": "8.25",
      "tax.included": "yes",
      [`parts.markUp.${next}.upTo`]: "0.50",
      [`parts.markUp.${next}.percent`]: "120",
      "parts.sundries.cap": "",
      "fees.diagnosis.creditedOnAgreement": "no",
    });
    expect(see.status, said(see)).toBe(200);
    await told.desk.press(see, "Save version 2");
    const now = await book(told);
    expect(now.tax).toMatchObject({
      included: true,
      categories: [{ ...tax.categories[0], name: "Sales tax 8.25 %", percent: 8.25 }, ...tax.categories.slice(1)],
    });
    expect(now.parts.markUp).toEqual([{ upTo: 50, percent: 120 }, ...parts.markUp]);
    expect(now.parts.sundries.cap).toBeUndefined();
    expect(now.fees.diagnosis.creditedOnAgreement).toBe(false);
  });
});

describe("drafts", () => {
  it("keep their version unless they are ticked, and are then priced by the new one", async () => {
    const told = await story();
    const total = async () => {
      const { sheet, rateBookVersion } = (await (await told.opened.call(`/api/estimates/${told.estimateId}`)).json()) as {
        rateBookVersion: number;
        sheet: { totals: { total: number } };
      };
      return [rateBookVersion, sheet.totals.total] as const;
    };
    const [, before] = await total();
    const dearer = { "labourClasses.0.ratePerHour": "96" };
    const see = await told.desk.press(await told.desk.get("/rate-book"), "See what it does", dearer);
    await told.desk.press(see, "Save version 2");
    expect(await total()).toEqual([1, before]);
    const again = await told.desk.press(await told.desk.get("/rate-book"), "See what it does", {
      "labourClasses.0.ratePerHour": "97",
    });
    await told.desk.press(again, "Save version 3", { drafts: told.estimateId });
    const [version, after] = await total();
    expect(version).toBe(3);
    expect(after).toBeGreaterThan(before);
  });
});

describe("a version that starts later", () => {
  it("leaves what is begun until then to the one in force", async () => {
    const told = await story();
    const see = await told.desk.press(await told.desk.get("/rate-book"), "See what it does", {
      "labourClasses.0.ratePerHour": "60",
      inForceFrom: "2027-01-01",
    });
    expect(said(see)).not.toContain("Price J-");
    const saved = await told.desk.press(see, "Save version 2");
    expect(said(saved)).toContain("until then version 1 is in force");
    const page = await told.desk.get("/estimates/new");
    expect(page.status).toBe(200);
  });
});
