import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import { complaintsOf } from "../../../src/pages/form/complaints.js";
import { fieldsFrom } from "../../../src/pages/form/fields.js";
import { readForm } from "../../../src/pages/form/readForm.js";
import { bench, contextOf, demoInput } from "../cast/bench.js";

const read = (pairs: Record<string, string>, context = bench) => readForm(fieldsFrom(Object.entries(pairs)), context);

/** Field and sentence, as the page shows them. */
const said = (pairs: Record<string, string>, context = bench) => {
  const form = read(pairs, context);
  return complaintsOf(form, estimate(form.input), context).map(({ field, text }) => [field, text]);
};

const BOARD = { "assembly.a1.name": "Voice board" };

describe("an amount below 0", () => {
  it("is told as money, as it was typed", () => {
    const terms = { "terms.discount": "-1", "terms.discountBy": "amount", "terms.discountReason": "as promised" };
    expect(said(terms)).toEqual([
      ["terms.discount", "Discount: -£1.00 is out of range; give £0.00 or more, up to £10,000,000,000.00."],
    ]);
  });
});

describe("a part without a kind of work", () => {
  it("is replaced by the work of its type: a valve is exchanged, a capacitor soldered, in a cell and on a line", () => {
    const form = read({
      ...{ ...BOARD, "cells.a1.p:film": "2", "cells.a1.p:valve": "3" },
      ...{ "line.l1.part": "Fuse", "line.l1.count": "1", "line.l2.part": "Resistor", "line.l2.count": "1" },
    });
    const work = form.input.items.map(({ operation, part }) => [part && "type" in part ? part.type : "", operation]);
    expect(Object.fromEntries(work)).toEqual({ film: "replace", valve: "exchange", fuse: "exchange", resistor: "replace" });
  });
});

describe("work and parts that are on no list", () => {
  const TEST = { "line.l1.operation": "Test the memory battery under load", "line.l1.count": "1" };
  const CHIP = { "line.l1.part": "Voice chip, pulled", "line.l1.count": "2" };
  const item = (pairs: Record<string, string>) => read(pairs).input.items.at(-1);

  it("are the shop's own work once its minutes or a price are given; one figure is best, likely and worst", () => {
    const twelve = { low: 12, likely: 12, high: 12 };
    expect(item({ ...TEST, "line.l1.likely": "12" })).toMatchObject({
      own: { name: "Test the memory battery under load", minutes: twelve },
    });
    expect(item({ ...TEST, "line.l1.likely": "12" })).not.toHaveProperty("minutes");
    expect(item({ ...TEST, "line.l1.likely": "12", "line.l1.high": "30" })?.own?.minutes).toEqual({ ...twelve, high: 30 });
    expect(item({ ...TEST, "line.l1.price": "£45" })?.own).toEqual({ name: TEST["line.l1.operation"], price: 4500 });
  });

  it("are an own part at a cost, or one that the owner brings; with the time of what it is fitted like", () => {
    const bought = item({
      ...CHIP,
      "line.l1.cost": "95",
      "line.l1.like": "IC, 16 pins",
      "line.l1.state": "donor pull",
      "line.l1.good": "80",
    });
    expect(bought).toMatchObject({
      operation: "replace",
      part: { own: { name: "Voice chip, pulled", cost: 9500, type: "ic-16", state: "donor pull", shareGood: 0.8 } },
    });
    expect(item({ ...CHIP, "line.l1.brought": "on", "line.l1.likely": "9" })).toMatchObject({
      ...{ operation: "replace", minutes: { likely: 9 } },
      part: { own: { name: "Voice chip, pulled", broughtByOwner: true } },
    });
    // A listed part that the owner brings keeps its name and its time.
    expect(item({ "line.l1.part": "Fuse", "line.l1.count": "1", "line.l1.brought": "on" })?.part).toEqual({
      own: { name: "Fuse", type: "fuse", broughtByOwner: true },
    });
  });

  it("are told from a listed part at another price, which says why", () => {
    const fuse = { "line.l1.part": "Fuse", "line.l1.count": "1", "line.l1.cost": "4" };
    expect(item({ ...fuse, "line.l1.why": "last one", "line.l1.source": "By post" })).toMatchObject({
      ...{ part: { type: "fuse" }, partPrice: { cost: 400, reason: "last one", source: "By post" } },
    });
    expect(said(fuse)).toEqual([["line.l1.why", expect.stringContaining("give the reason in a few words")]]);
  });

  it.each([
    [
      TEST,
      "line.l1.operation",
      "'Test the memory battery under load' is not in the rate book: give its minutes or a price, or choose one of",
    ],
    [
      CHIP,
      "line.l1.part",
      "'Voice chip, pulled' is not in the catalogue or the rate book: give what one costs, or tick that the owner",
    ],
    [{ ...TEST, "line.l1.high": "20" }, "line.l1.likely", "likely minutes each: nothing is given"],
    [{ ...CHIP, "line.l1.cost": "95" }, "line.l1.like", "choose the part type it is like, or give minutes for the line"],
    [{ ...CHIP, "line.l1.cost": "95", "line.l1.brought": "on", "line.l1.likely": "9" }, "line.l1.cost", "leave the cost out"],
    [
      { "line.l1.part": "Fuse", "line.l1.count": "1", "line.l1.state": "used" },
      "line.l1.state",
      "only a part in your own words says this",
    ],
    [
      { "line.l1.operation": "Clean a board", "line.l1.count": "1", "line.l1.price": "4" },
      "line.l1.price",
      "only work in your own words",
    ],
    [{ "line.l1.part": "Fuse", "line.l1.count": "1", "line.l1.days": "4" }, "line.l1.cost", "nothing is given"],
    [{ "line.l1.operation": "Clean a board", "line.l1.count": "1", "line.l1.why": "dear" }, "line.l1.cost", "nothing is given"],
  ])("%j: %s is asked about", (pairs, field, words) => {
    expect(said(pairs)).toContainEqual([field, expect.stringContaining(words)]);
  });
});

