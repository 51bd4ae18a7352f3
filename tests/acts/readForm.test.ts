/** What was typed, or stood in a table, as the fields of an act read it. All of it invented. */
import { describe, expect, it } from "vitest";
import { z } from "zod";
import {
  choice,
  day,
  decimal,
  exact,
  hand,
  line,
  lines,
  maybe,
  money,
  note,
  saying,
  secret,
  several,
  share,
  tick,
  whole,
} from "../../src/acts/field.js";
import { fieldErrors, readForm, type Tongue, typedFrom, typedWith } from "../../src/acts/readForm.js";
import { key } from "../../src/wording/fieldName.js";

const ENGLISH: Tongue = { locale: "en-GB", currency: "GBP" };
const TABLE: Tongue = { ...ENGLISH, mark: "." };
const typed = (pairs: Record<string, string> | [string, string][]) => typedFrom(new URLSearchParams(pairs));
const read = (shape: z.ZodRawShape, pairs: Parameters<typeof typed>[0], tongue = ENGLISH) =>
  readForm(z.strictObject(shape), typed(pairs), tongue);
/** What is read, or what is said of the fields. */
const one = (field: z.ZodType, text: string, tongue = ENGLISH): unknown => {
  const form = read({ a: maybe(field) }, { a: text }, tongue);
  return form.ok ? (form.value as { a?: unknown }).a : Object.fromEntries(form.errors);
};

describe("a text", () => {
  it("is trimmed where a person types it, and kept with the space around it where a table has it", () => {
    for (const field of [line("Name"), note("Note")]) {
      expect(one(field, "  two words ")).toBe("two words");
      expect(one(field, "  two words ", TABLE)).toBe("  two words ");
      for (const tongue of [ENGLISH, TABLE]) expect(one(field, "   ", tongue)).toBeUndefined();
    }
  });

  it("breaks its lines one way, however the browser sent them", () => {
    expect(one(note("Note"), "one\r\ntwo\rthree\nfour")).toBe("one\ntwo\nthree\nfour");
  });

  it("that is a secret is taken to the letter, and an empty one is none", () => {
    expect(one(secret("Secret"), "  kettle thimble ")).toBe("  kettle thimble ");
    expect(one(secret("Secret"), "")).toBeUndefined();
  });

  it("of one entry a line has as many as there are lines that say something", () => {
    expect(one(lines("Address"), " Larkholt 4 \r\n\r\n  \nOver Marrow\n")).toEqual(["Larkholt 4", "Over Marrow"]);
    expect(one(lines("Address"), " \n ")).toBeUndefined();
  });

  it("that says who did it is who is signed in where nothing is typed, and asked for where nobody is", () => {
    const who = { a: hand("Who") };
    expect(read(who, { a: " " }, { ...ENGLISH, hand: "Ines" })).toMatchObject({ value: { a: "Ines" } });
    expect(read(who, { a: "Tamsin" }, { ...ENGLISH, hand: "Ines" })).toMatchObject({ value: { a: "Tamsin" } });
    const form = read(who, { a: " " });
    expect(!form.ok && Object.fromEntries(form.errors)).toEqual({ a: "Who is missing; type the name." });
    expect(one(line("Name"), " ", { ...ENGLISH, hand: "Ines" })).toBeUndefined();
  });

  it("of a day or of another kind is trimmed too", () => {
    expect(one(day("Day"), " 2026-11-25 ")).toBe("2026-11-25");
    expect(one(day("Day"), "  ")).toBeUndefined();
  });
});

describe("a tick", () => {
  it("is on or off by what a form and a table write, in any case, and absent where nothing was sent", () => {
    for (const text of ["on", "Yes", " TRUE ", "1", "x"]) expect(one(tick("Done"), text)).toBe(true);
    for (const text of ["", "no", "False", "0", " "]) expect(one(tick("Done"), text)).toBe(false);
    expect(read({ a: maybe(tick("Done")) }, {})).toMatchObject({ value: {} });
    expect(read({ a: maybe(tick("Done")) }, {})).not.toHaveProperty("value.a");
  });

  it("that is neither shows what stood there, without the space around it, and no more than sixty characters", () => {
    const said = (text: string) => one(tick("Done"), text);
    expect(said("  perhaps ")).toEqual({ a: "Done: 'perhaps' is neither yes nor no." });
    expect(said(`  ${"y".repeat(60)}  `)).toEqual({ a: `Done: '${"y".repeat(60)}' is neither yes nor no.` });
    expect(said(`  ${"y".repeat(61)}  `)).toEqual({ a: `Done: '${"y".repeat(60)}…' is neither yes nor no.` });
  });
});

