import { describe, expect, it } from "vitest";
import { estimateBlocks } from "../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { whyText } from "../../src/wording/reasons.js";
import { duration } from "../../src/wording/time.js";
import { AMPLIFIER, CAST, KEYBOARD, PLAIN_COUNTS, priced, TAPE_ECHO } from "./support/cast.js";
import { textsOf } from "./support/texts.js";

const told = (input: EstimateInput) => textsOf(estimateBlocks(subjectOf(priced(input), input)));
const bytes = async (input: EstimateInput) => Buffer.from((await estimatePdf(priced(input), input)).bytes);

describe("the estimate document", () => {
  it("gives the same bytes for the same input, whatever was printed in between", async () => {
    const first = await bytes(KEYBOARD);
    await bytes({ ...TAPE_ECHO, paperwork: { ...TAPE_ECHO.paperwork, owner: { name: "Ελένη Кирилл" } } });
    expect(first.equals(await bytes(KEYBOARD))).toBe(true);
  });

  it("changes its identifier with its content", async () => {
    const id = (pdf: Buffer) => /\/ID \[ <([0-9a-f]{32})> <\1> \]/.exec(pdf.toString("latin1"))?.[1];
    const one = id(await bytes(KEYBOARD));
    const other = id(await bytes({ ...KEYBOARD, unit: { ...KEYBOARD.unit, serial: "S49-02118" } }));
    expect(one).toMatch(/^[0-9a-f]{32}$/);
    expect(other).toMatch(/^[0-9a-f]{32}$/);
    expect(other).not.toBe(one);
  });

  it("shows nothing of what a part cost the shop, nor of its mark-up", async () => {
    const sheet = priced(TAPE_ECHO);
    const dearer = { ...sheet, parts: sheet.parts.map((part) => ({ ...part, cost: part.cost + 987_654, markUpPercent: 87.65 })) };
    const input: EstimateInput = {
      ...TAPE_ECHO,
      offers: (TAPE_ECHO.offers ?? []).map((offer) => ({ ...offer, price: offer.price + 987_654 })),
      rateBook: { ...TAPE_ECHO.rateBook, parts: { ...TAPE_ECHO.rateBook.parts, markUp: [{ percent: 87.65 }] } },
    };
    const shown = await estimatePdf(dearer, input);
    expect(Buffer.from(shown.bytes).equals(await bytes(TAPE_ECHO))).toBe(true);
  });

  it.each(CAST)("says who, what, how much and how long: %s", (_, input) => {
    const sheet = priced(input);
    const { cash } = subjectOf(sheet, input);
    const all = told(input).join("\n");
    const { shop, owner, terms = [] } = input.paperwork!;
    for (const part of [shop!.name, owner!.name, input.unit.model, input.unit.reported!, ...terms]) expect(all).toContain(part);
    for (const amount of [
      sheet.totals.total,
      sheet.ceiling.amount,
      sheet.ifDeclined.amount,
      sheet.deposit.amount,
      ...sheet.options.map(({ price }) => price),
      ...sheet.ifFound.map(({ price }) => price),
      ...sheet.suggestions.flatMap(({ now, later }) => [now, later]),
    ]) {
      expect(all).toContain(cash(amount));
    }
    expect(all).toContain("25 December 2026");
    expect(all).toContain(`About ${sheet.days.total} days`);
  });

  it("prints every line of the sheet, and under a scarcity margin one sentence why", () => {
    const sheet = priced(KEYBOARD);
    const subject = subjectOf(sheet, KEYBOARD);
    const texts = told(KEYBOARD);
    for (const line of sheet.lines) expect(texts).toContain(subject.cash(line.amount));
    const margins = sheet.lines.filter(({ sort }) => sort === "scarcity margin");
    expect(margins.length).toBeGreaterThan(0);
    for (const { why } of margins) expect(texts).toContain(whyText(why!, subject.tongue));
  });

  it("says why an assembly comes off that needs no work itself", () => {
    expect(told(KEYBOARD).some((text) => text.startsWith("It must come off to reach"))).toBe(true);
  });

  it("says that access is by standard, and how far it may spread", () => {
    const all = told(PLAIN_COUNTS).join("\n");
    expect(all).toMatch(/Access is by the rate book's standards, not by a teardown map: between .+ and .+, most likely/);
    expect(told(AMPLIFIER).join("\n")).not.toContain("Access is by the rate book's standards");
  });

  it("tells the owner, not the shop, that the total is a large share of the declared value", () => {
    expect(priced(TAPE_ECHO).warnings.some(({ is }) => is === "value share")).toBe(true);
    const all = told(TAPE_ECHO).join("\n");
    expect(all).toMatch(/The total is [\d.]+% of the value you declared, £620\.00\./);
    expect(all).not.toContain("ask the owner");
  });

  it("leaves cautions about solder and solvents to the bench sheet", () => {
    expect(told(KEYBOARD).join("\n")).toContain("This unit may hold dangers inside: mains with stored charge.");
  });

  it("tells the owner that work on a memory cell may erase what the unit holds, in the owner's language, and not where it holds nothing", () => {
    const cell = {
      id: "cell",
      operation: "replace",
      count: 1,
      part: { type: "memory-cell" },
      certainty: { is: "planned" },
    } as const;
    const { storedData: _, ...unit } = KEYBOARD.unit;
    const input = (storedData?: string, language?: string) => ({
      ...KEYBOARD,
      items: [...KEYBOARD.items, cell],
      unit: { ...unit, ...(storedData !== undefined && { storedData }) },
      paperwork: { ...KEYBOARD.paperwork, ...(language && { language }) },
    });
    expect(told(input("64 sounds.")).join("\n")).toContain("may erase what the unit remembers (64 sounds). We save it first");
    expect(told(input()).join("\n")).toContain("may erase what the unit remembers, such as sounds and settings of your own.");
    expect(told(input(undefined, "de")).join("\n")).toContain("können löschen, was das Gerät gespeichert hat");
    for (const none of [input(""), { ...input(), items: KEYBOARD.items }])
      expect(told(none).join("\n")).not.toContain("what the unit remembers");
  });

  it("draws a box for each option, filled when it is in the total", () => {
    const boxes = estimateBlocks(subjectOf(priced(AMPLIFIER), AMPLIFIER))
      .flatMap((block) => (block.is === "table" ? block.rows : []))
      .flatMap(({ cells }) => cells.flatMap(({ box }) => box ?? []));
    const sheet = priced(AMPLIFIER);
    const expected = [
      ...sheet.options.map(({ chosen }) => (chosen ? "ticked" : "empty")),
      ...sheet.suggestions.map(() => "empty"),
    ];
    expect(boxes).toEqual(expected);
    expect(boxes).toContain("ticked");
    expect(boxes).toContain("empty");
  });

  it("marks each line with its tax category when there are several", () => {
    const { rateBook } = KEYBOARD;
    const input: EstimateInput = {
      ...KEYBOARD,
      rateBook: {
        ...rateBook,
        tax: {
          ...rateBook.tax,
          categories: [...rateBook.tax.categories, { id: "low", name: "Low 5 %", percent: 5 }],
          parts: "low",
        },
      },
    };
    expect(told(input)).toContain("B  Low 5 %");
    expect(told(KEYBOARD)).not.toContain("A");
  });

  it("lists what the fonts lack as a warning, and prints the rest", async () => {
    const input: EstimateInput = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, owner: { name: "Zoë 😀 日" } } };
    const { warnings } = await estimatePdf(priced(input), input);
    expect(warnings).toEqual([{ is: "missing glyphs", text: "Zoë 😀 日", characters: ["😀", "日"] }]);
    expect((await estimatePdf(priced(KEYBOARD), KEYBOARD)).warnings).toEqual([]);
  });

  it("writes figures in English where the fonts lack the locale's script, and in the locale's way where they have it", () => {
    const inLocale = (locale: string) => told({ ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, locale } }).join("\n");
    expect(inLocale("ar-EG")).toContain("25 November 2026");
    expect(inLocale("de-DE")).toMatch(/\d,\d\d\u00a0£/);
    expect(inLocale("el-GR")).toMatch(/\d,\d\d\u00a0£/);
  });

  it("prints with no paperwork at all", async () => {
    const { paperwork: _, ...bare } = KEYBOARD;
    expect((await bytes(bare)).length).toBeGreaterThan(50_000);
  });

  it("keeps a locale or a date that is no such thing out of the file's structure", async () => {
    const input: EstimateInput = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, locale: "en)/X(", date: "2026) /Evil (" } };
    const text = Buffer.from((await estimatePdf(priced(KEYBOARD), input)).bytes).toString("latin1");
    expect(text).toContain("/Lang(en)");
    expect(text).toContain("(D:20261125000000Z)");
    expect(text).not.toContain("/Evil");
  });

  it("stays under 150 kB for two pages", async () => {
    const pdf = await bytes(PLAIN_COUNTS);
    expect(pdf.toString("latin1").match(/\/Type\/Page\/Parent/g)!.length).toBeGreaterThanOrEqual(2);
    expect(pdf.length).toBeLessThan(150_000);
  });
});