describe("what cannot be read is named beside its field", () => {
  it.each([
    [
      { ...BOARD, "cells.a1.p:film": "six" },
      "cells.a1.p:film",
      "Film capacitor, Voice board: 'six' is not a number; write it like 12 or 1.5.",
    ],
    [{ "unit.value": "lots" }, "unit.value", "Declared value: 'lots' is not a number; write it like 12 or 1.5."],
    [{ "unit.value": "12.3456" }, "unit.value", "Declared value: '12.3456' has more decimals than GBP has (2); round it."],
    [
      { "unit.value": "9".repeat(30) },
      "unit.value",
      `Declared value: '${"9".repeat(30)}' is longer than any real figure; check it.`,
    ],
    [
      { ...BOARD, "assembly.a1.behind": "Shlf" },
      "assembly.a1.behind",
      "Voice board, is behind: 'Shlf' is not known; choose one of Voice board.",
    ],
    [
      { "line.l1.operation": "Clean", "line.l1.count": "1" },
      "line.l1.operation",
      "Line 1, work: 'Clean' is not in the rate book: give its minutes or a price, or choose one of Clean switches, Clean potentiometers, Clean sliders, Clean jacks, Clean key contacts or Clean a board.",
    ],
    [
      { "line.l1.operation": "Test every function", "line.l1.count": "" },
      "line.l1.count",
      "Line 1, count: nothing is given, and it cannot be worked out; fill it in.",
    ],
    [
      { "line.l1.operation": "Test every function", "line.l1.count": "1", "line.l1.certainty": "maybe" },
      "line.l1.certainty",
      "Line 1, certainty: 'maybe' is not one of the choices; choose again.",
    ],
    [
      { "terms.discount": "5" },
      "terms.discountReason",
      "Reason for the discount: a discount is printed with its reason; say why it is given.",
    ],
    [
      { "terms.pricing": "fixed price", "terms.confidence": "" },
      "terms.confidence",
      "Jobs in 100 to cover: nothing is given, and it cannot be worked out; fill it in.",
    ],
    [
      { "terms.pricing": "expected cost plus", "terms.margin": "a lot" },
      "terms.margin",
      "Margin on the expected cost, %: 'a lot' is not a number; write it like 12 or 1.5.",
    ],
    [{ "terms.pricing": "by feel" }, "terms.pricing", "Pricing: 'by feel' is not one of the choices; choose again."],
    [
      { "owner.name": "A\r\nB" },
      "owner.name",
      "Owner's name: the text holds a line break or another control character; write it in one line.",
    ],
    [
      { "unit.reported": "hum\u0007" },
      "unit.reported",
      "What was reported: the text holds a control character, which no document can print; type it again.",
    ],
    [{ "unit.model": "x".repeat(501) }, "unit.model", "Model: the text has 501 characters, and 500 is the most; shorten it."],
  ])("%o", (pairs, field, text) => {
    expect(said(pairs as Record<string, string>)).toEqual([[field, text]]);
  });

  it("asks which of two figures is meant where the comma is the decimal sign", () => {
    expect(said({ "unit.value": "1,234" }, { ...bench, locale: "de-DE" })).toEqual([
      [
        "unit.value",
        "Declared value: '1,234' can be read in two ways; write 1,5 for a fraction, and thousands without a sign between.",
      ],
    ]);
  });
});