describe("a choice", () => {
  const state = choice("State", ["new", "Used"]);
  it("is found in any case and with space around it, and said as it is called", () => {
    expect([" NEW ", "used", "Used"].map((text) => one(state, text))).toEqual(["new", "Used", "Used"]);
    expect(one(state, "  ")).toBeUndefined();
    expect(one(state, " worn ")).toEqual({ a: "State is 'worn'; give one of 'new', 'Used'." });
  });

  it("that is missing is to be chosen, since whoever chooses has the list before them", () => {
    const form = read({ a: state, b: line("Name") }, {});
    expect(!form.ok && Object.fromEntries(form.errors)).toEqual({
      a: "State is missing; choose one.",
      b: expect.stringMatching(/^Name is missing/),
    });
  });

  it("of several has each once, and none where none was ticked", () => {
    const some = { a: maybe(several("Which")) };
    const pairs: [string, string][] = [
      ["a", "w01"],
      ["a", "w02"],
      ["a", "w01"],
    ];
    expect(read(some, pairs)).toMatchObject({ value: { a: ["w01", "w02"] } });
    expect(read(some, {})).not.toHaveProperty("value.a");
  });

  it("of several that can be emptied has the box that says so, and is a list without it", () => {
    const some = { a: saying(z.array(z.string()), { label: "Which", kind: "several", empties: true }) };
    const sent = (...all: string[]) =>
      read(
        some,
        all.map((each): [string, string] => ["a", each]),
      );
    expect(sent("", "w01")).toMatchObject({ value: { a: ["w01"] } });
    expect(sent("")).toHaveProperty("value.a", []);
    const whole = { a: saying(z.array(z.string()), { label: "Which", kind: "several" }) };
    expect(
      read(whole, [
        ["a", ""],
        ["a", "w01"],
      ]),
    ).toMatchObject({ value: { a: ["", "w01"] } });
  });
});

describe("a figure", () => {
  it("is read as its locale writes it, with its unit or without, and kept as JSON has it", () => {
    expect(one(whole("Days", { least: 0, most: 999 }), " 12 ")).toBe(12);
    expect(one(decimal("Volts", { decimals: 2, unit: "V" }), "63,5 VDC", { ...ENGLISH, locale: "de-DE" })).toBe(63.5);
    expect(one(decimal("Volts", { decimals: 2, unit: "V" }), " 63.5 v ")).toBe(63.5);
    expect(one(decimal("Rate", { decimals: 2 }), "20 %")).toBe(20);
    expect(one(money("Price"), "£1,234.50")).toBe(123_450);
    expect(one(exact("Rate"), "0.00520")).toBe("0.00520");
    expect(one(whole("Days", { least: 0, most: 999 }), "  ")).toBeUndefined();
  });

  it("of percent is typed as such by a person, and stands from 0 to 1 in a table", () => {
    expect(one(share("Good"), "20 %")).toBe(0.2);
    expect(one(share("Good"), "81.25")).toBe(0.8125);
    expect(one(share("Good"), "0.8125", TABLE)).toBe(0.8125);
    expect(one(share("Good"), "81.2555")).toEqual({ a: expect.stringMatching(/^Good: .*decimals/) });
  });

  it("of a table has six digits behind its sign, which are never thousands", () => {
    expect(one(decimal("Hours", { decimals: 6 }), "1.234", { ...TABLE, locale: "de-DE" })).toBe(1.234);
    expect(one(decimal("Hours", { decimals: 6 }), "1,234", { ...ENGLISH, mark: "," })).toBe(1.234);
  });

  it("of money is in the currency that stands beside it, or the shop's own, or that of the form", () => {
    const priced = { currency: maybe(line("Currency")), a: money("Price", { currencyIn: "currency" }) };
    expect(read(priced, { currency: " JPY ", a: "1200" })).toMatchObject({ value: { a: 1200 } });
    expect(read(priced, { currency: " ", a: "1200" })).toMatchObject({ value: { a: 120_000 } });
    const own = { a: money("Fee", { currencyIn: "" }) };
    expect(read(own, { a: "12" }, { ...ENGLISH, shop: "JPY" })).toMatchObject({ value: { a: 12 } });
    expect(read(own, { a: "12" })).toMatchObject({ value: { a: 1200 } });
    expect(read({ a: money("Fee") }, { a: "12" }, { ...ENGLISH, shop: "JPY" })).toMatchObject({ value: { a: 1200 } });
  });

  it("has no more decimals than its kind, or its currency, has", () => {
    const decimals = { a: expect.stringMatching(/^Days: .*decimals/) };
    expect(one(whole("Days", { least: 0, most: 999 }), "1.5")).toEqual({
      a: "Days: '1.5' is not whole; give a whole number.",
    });
    expect(one(decimal("Days", { decimals: 1 }), "1.25")).toEqual(decimals);
    expect(one(money("Price"), "12.3456")).toEqual({
      a: "Price: '12.3456' has more decimals than GBP has (2); round it.",
    });
  });

  it("that is none says so by its label", () => {
    expect(one(whole("Days", { least: 0, most: 999 }), "soon")).toEqual({
      a: "Days: 'soon' is not a number; write it like 12 or 1.5.",
    });
  });
});

it("an emptied field is null only where emptying means something", () => {
  const name = saying(z.string().nullable(), { label: "Name", kind: "line", empties: true });
  expect(one(name, "  ")).toBeNull();
  expect(one(name, "Ines")).toBe("Ines");
});

