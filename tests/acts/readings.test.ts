/** What is typed, sent or put in a table, as acts read it, and what they write back. The demo rate book (invented); no database. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { itemSaid, rowOf } from "../../src/acts/asItem.js";
import { partOf, timeOf } from "../../src/acts/asWork.js";
import { bookFaults, withChange } from "../../src/acts/changeRateBook.js";
import { type Mismatch, mismatchText } from "../../src/acts/checked/mismatch.js";
import { reconciled } from "../../src/acts/draft.js";
import { inputWithout, known } from "../../src/acts/erasure/without.js";
import { shapeFaults } from "../../src/acts/fault.js";
import { choice, line, money, share, tick, within } from "../../src/acts/field.js";
import { COLUMNS, offerRows } from "../../src/acts/importRows.js";
import { namesIn, rowWrong } from "../../src/acts/line.js";
import { PARTS_LIST, readPartsList } from "../../src/acts/partsList.js";
import { placeSaid } from "../../src/acts/place.js";
import { changeFields } from "../../src/acts/rateBookFields.js";
import { readBookJson, readBookTable } from "../../src/acts/readBook.js";
import { readForm, typedFrom } from "../../src/acts/readForm.js";
import { mapColumns, slug } from "../../src/acts/tableRows.js";
import { writeForm } from "../../src/acts/writeForm.js";
import type { EstimateInput, PartKind, RateBook } from "../../src/estimating/input.js";
import { readTable } from "../../src/http/dataIn/table.js";

const rateBook = JSON.parse(readFileSync("fixtures/demo/rate-book.json", "utf8")) as RateBook;
const echo = JSON.parse(readFileSync("fixtures/demo/tape-echo.json", "utf8")) as EstimateInput;
const tongue = { locale: "en-GB", currency: "GBP" };
const [type] = rateBook.partTypes;
const table = (text: string) => {
  const read = readTable(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read;
};
const typed = (pairs: string) => typedFrom(new URLSearchParams(pairs));

describe("a form", () => {
  const fields = z.strictObject({
    rows: z.array(z.strictObject({ name: line("Name") })).optional(),
    answer: choice("Answer", ["yes", "no"]).optional(),
    sure: tick("Sure").optional(),
  });

  it("has its rows in the order of their numbers, whatever order they were sent in, the tenth after the second", () => {
    const pairs = "rows.10.name=tenth&rows.2.name=second&rows.0.name=first&rows.1.name=";
    expect(readForm(fields, typed(pairs), tongue)).toMatchObject({
      ok: true,
      value: { rows: [{ name: "first" }, { name: "second" }, { name: "tenth" }] },
      rows: new Map([["rows", [0, 2, 10]]]),
    });
  });

  it("takes a choice in any case and with space around it", () => {
    expect(readForm(fields, typed("answer=%20Yes%20"), tongue)).toMatchObject({ ok: true, value: { answer: "yes" } });
    expect(readForm(fields, typed("answer=perhaps"), tongue)).toMatchObject({ ok: false });
  });

  it("is written with a tick only where it is set: a box that is not ticked is not sent", () => {
    expect([...writeForm(fields, { sure: true, answer: "no" }, tongue)]).toEqual([
      ["answer", "no"],
      ["sure", "yes"],
    ]);
    expect([...writeForm(fields, { sure: false }, tongue)]).toEqual([]);
  });

  it("is read at the fields that it has, whatever every object has", () => {
    expect(within(fields, "sure")).toBeDefined();
    expect(within(fields, "toString")).toBeUndefined();
  });

  it("tells of a value that may be said in several ways what it lacks for the nearest", () => {
    const far = z.strictObject({ is: z.literal("far"), name: z.string(), size: z.number(), colour: z.string() });
    const near = z.strictObject({ is: z.literal("near"), names: z.array(z.string()) });
    const sent = { one: { is: "near", names: "Ines" } };
    const details = (one: z.ZodType) =>
      shapeFaults(z.object({ one }).safeParse(sent).error!.issues, sent).map(({ detail }) => detail);
    for (const one of [z.union([far, near]), z.union([near, far])])
      expect(details(one)).toEqual(['one.names is "Ines"; give a list.']);
  });

  it("tells amounts and shares as they are typed, and a program minor units", () => {
    const sums = z.strictObject({ price: money("Price"), good: share("Good") });
    const sent = { price: -150, good: 1.5 };
    const { issues } = sums.safeParse(sent).error!;
    const details = (written?: () => typeof tongue) =>
      shapeFaults(issues, sent, sums, written).map(({ detail }) => detail.replaceAll("\u2212", "-"));
    expect(details(() => tongue)).toEqual([
      expect.stringMatching(/^Price is .*1\.50; give at least £?0\.00/),
      "Good is 150 %; give at most 100 %.",
    ]);
    expect(details()).toEqual(["Price is -150; give at least 0.", "Good is 1.5; give at most 1."]);
  });
});

describe("a table", () => {
  it("finds its columns by name or label, whatever the case and the signs between words", () => {
    const read = table("PART_KIND;source;unknown;\nx;y;z;\n");
    const { fields } = mapColumns(COLUMNS.offers, read, undefined, {}, ".");
    expect(fields).toMatchObject({ kind: "PART_KIND", source: "source" });
    expect(Object.values(fields)).not.toContain("");
  });

  it("names the part of an offer by its id or by its name", () => {
    const kind = { id: "k", name: "Film 100 nF", type: type!.id, createdAt: "", updatedAt: "", version: 1 };
    const read = table("Part kind;Source;On;Price;Pack size;Lead days;State\nfilm 100 NF;Quillmere;2026-11-20;1.00;1;4;new\n");
    const { rows, changes } = offerRows(read, mapColumns(COLUMNS.offers, read, undefined, {}, "."), {
      ...{ rateBook, kinds: new Map([["k", kind]]), kept: [], withdrawn: new Set<string>(), day: "2026-11-25" },
      ...{ rates: [], fresh: () => "new" },
    });
    expect(rows.flatMap(({ faults }) => faults)).toEqual([]);
    expect(changes).toMatchObject([{ id: "new", value: { kind: "k", source: "Quillmere" } }]);
  });

  it.each([
    ["Film 100 nF 63 V", "film-100-nf-63-v"],
    ["10 µF / 63 V", "10-uf-63-v"],
    ["!!!", "part"],
    ["a".repeat(90), "a".repeat(80)],
  ])("makes an id of the name %s", (name, id) => {
    expect(slug(name)).toBe(id);
  });

  it("of parts adds to the catalogue what it lacks, only where that is wanted", () => {
    const read = table(`Ref;Value;Type\nC1;100n;${type!.name}\nC2;;${type!.name}\n`);
    const model = {
      ...{ id: "m", createdAt: "", updatedAt: "", version: 1, maker: "Threnwick", model: "Cadence 3" },
      map: { assemblies: [{ id: "a", name: "Board", sort: "board", access: { by: "fasteners", fasteners: [] } }] },
    } as never;
    const of = (addKinds: boolean) =>
      readPartsList(read, mapColumns(PARTS_LIST, read, undefined, {}, "."), {
        ...{ rateBook, kinds: new Map(), model, assembly: "a", addKinds },
      });
    expect(of(false).rows.flatMap(({ faults }) => faults)).toEqual([]);
    expect(of(false).changes?.kinds).toEqual([]);
    expect(of(true).changes?.kinds).toMatchObject([{ value: { type: type!.id, value: "100n" } }]);
    expect(of(true).counts).toMatchObject([{ type: type!.id, before: 0, after: 2 }]);
  });
});

describe("a rate book in a file", () => {
  it.each(["null", "[]", "3", '"book"', '{"book":[]}'])("is not %s", (text) => {
    expect(readBookJson(text, "2026-12-01", { locale: "en-GB", currency: "GBP" })).toEqual({
      ok: false,
      whys: ["This is JSON and no rate book; give the file as it was downloaded here."],
    });
  });

  it("may have columns without a heading, and none with another", () => {
    const read = (headings: string) => readBookTable("part-types" as never, table(headings), "2026-12-01", "GBP");
    expect(read(`id;name;\n${type!.id};Renamed;\n`)).toMatchObject({ ok: true });
    expect(read(`id;colour;\n${type!.id};red;\n`)).toMatchObject({
      ok: false,
      whys: [expect.stringMatching(/^Column 'colour' is none of /)],
    });
  });

  it("loses what is sent as null, at any depth, and keeps what is not sent", () => {
    const change = { inForceFrom: "2026-12-01", name: "Next", partTypes: [{ id: type!.id, name: "Renamed" }] } as never;
    const next = withChange(rateBook, change);
    expect(next).toMatchObject({ name: "Next", operations: rateBook.operations });
    expect(next.partTypes).toHaveLength(rateBook.partTypes.length);
    expect(next.partTypes[0]).toMatchObject({ ...type, name: "Renamed", source: expect.anything() });
    const bands = [{ upTo: 500, percent: 40 }, { percent: 10 }, { upTo: null, percent: null }, { upTo: 100, percent: 60 }];
    expect(withChange(rateBook, { inForceFrom: "2026-12-01", parts: { markUp: bands } } as never).parts.markUp).toEqual([
      { upTo: 100, percent: 60 },
      { upTo: 500, percent: 40 },
      { percent: 10 },
    ]);
    const without = { id: rateBook.tax!.categories[1]!.id, name: null, percent: null };
    expect(withChange(rateBook, { inForceFrom: "2026-12-01", tax: { categories: [without] } } as never).tax!.categories).toEqual([
      rateBook.tax!.categories[0],
    ]);
    const whole = { inForceFrom: "2026-12-01", rows: [{ a: 1, b: null }, { a: null }] } as never;
    expect(withChange(rateBook, whole)).toMatchObject({ rows: [{ a: 1 }] });
  });

  it("gives an id to a new row that has nothing else to be known by", () => {
    const [{ source: _, ...fastener }, { source: __, ...standard }] = [rateBook.fasteners[0]!, rateBook.accessStandards[0]!];
    const change = {
      inForceFrom: "2026-12-01",
      fasteners: [fastener],
      accessStandards: [standard],
      grades: [{ name: "Drowned" }],
    };
    const next = withChange({ ...rateBook, fasteners: [], accessStandards: [], grades: [] }, change as never);
    expect(next.fasteners).toEqual([{ ...fastener, source: expect.anything() }]);
    expect(next.accessStandards).toEqual([{ ...standard, source: expect.anything() }]);
    expect(next.grades).toMatchObject([{ id: "drowned", name: "Drowned" }]);
  });

  it("is told to be wrong in a row by the row's name, or by its list where it has none", () => {
    const wrong = (change: object) =>
      bookFaults(changeFields.safeParse(change).error!.issues, change).map(({ detail }) => detail);
    const from = { inForceFrom: "2026-12-01" };
    expect(wrong({ ...from, partTypes: [{ name: "Electrolytic", leads: "two" }] })).toEqual([
      expect.stringMatching(/^Part type 'Electrolytic', /),
    ]);
    expect(wrong({ ...from, parts: { markUp: [{ percent: "ten" }] } })).toEqual([expect.stringMatching(/^Mark-up band, /)]);
  });
});

describe("a line", () => {
  const kind = { id: "k", name: type!.name, type: type!.id } as PartKind;
  const input = { ...echo, rateBook, kinds: [kind] };
  const names = namesIn(input, [kind]);
  const item = { id: "w", operation: rateBook.operations[0]!.id, count: 1, certainty: { is: "planned" as const } };

  it("names each part once, be it in the estimate and in the catalogue", () => {
    expect(names.part.filter(({ id }) => id === "k")).toHaveLength(1);
  });

  it("names by its id what shares its name with another that comes first", () => {
    const partNamed = (part: object) => rowOf({ ...item, part } as never, names, input).part;
    expect([partNamed({ kind: "k" }), partNamed({ type: type!.id })]).toEqual([type!.name, type!.id]);
  });

  it("holds what is fitted now, each figure of it, and gives it back", () => {
    const fitted = {
      fittedType: type!.name,
      fittedValue: "10u",
      fittedVolts: 25,
      workingVolts: 18,
      fittedTolerance: 20,
      fittedAudio: false,
    };
    const work = rateBook.operations[0]!.name;
    const read = itemSaid({ work, ...fitted }, "w", names, input, []);
    expect(read).toMatchObject({
      original: { type: type!.id, value: "10u", ratedVolts: 25, workingVolts: 18, tolerancePercent: 20, audioGrade: false },
    });
    expect(rowOf(read as never, names, input)).toMatchObject({ ...fitted, fittedType: expect.any(String) });
    expect(itemSaid({ work }, "w", names, input, [])).not.toHaveProperty("original");
  });

  it("says by the field's own label what it cannot hold", () => {
    const wrong = rowWrong({ work: rateBook.operations[0]!.name, price: 100, currency: "EUR" } as never, names, "GBP");
    expect(wrong.map(({ pointer, detail }) => [pointer, detail])).toEqual([
      ["/currency", "Currency is EUR; this estimate is in GBP."],
      ["/price", "Fixed price each is of work in your own words; leave it out here."],
    ]);
  });
});

describe("an entry of the log", () => {
  const entry = { id: "e", person: "Ines", workedOn: "2026-11-25", item: "w01" };

  it("is time, by its minutes or its two moments, with what was said of it", () => {
    const said = { person: "Ines", work: { is: "item", id: "w01" } };
    expect(timeOf({ ...entry, minutes: 5, note: "slow", labourClass: "bench" })).toEqual({
      ...{ id: "e", ...said, minutes: 5, note: "slow", labourClass: "bench" },
    });
    const moments = { startedAt: "2026-11-25T09:00:00.000Z", endedAt: "2026-11-25T09:30:00.000Z" };
    expect(timeOf({ ...entry, ...moments })).toEqual({ id: "e", ...said, ...moments });
    expect(timeOf({ ...entry, partKind: "k" })).toBeUndefined();
  });

  it("is a part once it is told what was paid for it", () => {
    const paid = { ...entry, partKind: "k", paidPrice: 100 };
    expect(partOf(paid)).toMatchObject({
      id: "e",
      item: "w01",
      part: { kind: "k" },
      count: 1,
      state: "new",
      paid: { price: 100, per: 1 },
    });
    expect(partOf({ ...entry, partKind: "k" })).toBeUndefined();
    expect(partOf({ ...entry, paidPrice: 100 })).toBeUndefined();
  });
});

it("what a sender emptied is taken away, but no record loses its name; what two changed clashes", () => {
  const stands = { name: "Ottilie", phone: "1", email: "o@larkholt.example" };
  const keys = ["name", "phone", "email"] as const;
  expect(reconciled(stands, keys, { name: "", phone: "" }, stands)).toMatchObject({
    keys: { phone: "", email: undefined },
    clashes: [],
  });
  expect(reconciled(stands, keys, { phone: "2" }, undefined)).toEqual({ keys: { phone: "2" }, clashes: [] });
  expect(reconciled(stands, keys, { ...stands, phone: "2" }, { ...stands, phone: "0" })).toEqual({
    keys: {},
    clashes: ["phone"],
  });
});

it("reasons of work lose the owner's name where they are erased, and work without one stays as it is", () => {
  const [first, second] = echo.items;
  const items = [{ ...first!, reason: "as Ottilie Vantongeren wanted" }, second!];
  const without = inputWithout({ ...echo, items }, known(["Ottilie Vantongeren"]));
  expect(without.items[0]).toEqual({ ...first, reason: "as erased wanted" });
  expect(without.items[1]).toEqual(second);
});

it("of a unit each text that its owner told is erased, and that nothing is stored in it stays said", () => {
  const told = { condition: "worn", reported: "It hums.", found: "A leaked cell", storedData: "" };
  const { unit } = inputWithout({ ...echo, unit: { ...echo.unit, ...told } }, known([]));
  expect(unit).toMatchObject({ condition: "erased", reported: "erased", found: "erased", storedData: "" });
});

it("a place that the map does not have gets an id that no other has", () => {
  const map = { assemblies: [{ id: "place1", name: "Lid" }] };
  const said = { where: "Floor", placeSize: "small", placeMounting: "on top" } as const;
  expect(placeSaid(said, { map } as never)).toMatchObject({ id: "place2", name: "Floor" });
  expect(placeSaid(said, {} as never)).toMatchObject({ id: "place1" });
});

it("every mismatch is a sentence that names what does not match", () => {
  const where = { in: "units", id: "the-one" } as const;
  const all: Mismatch[] = [
    { is: "job missing", number: "the-one" },
    { is: "head given", head: "the-one" },
    ...(["row changed", "row untold", "row missing", "row without copy", "copy without row"] as const).map((is) => ({
      is,
      ...where,
    })),
    { is: "row otherwise", ...where, column: "serial" },
    { is: "row not as copied", ...where, column: "serial", says: null, copy: "A1" },
    { is: "logo changed", id: "the-one" },
    { is: "unreadable", ...where, what: "its map" },
    { is: "photo missing", id: "the-one" },
    { is: "photo changed", id: "the-one" },
    ...(["content hash", "pdf", "revision", "figures", "sums", "outcome"] as const).map((what) => ({
      ...{ is: "close-out" as const, id: "the-one", what },
    })),
    ...(["revision", "amount", "ceiling", "deposit"] as const).map((what) => ({ is: "answer" as const, id: "the-one", what })),
  ];
  const texts = all.map(mismatchText);
  for (const text of texts) expect(text).toMatch(/^[A-Z].*the-one.*\.$/);
  expect(new Set(texts).size).toBe(all.length);
  const revision = 7;
  const ofRevisions = (["not frozen", "not issued", "head on paper", "content hash", "pdf", "sheet"] as const).map((is) =>
    mismatchText({ is, revision }),
  );
  for (const text of ofRevisions) expect(text).toMatch(/revision 7.*\.$/i);
  expect(new Set(ofRevisions).size).toBe(6);
  expect(mismatchText({ is: "row not as copied", ...where, column: "serial", says: null, copy: "A1" })).toBe(
    "Unit 'the-one': 'serial' is not what was written: it says nothing, its copy says 'A1'; it was changed or is damaged.",
  );
});
