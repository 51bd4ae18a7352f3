import { describe, expect, it } from "vitest";
import { type BenchOptions, benchBlocks, benchSheetPdf } from "../../src/documents/benchSheetPdf.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import type { TableBlock } from "../../src/documents/layout/block.js";
import { unagreed } from "../../src/estimating/agreement/workLog.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { cautionAlone, DEFER } from "../../src/wording/caution.js";
import { lineTitle } from "../../src/wording/line.js";
import { duration } from "../../src/wording/time.js";
import { CAST, KEYBOARD, PLAIN_COUNTS, priced } from "./support/cast.js";
import { REVISED } from "./support/revision.js";
import { textsOf } from "./support/texts.js";

const blocks = (input: EstimateInput) => benchBlocks(subjectOf(priced(input), input));
const told = (input: EstimateInput) => textsOf(blocks(input));

/** First cells of the table under a heading. */
function under(heading: string, input: EstimateInput): string[] {
  const all = blocks(input);
  const at = all.findIndex((block) => block.is === "heading" && block.text === heading);
  const table = all.slice(at).find((block) => block.is === "table") as TableBlock;
  return table.rows.map(({ cells }) => cells[0]!.text);
}

describe("the bench sheet", () => {
  it("takes assemblies off in the sheet's order and refits them in the sheet's order", () => {
    const { access } = priced(KEYBOARD);
    expect(under("Take off, in this order", KEYBOARD)).toEqual(access.removal.map(({ name }, index) => `${index + 1}. ${name}`));
    expect(under("Refit, in this order", KEYBOARD)).toEqual(access.refit.map(({ name }, index) => `${index + 1}. ${name}`));
  });

  it("says of work that was found since which revision it came with, before the reason", () => {
    const foundIn = new Map([
      ["x1", 2],
      ["x2", 3],
    ]);
    const texts = textsOf(benchBlocks(subjectOf(priced(REVISED), REVISED), { foundIn }));
    expect(texts).toContain("Extra fault, revision 2. cracked joints at the transformer lugs");
    expect(texts).toContain("Extra fault, revision 3. the track may be cracked further");
    expect(told(REVISED).join()).not.toContain("Extra fault");
  });

  it("has the memory saved before anything comes off, whether anyone planned it or not, and no cell out before", () => {
    const cell = {
      id: "cell",
      operation: "replace",
      count: 1,
      part: { type: "memory-cell" },
      certainty: { is: "planned" },
    } as const;
    const save = { id: "save", operation: "save-memory", count: 1, certainty: { is: "planned" } } as const;
    const { storedData: _, ...unit } = PLAIN_COUNTS.unit;
    const bare = { ...PLAIN_COUNTS, unit, items: [...PLAIN_COUNTS.items, cell] };
    const planned = { ...bare, items: [...bare.items, save] };
    for (const input of [bare, planned]) {
      const texts = told(input);
      const first = texts.indexOf("Save the memory first");
      expect(first).toBeGreaterThan(texts.indexOf("Before you open it"));
      expect(texts.findIndex((text) => text.includes("Only after the memory is saved."))).toBeGreaterThan(first);
    }
    expect(under("Save the memory first", bare)).toEqual(["Memory saved, or known to be empty"]);
    const name = PLAIN_COUNTS.rateBook.operations.find(({ id }) => id === "save-memory")!.name;
    expect(under("Save the memory first", planned)).toEqual([name]);
    expect(under("Work", planned)).not.toContain(name);
    expect(told(PLAIN_COUNTS)).not.toContain("Save the memory first");
    expect(told({ ...bare, unit: { ...bare.unit, storedData: "" } })).not.toContain("Save the memory first");
  });

  it("says what must be back before the shelf, and why", () => {
    const texts = told(KEYBOARD);
    expect(texts.some((text) => text.includes("Chorus board") && text.includes("Supply board"))).toBe(true);
    for (const { why } of KEYBOARD.map!.fitBefore ?? []) if (why) expect(texts.join("\n")).toContain(why);
  });

  it.each(CAST)("has a line and a box for all the work: %s", (_, input) => {
    const sheet = priced(input);
    const texts = told(input);
    for (const line of sheet.lines) {
      if (["access", "part", "scarcity margin", "labour rounding", "minimum charge", "fee"].includes(line.sort)) continue;
      expect(texts).toContain(lineTitle(line));
    }
    for (const { name } of sheet.parts) expect(texts).toContain(name);
    const unboxed = blocks(input)
      .flatMap((block) => (block.is === "table" ? block.rows : []))
      .filter(({ kind, cells }) => kind === undefined && cells[0]!.text !== "" && !cells[0]!.box);
    expect(unboxed).toEqual([]);
  });

  it.each(CAST)("puts every caution before any work, and defers to local codes: %s", (_, input) => {
    const texts = told(input);
    const firstWork = texts.indexOf("Take off, in this order");
    for (const { hazard } of priced(input).hazards) {
      const at = texts.indexOf(cautionAlone(hazard));
      expect(at).toBeGreaterThan(-1);
      expect(at).toBeLessThan(firstWork);
    }
    expect(texts.indexOf(DEFER)).toBeGreaterThan(-1);
    expect(texts.indexOf(DEFER)).toBeLessThan(firstWork);
  });

  it("names no price but the ceiling", () => {
    const sheet = priced(KEYBOARD);
    const { cash } = subjectOf(sheet, KEYBOARD);
    expect(told(KEYBOARD).filter((text) => text.includes("£"))).toEqual([cash(sheet.ceiling.amount)]);
  });

  it("lists boards that were only counted", () => {
    expect(under("Take off, in this order", PLAIN_COUNTS)).toEqual([
      "1 large board behind a panel with knobs",
      "2 small boards on top",
      "1 medium board behind another",
    ]);
  });

  it("warns of a part with a lower voltage rating than the original", () => {
    const input: EstimateInput = {
      ...KEYBOARD,
      items: KEYBOARD.items.map((item) => (item.original ? { ...item, original: { ...item.original, ratedVolts: 400 } } : item)),
    };
    expect(told(input)).toContain("Look twice at these parts");
    const unknown = { ...KEYBOARD, items: KEYBOARD.items.map(({ original: _, ...item }) => item) };
    expect(told(unknown)).not.toContain("Look twice at these parts");
  });

  it("gives the same bytes for the same input", async () => {
    const print = async () => Buffer.from((await benchSheetPdf(priced(KEYBOARD), KEYBOARD)).bytes);
    expect((await print()).equals(await print())).toBe(true);
  });
});