describe("a fixed price", () => {
  it("covers possible work, and says so in place of a price", () => {
    const sheet = priced(KEYBOARD);
    const covered = { ...sheet, ifFound: sheet.ifFound.map((group) => ({ ...group, price: 0, net: 0, covered: true as const })) };
    const texts = textsOf(estimateBlocks(subjectOf(covered, KEYBOARD)));
    expect(texts.filter((text) => text === "covered")).toHaveLength(sheet.ifFound.length);
    expect(texts.join("\n")).toContain("you pay no more for it");
    expect(texts.join("\n")).not.toContain("Not in the total. By agreeing");
    expect(told(KEYBOARD).join("\n")).toContain("Not in the total. By agreeing");
  });
});

describe("the time an owner reads", () => {
  it("is that of somebody at work, as its lines add up, with soak and charging apart", () => {
    const { time, lines } = priced(KEYBOARD);
    expect(time.unattended).toBe(480);
    const attends = new Map(KEYBOARD.rateBook.labourClasses.map(({ id, attended }) => [id, attended]));
    const printed = lines.reduce((sum, { minutes = 0, labourClass: by }) => sum + (by && attends.get(by.id) ? minutes : 0), 0);
    expect(duration(printed, "en-GB")).not.toBe(duration(time.attended, "en-GB"));
    const texts = told(KEYBOARD);
    const at = texts.indexOf("Bench time, somebody at work");
    expect(texts.slice(at + 1, at + 3)).toEqual([duration(printed, "en-GB"), "and 8\u00a0h of soak or charging, unattended"]);
    expect(texts.join("\n")).not.toContain("Time billed");
  });
});

describe("the link to the owner's page", () => {
  it("is typed without its secret where there is a code, and leads there with it", () => {
    const link = "https://lanternfold.example/o#Zq7-_x9A";
    const linked = (code?: string) =>
      told({ ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, link, ...(code && { code }) } }).find((text) =>
        text.startsWith("Your page"),
      );
    expect(linked("7KQX-M4TD")).toBe(
      "Your page: https://lanternfold.example/o. Type the number J-2026-0001 and the code 7KQX-M4TD there.",
    );
    expect(linked()).toBe(`Your page: ${link}`);
  });
});