describe("what the engine refuses stands beside the field it came from", () => {
  it.each([
    ["-2", "count is -2"],
    ["2.5", "count is 2.5"],
    ["10001", "count is 10001"],
  ])("a count of %s", (count, part) => {
    const [[field, text] = []] = said({ ...BOARD, "cells.a1.p:film": count });
    expect(field).toBe("cells.a1.p:film");
    expect(text).toContain(part);
  });

  it.each([
    [{ "fasteners.a1.screw": "-1" }, "fasteners.a1.screw"],
    [{ "boards.small.on%20top": "-1" }, "boards.small.on%20top"],
    [{ "terms.diagnosisLimit": "-5" }, "terms.diagnosisLimit"],
    [{ "terms.discount": "120", "terms.discountReason": "x" }, "terms.discount"],
    [{ "unit.value": "-1" }, "unit.value"],
    [{ "meta.asOf": "yesterday" }, "meta.asOf"],
    [{ "meta.asOf": "2999-01-01" }, "meta.asOf"],
    [
      {
        "line.l1.operation": "Test every function",
        "line.l1.count": "1",
        "line.l1.certainty": "if found",
        "line.l1.probability": "120",
      },
      "line.l1.probability",
    ],
    [
      { "line.l1.operation": "Test every function", "line.l1.count": "1", "line.l1.low": "9", "line.l1.likely": "3" },
      "line.l1.likely",
    ],
    [{ "assembly.a1.behind": "Second", "assembly.a2.name": "Second", "assembly.a2.behind": "Voice board" }, "assembly.a1.behind"],
  ])("%o at %s", (pairs, field) => {
    expect(said({ ...BOARD, "cells.a1.p:film": "1", ...(pairs as Record<string, string>) }).map(([at]) => at)).toEqual([field]);
  });

  it("prices the rest", () => {
    const form = read({ ...BOARD, "cells.a1.p:film": "-2", "cells.a1.p:resistor": "4" });
    const outcome = estimate(form.input);
    expect(outcome.ok).toBe(false);
    expect(!outcome.ok && outcome.partial?.lines.some(({ part }) => part?.type === "resistor")).toBe(true);
  });
});