describe("work that no agreement covers", () => {
  const subject = subjectOf(priced(REVISED), REVISED);
  const open = unagreed(REVISED, KEYBOARD);
  const agreed = { by: "Žofie Kapradinová", at: "2026-11-26T09:14:33.120Z", channel: "telephone" } as const;
  const rowsOf = (options: BenchOptions) =>
    benchBlocks(subject, options).flatMap((block) => (block.is === "table" ? block.rows : []));
  const marks = (options: BenchOptions) =>
    rowsOf(options).flatMap(({ cells, mark }) => (mark ? [`${cells[0]!.text}: ${mark.text}`] : []));

  it("is marked with why, in the work, the parts and what only it opens: there it neither comes off nor goes back", () => {
    expect(marks({ unagreed: open })).toEqual([
      "Electrolytic 47 µF 50 V, 105 °C: ×\u00a0In part for work that is not agreed.",
      "Mains lead, moulded plug, 3 m: ×\u00a0Not agreed: do not order.",
      "5. Mains transformer: ×\u00a0Leave it in: it only comes off for work that is not agreed.",
      "Replace: Mains lead, moulded plug, 3 m: ×\u00a0Not agreed: the owner left this option.",
      "Resolder joints, each: ×\u00a0Not agreed: it is not in the revision the owner agreed to.",
      "Replace: Electrolytic 47 µF 50 V, 105 °C: ×\u00a0Not agreed in full: the count is higher than the owner agreed to.",
      "Middle divider board: Resolder joints, each × 3: ×\u00a0Not agreed: it is not in the revision the owner agreed to.",
    ]);
  });

  it("leaves in what only it opens: no other step names it, and nothing of it goes back", () => {
    const named = (options: BenchOptions) =>
      rowsOf(options).flatMap(({ cells, mark }) => {
        const [first, ...rest] = cells.flatMap(({ text, note = "" }) => [text, note]);
        const isStep = /^\d+\. /.test(first!) && !mark;
        return isStep && [first, ...rest].some((text) => text!.includes("Mains transformer")) ? [first] : [];
      });
    expect(named({})).toEqual(["3. Supply shelf", "5. Mains transformer", "11. Mains transformer", "14. Supply shelf"]);
    expect(named({ unagreed: open })).toEqual([]);
  });

  it("is marked by id alone too, and only it", () => {
    expect(marks({ unagreed: ["x1", "nothing of this job"] })).toEqual([
      "5. Mains transformer: ×\u00a0Leave it in: it only comes off for work that is not agreed.",
      "Resolder joints, each: ×\u00a0Not agreed.",
    ]);
    expect(marks({ unagreed: [] })).toEqual([]);
    expect(marks({})).toEqual([]);
  });

  it("keeps everything in when nothing is agreed", () => {
    const all = marks({ unagreed: unagreed(REVISED, undefined) });
    for (const { name } of priced(REVISED).access.removal)
      expect(all.some((text) => text.includes(`${name}: ×\u00a0Leave it in`))).toBe(true);
  });

  it("is announced before any caution and any work, with who agreed to what", () => {
    const texts = textsOf(benchBlocks(subject, { unagreed: open, agreed: { ...agreed, revision: 1 } }));
    const stop = texts.indexOf("Stop: not all of this is agreed");
    expect(stop).toBeGreaterThan(-1);
    expect(stop).toBeLessThan(texts.indexOf("Before you open it"));
    expect(texts[stop + 1]).toMatch(/^4 work items are not agreed and marked ×/);
    expect(texts).toContain("revision 1: Žofie Kapradinová, 26 November 2026 at 09:14 UTC, by telephone");
    expect(textsOf(benchBlocks(subject, { agreed })).join("\n")).not.toContain("not agreed");
  });

  it("plans the time of what was agreed, not of the work that is not", () => {
    const left = new Set(open.map(({ id }) => id));
    const alone = priced({ ...REVISED, items: REVISED.items.filter(({ id }) => !left.has(id)) }).time;
    const planned = (options: BenchOptions) => {
      const texts = textsOf(benchBlocks(subject, options));
      return texts[texts.indexOf("Bench time planned") + 1];
    };
    const whole = subject.sheet.time;
    expect(planned({ unagreed: open, agreed })).toBe(duration((alone.charged ?? alone).attended, "en-GB"));
    expect(planned({ agreed })).toBe(duration((whole.charged ?? whole).attended, "en-GB"));
    expect(planned({ unagreed: open, agreed })).not.toBe(planned({ agreed }));
  });

  it("leaves the limit at what was agreed", () => {
    const texts = textsOf(benchBlocks(subject, { unagreed: open, agreed: { ...agreed, limit: 98_765 } }));
    expect(texts[texts.indexOf("Stop and ask before passing") + 1]).toBe("£987.65");
    expect(textsOf(benchBlocks(subject))).toContain(subject.cash(subject.sheet.ceiling.amount));
  });

  it("changes nothing on a sheet for which nothing is said", async () => {
    const print = async (options?: BenchOptions) => Buffer.from((await benchSheetPdf(priced(REVISED), REVISED, options)).bytes);
    expect((await print()).equals(await print({}))).toBe(true);
    expect((await print({ unagreed: open })).equals(await print({ unagreed: open }))).toBe(true);
    expect((await print({ unagreed: open })).equals(await print())).toBe(false);
  });
});