describe("rows", () => {
  const row = z.strictObject({ what: maybe(line("What")), packs: maybe(whole("Packs", { least: 1, most: 9 })) });
  const shape = { rows: maybe(z.array(row)), rowset: maybe(line("Row set")) };

  it("keep their order by number, leave out those that hold nothing, and take no other field for one of theirs", () => {
    const form = read(shape, {
      "rows.10.what": "belt",
      "rows.2.what": "lamp",
      "rows.3.what": " ",
      "rows.x.what": "none",
      "rowset.4.what": "none",
      "other.5.what": "none",
    });
    expect(form).toMatchObject({ ok: true, value: { rows: [{ what: "lamp" }, { what: "belt" }] } });
    expect(form.ok && [...form.rows]).toEqual([["rows", [2, 10]]]);
    const bare = read(shape, { "rows.1.what": "" });
    expect(bare).not.toHaveProperty("value.rows");
  });

  it("of another list count for that list alone, though their names are as long", () => {
    const two = { rows: maybe(z.array(row)), cows: maybe(z.array(row)) };
    const form = read(two, { "cows.1.what": "belt" });
    expect(form).toMatchObject({ ok: true, value: { cows: [{ what: "belt" }] } });
    expect(form.ok && form.rows.get("rows")).toEqual([]);
  });

  it("that are wrong are told at the number they had in the form", () => {
    const form = read(shape, { "rows.1.what": "", "rows.4.packs": "12", "rows.7.packs": "none" });
    expect(!form.ok && [...form.errors.keys()]).toEqual(["rows.4.packs", "rows.7.packs"]);
  });

  it("of which only a choice is made are none: its list has always something chosen", () => {
    const chosen = { rows: maybe(z.array(z.strictObject({ state: choice("State", ["new"]), what: maybe(line("What")) }))) };
    expect(read(chosen, { "rows.0.state": "new" })).not.toHaveProperty("value.rows");
    expect(read(chosen, { "rows.0.state": "new", "rows.0.what": "belt" })).toMatchObject({ value: { rows: [{ what: "belt" }] } });
  });

  it("by id are empty and not absent where boxes stand and nothing is in them", () => {
    const packs = { packs: maybe(z.record(z.string(), whole("Packs", { least: 0, most: 9 }))) };
    expect(read(packs, { "packs.o1": "", "packs.o2": "3" })).toMatchObject({ value: { packs: { o2: 3 } } });
    expect(read(packs, { "packs.o1": "" })).toHaveProperty("value.packs", {});
    expect(read(packs, { packsize: "3" } as never)).not.toHaveProperty("value.packs");
  });
});

it("a group of fields in which nothing is typed is absent", () => {
  const tested = { tested: maybe(z.strictObject({ good: maybe(line("Good")) })) };
  expect(read(tested, { "tested.good": " " })).not.toHaveProperty("value.tested");
  expect(read(tested, { "tested.good": "two" })).toMatchObject({ value: { tested: { good: "two" } } });
});

it("a fault is told at the field it stands in: of a list of lines as a whole, of a row by its number, of a record by its key", () => {
  const each = z.strictObject({ what: line("What") });
  const fields = z.strictObject({
    address: lines("Address"),
    packs: z.record(z.string(), whole("Packs", { least: 0, most: 9 })),
    under: z.strictObject({ rows: z.array(each) }),
  });
  const at = (pointer: string) => {
    const rows = new Map([["under.rows", [3, 7]]]);
    return [...fieldErrors([{ pointer, name: "value unreadable", detail: "x" }], fields, rows).keys()][0];
  };
  expect(at("/address/1")).toBe("address");
  expect(at("/packs/o1")).toBe("packs.o1");
  expect(at("/packs/a~1b~0c")).toBe(`packs.${key("a/b~c")}`);
  expect(at("/under/rows/1/what")).toBe("under.rows.7.what");
  expect(at("/under/rows/5")).toBe("under.rows.5");
  expect(at("/nowhere/at/all")).toBe("nowhere.at.all");
});

it("the first fault of a field is told, and one of no field of the form under no name", () => {
  const fields = z.strictObject({ tested: z.strictObject({ good: whole("Good", { least: 0, most: 9 }) }) });
  const fault = (pointer: string, detail: string) => ({ pointer, name: "value unreadable", detail });
  const told = fieldErrors([fault("/tested/good", "first"), fault("/tested/good", "second"), fault("", "whole")], fields);
  expect(Object.fromEntries(told)).toEqual({ "tested.good": "first", "": "whole" });
});

it("a form is told otherwise in some fields, with others left out and the rest as they were", () => {
  const form = typed([
    ["a", "1"],
    ["b", "2"],
    ["b", "3"],
    ["c", "4"],
  ]);
  const other = typedWith(form, { a: "9", c: undefined, d: ["5", "6"] });
  expect([other.get("a"), other.get("b"), other.get("c"), other.get("d")]).toEqual(["9", "3", undefined, "6"]);
  expect([other.all("a"), other.all("b"), other.all("c"), other.all("d")]).toEqual([["9"], ["2", "3"], [], ["5", "6"]]);
  expect([...other.names].sort()).toEqual(["a", "b", "d"]);
});
