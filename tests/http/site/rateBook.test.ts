/** The rate book made the shop's own, by its pages: what is typed is shown with what it does, then saved as the next version. Demo data. */
import { describe, expect, it } from "vitest";
import type { TaxRounding } from "../../../src/estimating/input.js";
import { estimates } from "../../../src/records/estimates.js";
import { englishOfSheet } from "../../../src/wording/english/sheet.js";
import { BOOK_CHOICES } from "../../../src/wording/rateBookParts.js";
import { draftOf, issued as issuedNow, TAPE_ECHO } from "../../records/support/livedIn.js";
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

/** What the rate book offers is how the printed sentence ends. */
function worded<K extends "level" | "mode">(of: K, value: TaxRounding[K]): boolean {
  const [, offered = ""] = BOOK_CHOICES[`tax.rounding.${of}`]!.find(([each]) => each === value)!;
  const printed: Readonly<Record<string, string>> = englishOfSheet.taxRounding[of];
  return printed[value]!.endsWith(offered.replace("nowhere: ", ""));
}

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
    [
      "a rate below 0",
      { "labourClasses.0.ratePerHour": "-5" },
      "labourClasses.0.ratePerHour",
      "An hour is -£5.00; give at least £0.00.",
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

  it("leaves the rules of a book that is older than they are, whatever else is saved", async () => {
    const told = await story();
    const { version: _, id: ______, ...newer } = (await book(told)) as never as Record<string, unknown>;
    const { risk: __, safety: ___, ...rest } = newer as Record<string, Record<string, unknown>>;
    const { minutes: ____, setUps: _____, ...billing } = rest.billing!;
    const older = { ...rest, billing, inForceFrom: "2026-11-20" };
    const put = await told.opened.send("PUT", "/api/rate-books/bench-book", older, { "if-match": '"1"' });
    expect(put.status, await put.clone().text()).toBe(200);
    const see = await told.desk.press(await told.desk.get("/rate-book"), "See what it does", { "fees.rushPercent": "33" });
    // They are written out, as what they meant.
    const meant = {
      "Time charged": "likely",
      "Set up on each counted board": "any work",
      "What several possible faults open": "is paid by each of them",
    };
    for (const [rule, is] of Object.entries({ ...meant, "A unit counts as mains powered": "only where someone says so" }))
      expect(said(see)).toMatch(new RegExp(`${rule}\\s+nothing\\s+${is}\\s`));
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
  it("tell how tax is rounded in the words that stand on paper", async () => {
    for (const level of ["line", "group", "document"] as const) expect(worded("level", level)).toBe(true);
    for (const mode of ["half up", "half down", "down"] as const) expect(worded("mode", mode)).toBe(true);
    const told = await story();
    const page = await told.desk.get("/rate-book");
    const see = await told.desk.press(page, "See what it does", {
      "tax.rounding.level": "document",
      "tax.rounding.mode": "down",
    });
    expect(said(see)).toMatch(/Tax is rounded\s+(for each line|once for each tax category)\s+once for the whole document/);
    expect(said(see)).toMatch(/A half goes\s+away from zero\s+nowhere: fractions are dropped/);
  });

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

type Told = Awaited<ReturnType<typeof story>>;

/** What the form of a page says, seen and saved. */
async function saved({ desk }: Told, path: string, filled: Record<string, string | readonly string[]>, version = 2) {
  const see = await desk.press(await desk.get(path), "See what it does", filled);
  expect(see.status, said(see)).toBe(200);
  return desk.press(see, `Save version ${version}`);
}

describe("times by family", () => {
  it("change in place, find by words in any order, and lose nothing typed while looking", async () => {
    const told = await story();
    const page = await told.desk.get("/rate-book/operations");
    const found = await told.desk.press(page, "Find", { find: "voice adjust", "operations.0.unit.likely": "2.25" });
    expect(said(found)).toMatch(/1 of \d+/);
    expect(found.html).toMatch(/name="operations\.0\.unit\.likely"[^>]*value="2\.25"/);
    const see = await told.desk.press(found, "See what it does");
    expect(said(see)).toMatch(/Operation 'Replace': Each, likely\s+1\.6 min\s+2\.25 min/);
    await told.desk.press(see, "Save version 2");
    expect((await book(told)).operations[0]!.unit.likely).toBe(2.25);
  });

  it.each([
    ["operations", { "operations.0.setup.low": "30" }, "Operation 'Replace', set-up: the times are low 30"],
    ["part-types", { "partTypes.0.typicalCost": "" }, "Part type 'Electrolytic capacitor', Usual cost is missing"],
    ["part-types", { "partTypes.0.leads": "" }, "Part type 'Electrolytic capacitor'"],
    ["fasteners", { "fasteners.0.remove.likely": "" }, "Fastener 'screw', Take off, likely is missing"],
    ["scarcity", { "scarcity.serviceLevel": "1" }, "neither never nor always can be bought"],
    ["leads", { "leads.solder.likely": "900" }, "the times are low"],
  ])("of %s are refused by row and label, never by a path, and lead to their box", async (part, filled, sentence) => {
    const told = await story();
    const again = await told.desk.press(await told.desk.get(`/rate-book/${part}`), "See what it does", filled);
    expect([again.status, said(again)]).toEqual([422, expect.stringContaining(sentence)]);
    expect(said(again)).not.toMatch(/partTypes|typicalCost|\[\d+\]|\/operations/);
    const summary = again.html.slice(again.html.indexOf('id="summary"'));
    const [, to] = /<li><a href="#([^"]+)"/.exec(summary)!;
    const box = new RegExp(`<(input(?! type="hidden")|select|textarea)[^>]* id="${to!.replaceAll(".", "\\.")}"`);
    expect([to, box.test(again.html)]).toEqual([to, true]);
  });

  it("are at most 150 kB a page", async () => {
    const { desk } = await story();
    for (const path of [
      "",
      "/operations",
      "/cleaning",
      "/part-types",
      "/fasteners",
      "/boards",
      "/grades",
      "/leads",
      "/scarcity",
      "/files",
    ]) {
      const { html, status } = await desk.get(`/rate-book${path}`);
      expect([path, status, html.length < 150_000]).toEqual([path, 200, true]);
    }
  });
});

describe("an entry", () => {
  it("is added with its times, cautions and source, and can be counted at once", async () => {
    const told = await story();
    const at = (await book(told)).operations.length;
    const row = `operations.${at}`;
    await saved(told, "/rate-book/operations/new", {
      [`${row}.name`]: "Test the memory battery under load",
      [`${row}.sort`]: "test",
      [`${row}.labourClass`]: "bench",
      ...{ [`${row}.setup.low`]: "1", [`${row}.setup.likely`]: "1", [`${row}.setup.high`]: "2" },
      ...{ [`${row}.unit.low`]: "3", [`${row}.unit.likely`]: "5", [`${row}.unit.high`]: "9" },
      [`${row}.hazards`]: ["", "lead solder"],
      [`${row}.source.basis`]: "measured here",
    });
    expect((await book(told)).operations[at]).toEqual({
      ...{
        id: "test-the-memory-battery-under-load",
        name: "Test the memory battery under load",
        sort: "test",
        labourClass: "bench",
      },
      ...{ setup: { low: 1, likely: 1, high: 2 }, unit: { low: 3, likely: 5, high: 9 }, hazards: ["lead solder"] },
      source: { basis: "measured here" },
    });
    expect((await told.desk.get("/estimates/new")).html).toContain('<option value="Test the memory battery under load"');
  });

  it("that is retired stays for what rests on it and is not offered any more, until it is offered again", async () => {
    const told = await story();
    const { operations } = await book(told);
    const at = operations.findIndex(({ name }) => name === "Inspect under magnification");
    const { id, name } = operations[at]!;
    const path = `/rate-book/operations/${id}`;
    const option = `<option value="${name}"`;
    expect((await told.desk.get("/estimates/new")).html).toContain(option);
    const [, day] = /<option value="(\d{4}-\d\d-\d\d)"[^>]*>no: retired/.exec((await told.desk.get(path)).html)!;
    await saved(told, path, { [`operations.${at}.retiredOn`]: day! });
    expect((await book(told)).operations[at]!.retiredOn).toBe(day);
    expect((await told.desk.get("/estimates/new")).html).not.toContain(option);
    expect(said(await told.desk.get("/rate-book/operations"))).toContain("retired");
    await saved(told, path, { [`operations.${at}.retiredOn`]: "" }, 3);
    expect((await told.desk.get("/estimates/new")).html).toContain(option);
  });

  it("that is retired is not offered to the work log of a job priced without it", async () => {
    const told = await story();
    const { labourClasses } = await book(told);
    const change = {
      ...{ inForceFrom: "2026-11-25", carryOut: true, drafts: [told.estimateId] },
      labourClasses: [{ id: labourClasses.at(-1)!.id, retiredOn: "2026-11-25" }],
    };
    const done = await told.opened.send("POST", "/api/rate-books/bench-book/changes", change, { "if-match": '"1"' });
    expect(done.status).toBe(201);
    await issued(told);
    const { html } = await told.desk.get(`/jobs/${told.jobId}/work-log`);
    expect(html).toContain(`value="${labourClasses[0]!.id}"`);
    expect(html).not.toContain(`value="${labourClasses.at(-1)!.id}"`);
    expect((await told.desk.get("/rate-book")).html).toContain('href="/looking-back/rate-book"');
  });

  it("goes from leads to minutes of its own", async () => {
    const told = await story();
    await saved(told, "/rate-book/part-types", {
      "partTypes.0.leads": "",
      ...{ "partTypes.0.minutes.low": "1", "partTypes.0.minutes.likely": "2", "partTypes.0.minutes.high": "4" },
    });
    const [type] = (await book(told)).partTypes;
    expect([type!.leads, type!.minutes]).toEqual([undefined, { low: 1, likely: 2, high: 4 }]);
  });
});

describe("a service", () => {
  it("is a name, a price and the work and parts behind it", async () => {
    const told = await story();
    const at = ((await book(told)) as { services?: object[] }).services?.length ?? 0;
    const row = `services.${at}`;
    const done = await saved(told, "/rate-book/services/new", {
      ...{ [`${row}.name`]: "Mains lead, fitted", [`${row}.price`]: "24.50", [`${row}.source.basis`]: "demo" },
      ...{ [`${row}.work.0.operation`]: "replace", [`${row}.work.0.part.type`]: "electrolytic", [`${row}.work.0.count`]: "1" },
    });
    expect(((await book(told)) as { services?: object[] }).services?.[at]).toEqual({
      ...{ id: "mains-lead-fitted", name: "Mains lead, fitted", price: 2450, source: { basis: "demo" } },
      work: [{ operation: "replace", part: { type: "electrolytic" }, count: 1 }],
    });
    expect(said(await told.desk.get("/rate-book/services"))).toContain("Mains lead, fitted");
    // It is looked at again under its own name.
    expect([done.path, done.html.match(/<h1>(.*?)<\/h1>/)?.[1]]).toEqual([
      "/rate-book/services/mains-lead-fitted?saved",
      "Mains lead, fitted",
    ]);
  });

  it("is told before it is saved by the names of its work and parts, as work of the service", async () => {
    const told = await story();
    const at = ((await book(told)) as { services?: object[] }).services?.length ?? 0;
    const row = `services.${at}`;
    const see = await told.desk.press(await told.desk.get("/rate-book/services/new"), "See what it does", {
      ...{ [`${row}.name`]: "Mains lead, fitted", [`${row}.price`]: "24.50", [`${row}.work.0.count`]: "1" },
      ...{ [`${row}.work.0.operation`]: "replace", [`${row}.work.0.part.type`]: "electrolytic" },
    });
    expect(said(see)).toMatch(/Service 'Mains lead, fitted': Work\s+nothing\s+Replace\s/);
    expect(said(see)).toMatch(/Service 'Mains lead, fitted': Part\s+nothing\s+Electrolytic capacitor\s/);
    expect(said(see)).not.toContain("undefined");
  });

  it("has work in the shop's own words behind it, changed on its page, and is retired like any row", async () => {
    const told = await story();
    const services = async () => ((await book(told)) as { services?: object[] }).services ?? [];
    const at = (await services()).length;
    const row = `services.${at}`;
    const own = `${row}.work.0.own`;
    await saved(told, "/rate-book/services/new", {
      ...{ [`${row}.name`]: "Listening test", [`${row}.price`]: "10", [`${row}.source.basis`]: "demo" },
      ...{ [`${own}.name`]: "Listen", [`${own}.labourClass`]: "bench", [`${row}.work.0.count`]: "1" },
      ...{ [`${own}.minutes.low`]: "4", [`${own}.minutes.likely`]: "5", [`${own}.minutes.high`]: "8" },
    });
    const path = "/rate-book/services/listening-test";
    await saved(told, path, { [`${own}.minutes.likely`]: "6", [`${own}.name`]: "Listen to all voices" }, 3);
    expect((await services())[at]).toMatchObject({
      work: [{ own: { name: "Listen to all voices", labourClass: "bench", minutes: { low: 4, likely: 6, high: 8 } }, count: 1 }],
    });
    const option = '<option value="Listening test"';
    expect((await told.desk.get("/estimates/new")).html).toContain(option);
    await saved(told, path, { [`${row}.retiredOn`]: "2026-11-25" }, 4);
    expect((await services())[at]).toMatchObject({ retiredOn: "2026-11-25" });
    expect((await told.desk.get("/estimates/new")).html).not.toContain(option);
  });
});

describe("files", () => {
  const get = async ({ opened }: Told, path: string) => (await opened.call(path)).text();

  it("go out and come back: an unchanged one changes nothing, a changed cell is shown and saved", async () => {
    const told = await story();
    const csv = await get(told, "/rate-book/part-types.csv");
    const send = async (text: string, what = "part-types") =>
      told.desk.press(await told.desk.get("/rate-book/files"), "See what it does", { what, text });
    expect(said(await send(csv))).toContain("Nothing is changed");
    const dearer = csv.replace(/(electrolytic,Electrolytic capacitor,capacitor,2,.*?,)0\.32,/, "$10.40,");
    expect(dearer).not.toBe(csv);
    const see = await send(dearer);
    expect(said(see)).toMatch(/Part type 'Electrolytic capacitor': Usual cost\s+0\.32\s+0\.40/);
    await told.desk.press(see, "Save version 2");
    expect((await book(told)).partTypes[0]!.typicalCost).toBe(40);
    const json = await get(told, "/rate-book/rate-book.json");
    expect(said(await send(json, "json"))).toContain("Nothing is changed");
    const all = JSON.parse(json) as { validityDays: number };
    expect(said(await send(JSON.stringify({ ...all, validityDays: 60 }), "json"))).toMatch(
      /An estimate stands for\s+30 days\s+60 days/,
    );
  });

  it.each([
    ["part-types", "id,name,typicalCost\nfilm,Film,cheap\n", "Row 2: Usual cost: 'cheap' is not a number"],
    ["part-types", "id,colour\nfilm,red\n", "Column 'colour' is none of Part types"],
    ["part-types", "id,Usual cost\nfilm,\n", "Usual cost is missing"],
    ["json", "{", "This is not JSON"],
    ["json", '{"partTypes":[{"id":"film","typicalCost":"1"}]}', "Part type 'film', Usual cost is"],
    ["json", '{"partTypes":[{"id":"film","cost":1}]}', "Part type 'film', 'cost' is no field of it"],
    ["json", '{"labourClasses":[{"id":"bench","name":"Bench","ratePerHour":-1250}]}', "An hour is -£12.50; give at least £0.00."],
    ["json", '{"currency":"EUR"}', "the file is in EUR"],
    ["json", '{"tax":{"categories":[{"id":"standard","percent":250}]}}', "250 % is out of range"],
  ])("are refused in words: %s %s", async (what, text, sentence) => {
    const told = await story();
    const again = await told.desk.press(await told.desk.get("/rate-book/files"), "See what it does", { what, text });
    expect([again.status, said(again)]).toEqual([422, expect.stringContaining(sentence)]);
    expect(again.html).toContain(text.split("\n")[0]!.slice(0, 8).replaceAll('"', "&quot;"));
  });
});

describe("a job that was issued", () => {
  it("stands in what a change does as it was issued, whatever versions came since", async () => {
    const told = await story();
    const id = (await draftOf(told.opened.db, TAPE_ECHO)).id;
    await issuedNow(told.opened.db, id, "2026-11-25T09:00:00.000Z");
    const { total } = (await estimates.find(told.opened.db, id))!.sheet!.totals;
    const change = async (ratePerHour: number, seen: number, carryOut: boolean) => {
      const body = { inForceFrom: "2026-11-25", labourClasses: [{ id: "bench", ratePerHour }], carryOut };
      const answer = await told.opened.send("POST", "/api/rate-books/bench-book/changes", body, { "if-match": `"${seen}"` });
      return (await answer.json()) as { effect: { issued: { estimate: string; was: number; becomes: number }[] } };
    };
    await change(9000, 1, true);
    const again = await change(4800, 2, false);
    // Back at the rate it was issued at, it comes to the same again.
    expect(again.effect.issued.find(({ estimate }) => estimate === id)).toMatchObject({ was: total, becomes: total });
    const see = await told.desk.press(await told.desk.get("/rate-book"), "See what it does", {
      "labourClasses.0.ratePerHour": "60",
    });
    expect(said(see)).toMatch(/The last ten jobs\s+Job\s+As issued\s+Then/);
  });
});

describe("a program", () => {
  it("sees what a change does, and writes it, by the same act", async () => {
    const { opened } = await story();
    const send = (body: object) => opened.send("POST", "/api/rate-books/bench-book/changes", body, { "if-match": '"1"' });
    const change = {
      inForceFrom: "2026-12-01",
      labourClasses: [{ id: "bench", ratePerHour: 6000 }],
      parts: { sundries: { cap: null } },
    };
    const dry = await send(change);
    expect(dry.status).toBe(200);
    expect(await dry.json()).toMatchObject({
      written: false,
      effect: { drafts: expect.arrayContaining([expect.objectContaining({ number: "J-2026-0001" })]) },
    });
    const done = await send({ ...change, carryOut: true });
    expect(done.status).toBe(201);
    const { record } = (await done.json()) as { record: { version: number; book: { parts: { sundries: object } } } };
    expect([record.version, "cap" in record.book.parts.sundries]).toEqual([2, false]);
    const zero = await opened.send(
      "POST",
      "/api/rate-books/bench-book/changes",
      { ...change, labourClasses: [{ id: "alignment", ratePerHour: 0 }] },
      { "if-match": '"2"' },
    );
    expect(await zero.json()).toMatchObject({
      status: 422,
      errors: [{ pointer: "/labourClasses/0/ratePerHour", name: "rate missing" }],
    });
  });
});