describe("reading what is plain to a person", () => {
  it("takes money with signs, spaces and grouping", () => {
    for (const text of ["1234.5", "1,234.50", "£1,234.50", "GBP 1 234.50", "1234.50 GBP"]) {
      expect(read({ "unit.value": text }).input.unit.declaredValue).toBe(123_450);
    }
  });

  it("scales money by ISO 4217 and not by two", () => {
    const yen = { ...bench, currency: "JPY", locale: "ja-JP" };
    expect(read({ "unit.value": "￥12,000" }, yen).input.unit.declaredValue).toBe(12_000);
    expect(read({ "unit.value": "1.5" }, { ...bench, currency: "KWD" }).input.unit.declaredValue).toBe(1500);
  });

  it("replaces a part that names no work, and knows parts by name whatever the case", () => {
    const { input, problems } = read({ "line.l1.part": "film CAPACITOR", "line.l1.count": "2" });
    expect(problems).toEqual([]);
    expect(input.items).toEqual([
      { id: "l1", operation: "replace", count: 2, part: { type: "film" }, certainty: { is: "planned" } },
    ]);
  });

  it("goes by the fasteners when some are counted, and by the standard when none are", () => {
    const access = (pairs: Record<string, string>) => read({ ...BOARD, ...pairs }).input.map?.assemblies[0]?.access;
    expect(access({ "fasteners.a1.screw": "4" })).toEqual({ by: "fasteners", fasteners: [{ kind: "screw", count: 4 }] });
    expect(access({})).toEqual({ by: "standard", size: "medium", mounting: "on top" });
    expect(access({ "assembly.a1.by": "measured", "assembly.a1.removeLikely": "5", "assembly.a1.refitLikely": "6.5" })).toEqual({
      by: "measured",
      remove: { low: 5, likely: 5, high: 5 },
      refit: { low: 6.5, likely: 6.5, high: 6.5 },
    });
  });

  it("leaves rows alone that say nothing", () => {
    const { input, problems } = read({
      "assembly.a1.name": "",
      "assembly.a1.sort": "board",
      "line.l1.count": "1",
      "line.l1.certainty": "planned",
    });
    expect(problems).toEqual([]);
    expect(input.map).toBeUndefined();
    expect(input.items).toEqual([]);
  });

  it("asks for the name of a row that is counted", () => {
    expect(said({ "cells.a1.p:film": "2", "assembly.a1.name": "" })).toEqual([
      ["assembly.a1.name", "Assembly 1, name: nothing is given, and it cannot be worked out; fill it in."],
    ]);
  });

  it("follows a renamed assembly until the page is drawn again", () => {
    const { input, problems } = read({
      "assembly.a1.name": "Tone board",
      "assembly.a1.was": "Voice board",
      "line.l1.part": "Resistor",
      "line.l1.count": "1",
      "line.l1.assembly": "Voice board",
    });
    expect(problems).toEqual([]);
    expect(input.items[0]?.assembly).toBe("a1");
  });

  it("takes names in any script, and 10,000 characters of notes", () => {
    const names = [
      "Žofie Kapradinová",
      "Ярослав Подсолнухин",
      "Ελένη Μελισσά",
      "מרים כלנית",
      "🎹 Dee",
      "<script>alert(1)</script>",
      '=HYPERLINK("x")',
    ];
    for (const name of names) {
      const { input, problems } = read({ "owner.name": name, "unit.reported": "hum. ".repeat(2000) });
      expect(problems).toEqual([]);
      expect(input.paperwork?.owner?.name).toBe(name);
      expect(input.unit.reported).toHaveLength(9999);
    }
  });

  it("keeps only the parts and offers the work uses", () => {
    const input = demoInput("string-organ-keyboard");
    const context = contextOf(input);
    const { input: small } = read({ "line.l1.part": context.kinds[0]!.name, "line.l1.count": "1" }, context);
    expect(small.kinds?.map(({ id }) => id)).toEqual([context.kinds[0]!.id]);
    expect(new Set(small.offers?.map(({ kind }) => kind))).toEqual(new Set([context.kinds[0]!.id]));
  });
});
