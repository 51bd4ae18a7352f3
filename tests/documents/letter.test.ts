/** What an owner gets at each level of detail. Sizes and wording are ours; the demo jobs are invented. */
import { describe, expect, it } from "vitest";
import { estimateBlocks, shorterBlocks } from "../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { isFault } from "../../src/documents/picture/picture.js";
import { readPicture } from "../../src/documents/picture/readPicture.js";
import { strikeable } from "../../src/estimating/agreement/choices.js";
import { packagePrices } from "../../src/estimating/agreement/packages.js";
import type { EstimateInput, PaperDetail } from "../../src/estimating/input.js";
import { ownerSheet } from "../../src/http/owner/ownerSheet.js";
import { ownerAnswerText, termsTexts } from "../../src/wording/agreement.js";
import { headingSums, workName } from "../../src/wording/line.js";
import { wordsIn } from "../../src/wording/tongue.js";
import { png } from "./picture/files.js";
import { asLetter, CAST, KEYBOARD, priced, SUMMARY } from "./support/cast.js";
import { textsOf } from "./support/texts.js";

const blocksOf = (input: EstimateInput) => estimateBlocks(subjectOf(priced(input), input));
const told = (input: EstimateInput) => textsOf(blocksOf(input));
const at = (detail: PaperDetail, input: EstimateInput): EstimateInput => ({
  ...asLetter(input),
  paperwork: { ...asLetter(input).paperwork, detail },
});
const DETAILS: readonly PaperDetail[] = ["letter", "by assembly", "every line"];

describe("a letter", () => {
  it("is what an owner gets where nothing was chosen", () => {
    expect(told(asLetter(KEYBOARD))).toEqual(told(at("letter", KEYBOARD)));
    expect(told(asLetter(KEYBOARD))).not.toContain("Sum of the lines");
  });

  it("begins with the technician's words, and without them says what was reported and found", () => {
    const { summary: _, ...paperwork } = asLetter(KEYBOARD).paperwork!;
    expect(told(asLetter(KEYBOARD))).toContain(SUMMARY);
    expect(told(asLetter(KEYBOARD))).not.toContain(KEYBOARD.unit.found);
    expect(told({ ...KEYBOARD, paperwork })).toContain(KEYBOARD.unit.found);
  });

  it("says that ticking changes the total and the most it may come to, or the price alone where that is the owner's own figure", () => {
    const option = {
      id: "more",
      own: { name: "Polish the lid", price: 4000 },
      count: 1,
      certainty: { is: "optional", chosen: false },
    } as const;
    const optional = { ...asLetter(KEYBOARD), items: [...KEYBOARD.items, option] };
    const { total } = priced(optional).totals;
    const by = (language: string, ceiling?: number) =>
      told({
        ...optional,
        policy: { ...optional.policy, ...(ceiling !== undefined && { ceiling }) },
        paperwork: { ...optional.paperwork, language },
      }).join("\n");
    const ways: [number | undefined, string, string][] = [
      [undefined, "changes both; we confirm them first.", "ändert beides, und wir"],
      [total + 5000, "changes the price; we confirm it first.", "ändert den Preis, und wir"],
      [total - 5000, "changes both; we confirm them first.", "ändert beides, und wir"],
    ];
    for (const [ceiling, english, german] of ways) {
      expect(by("en", ceiling)).toContain(english);
      expect(by("de", ceiling)).toContain(german);
    }
  });

  it("says what is done where and how often, run together under the technician's words on a page that has no room", () => {
    const input = asLetter(KEYBOARD);
    expect(told(input)).toContain(
      "Replace: Audio electrolytic 10 µF 50 V × 6, Audio electrolytic 22 µF 50 V × 4, Audio electrolytic 100 µF 35 V × 4, Tantalum 10 µF 16 V × 4; Set delay clock and bias × 3",
    );
    const { summary: _, ...paperwork } = input.paperwork!;
    const shorter = (one: EstimateInput) => textsOf(shorterBlocks(subjectOf(priced(one), one))[0]!);
    const ran = shorter(input).find((text) => text.startsWith("The work: "))!;
    for (const item of strikeable(input).filter(({ certainty }) => certainty.is !== "if found"))
      expect(ran).toContain(workName(item, input.rateBook));
    expect(shorter({ ...input, paperwork })).toContain("The work");
  });

  it("has part of the work struck out only where the work is listed, and says where else it is", () => {
    const answers = (input: EstimateInput) => {
      const subject = subjectOf(priced(input), input);
      const forms = [estimateBlocks(subject), ...shorterBlocks(subject)].map(textsOf);
      return forms.map((texts) => [
        texts.some((text) => text.startsWith("The work")),
        texts.includes("I agree to part of it only; I have struck out what is not to be done."),
        /To agree to part of it only: (on your page, below|ask us for every line, and strike out there what is not to be done)\./.test(
          texts.join("\n"),
        ),
      ]);
    };
    const { link: _, code: __, ...unlinked } = asLetter(KEYBOARD).paperwork!;
    const listed = [true, true, false];
    for (const input of [asLetter(KEYBOARD), { ...KEYBOARD, paperwork: unlinked }])
      expect(answers(input)).toEqual([listed, listed, [false, false, true]]);
    const { summary: ___, ...wordless } = asLetter(KEYBOARD).paperwork!;
    expect(answers({ ...KEYBOARD, paperwork: wordless })).toEqual([listed, listed]);
    const optional = KEYBOARD.items.filter(({ certainty }) => certainty.is === "optional");
    expect(
      answers(asLetter({ ...KEYBOARD, items: optional })).flatMap(([, inPart, elsewhere]) => [inPart, elsewhere]),
    ).not.toContain(true);
  });

  it("names all that may be found and chosen, for that is agreed to", () => {
    const sheet = priced(KEYBOARD);
    const { cash } = subjectOf(sheet, KEYBOARD);
    const texts = told(asLetter(KEYBOARD));
    for (const { price } of [...sheet.ifFound, ...sheet.options]) expect(texts).toContain(cash(price));
  });

  it("describes the work, and prices diagnosis and opening, wherever a law profile asks for it", () => {
    const california = { ...asLetter(KEYBOARD), policy: { ...KEYBOARD.policy, profile: "us-ca" } };
    expect(textsOf(shorterBlocks(subjectOf(priced(california), california)).at(-1)!)).toContain("The work");
    expect(told(california).join("\n")).toMatch(/Diagnosis £54\.00 \(£45\.00 before tax\), opening and refitting £/);
    expect(told(asLetter(KEYBOARD)).join("\n")).not.toContain("Diagnosis £54.00");
  });

  it("says where every line stands", () => {
    const where = (texts: readonly string[]) => texts.filter((text) => text.includes("Every line and sum"));
    expect(where(told(asLetter(KEYBOARD)))).toHaveLength(1);
    expect(where(told(at("every line", KEYBOARD)))).toEqual([]);
  });

  it("has the first photo beside the words, and the others on pages of their own", async () => {
    const picture = await readPicture(png({ width: 80, height: 60, colour: "rgb", at: () => [9, 9, 9] }));
    if (isFault(picture)) throw new Error("No picture.");
    const [one, two] = ["a".repeat(64), "b".repeat(64)];
    const photos = [
      { id: "1", sha256: one, caption: "the vented capacitor" },
      { id: "2", sha256: two },
    ];
    const input = { ...asLetter(KEYBOARD), paperwork: { ...asLetter(KEYBOARD).paperwork, photos } };
    const pictures = new Map([
      [one, picture],
      [two, picture],
    ]);
    const blocks = estimateBlocks(subjectOf(priced(input), input, { photos: pictures }));
    const texts = textsOf(blocks);
    expect(texts.indexOf("Photo 1: the vented capacitor")).toBe(texts.indexOf("The work") - 1);
    expect(texts.filter((text) => text.startsWith("Photo 1"))).toHaveLength(1);
    expect(blocks.findIndex(({ is }) => is === "page")).toBeGreaterThan(0);
    expect(texts.slice(texts.indexOf("Photos"))).toContain("Photo 2");
  });
});

describe("where all possible work together would pass the ceiling", () => {
  const tight: EstimateInput = {
    ...KEYBOARD,
    rateBook: { ...KEYBOARD.rateBook, ceiling: { ...KEYBOARD.rateBook.ceiling, leavesRoom: true } },
    policy: { ...KEYBOARD.policy, ceiling: priced(KEYBOARD).totals.total },
  };
  const said = "All of it together would come to more than we may charge: before it does, we ask you.";

  it("it is said at every level, in a letter that has no room too, and on the owner's page", () => {
    expect(priced(KEYBOARD).ifFound.length).toBeGreaterThan(0);
    for (const detail of DETAILS) expect(told(at(detail, tight)).join("\n"), detail).toContain(said);
    const subject = subjectOf(priced(tight), asLetter(tight));
    for (const blocks of shorterBlocks(subject)) expect(textsOf(blocks)).toContain(said);
    expect(ownerSheet(priced(tight), tight, subject.tongue).couldPass).toBe(said);
  });

  it("and nowhere where it would not, or the price covers it", () => {
    const within = (policy: EstimateInput["policy"]): EstimateInput => ({ ...tight, policy: { ...tight.policy, ...policy } });
    for (const input of [within({ ceiling: 500_000 }), within({ pricing: { is: "fixed price", confidencePercent: 80 } })]) {
      for (const detail of DETAILS) expect(told(at(detail, input)).join("\n"), detail).not.toContain(said);
      expect(ownerSheet(priced(input), input, subjectOf(priced(input), input).tongue).couldPass).toBeUndefined();
    }
  });
});

describe("the letter of a revision", () => {
  it("says why the total changed, and leaves the rows to the owner's page where there is no room", () => {
    const was = asLetter(KEYBOARD);
    const now = asLetter({ ...KEYBOARD, items: KEYBOARD.items.slice(1) });
    const earlier = { input: was, sheet: priced(was), revision: 1 };
    const subject = subjectOf(priced(now), now, { earlier });
    const [whole, short] = [textsOf(estimateBlocks(subject)), textsOf(shorterBlocks(subject)[0]!)];
    for (const texts of [whole, short]) {
      expect(texts).toContain("What changed since revision 1");
      expect(texts).toContain("Why the total changed");
      expect(texts.join("\n")).not.toContain("From 'Work and parts' on");
    }
    expect(whole).toContain("All that did not change");
    expect(short).not.toContain("All that did not change");
  });
});

describe("by assembly", () => {
  it("tells what each place comes to, and the same sums", () => {
    const sheet = priced(KEYBOARD);
    const { cash, tongue } = subjectOf(sheet, KEYBOARD);
    const texts = told(at("by assembly", KEYBOARD));
    const sums = headingSums(sheet.lines, tongue);
    expect(sums.reduce((sum, { amount }) => sum + amount, 0)).toBe(sheet.totals.linesNet);
    for (const { heading, amount } of sums) expect(texts[texts.lastIndexOf(heading) + 1]).toBe(cash(amount));
    expect(texts).not.toContain("Count");
  });
});

it.each(DETAILS)("a job ahead of the queue is told its rush charge, %s", (detail) => {
  const asked = at(detail, KEYBOARD);
  const input = { ...asked, policy: { ...asked.policy, rush: true } };
  const { amount, base } = priced(input).adjustments.find(({ sort }) => sort === "rush")!;
  const { cash } = subjectOf(priced(input), input);
  const all = told(input).join("\n");
  expect(all).toMatch(new RegExp(`Rush charge 30% of ${cash(base!)}[:\n][\\s\\S]*?${cash(amount)}`));
  expect(told(asked).join("\n")).not.toContain("Rush charge");
});

describe("at every level", () => {
  it.each(CAST)("the price, the limits, the terms and the caution are the same: %s", (_, input) => {
    const sheet = priced(input);
    const { cash } = subjectOf(sheet, input);
    for (const detail of DETAILS) {
      const all = told(at(detail, input)).join("\n");
      for (const amount of [sheet.totals.total, sheet.ceiling.amount, sheet.ifDeclined.amount, sheet.deposit.amount])
        expect(all).toContain(cash(amount));
      for (const text of [
        ...input.paperwork!.terms!,
        "This unit may hold dangers inside",
        input.unit.model,
        input.unit.reported!,
      ])
        expect(all).toContain(text);
      expect(all).toContain("Never more than");
      expect(all).toContain(`and never for more than ${cash(sheet.ceiling.amount)}.`);
      expect(all).not.toMatch(/\bceiling of\b/);
    }
  });

  it("an amount has as many digits as the currency", () => {
    for (const detail of DETAILS) expect(told(at(detail, KEYBOARD)).filter((text) => /£[\d,]+\.\d{3}/.test(text))).toEqual([]);
  });
});

it.each([
  [
    "en",
    "Storage, where it is charged: £1.80 a day, tax included. Your rights under local consumer law stand beside these terms.",
  ],
  ["de", "Lagerung, falls berechnet: £1.80 je Tag inkl. Umsatzsteuer. Ihre gesetzlichen Verbraucherrechte"],
])("says what storage costs with the terms, wherever it costs something: %s", (language, said) => {
  // By hand: 1.50 and a fifth.
  const free = { ...KEYBOARD.rateBook, fees: { ...KEYBOARD.rateBook.fees, storagePerDay: 0 } };
  for (const detail of DETAILS) {
    const input = { ...at(detail, KEYBOARD), paperwork: { ...at(detail, KEYBOARD).paperwork, language } };
    expect(told(input).join("\n")).toContain(said);
    const { terms: _, ...paperwork } = input.paperwork;
    expect(told({ ...input, paperwork }).join("\n")).toContain(said);
    expect(told({ ...input, rateBook: free }).join("\n")).not.toMatch(/Storage, where|Lagerung, falls/);
  }
  expect(
    termsTexts({ ...KEYBOARD, rateBook: free, paperwork: {} }, priced(KEYBOARD), subjectOf(priced(KEYBOARD), KEYBOARD).tongue),
  ).toBeUndefined();
});

describe("a shop that charges no tax", () => {
  const untaxed = (input: EstimateInput, name: string, language: string): EstimateInput => ({
    ...input,
    rateBook: {
      ...input.rateBook,
      tax: { ...input.rateBook.tax, categories: input.rateBook.tax.categories.map((each) => ({ ...each, name, percent: 0 })) },
    },
    paperwork: { ...input.paperwork, language },
  });

  it.each([
    ["en", /tax included|no tax|without tax/i],
    ["de", /inkl\. Umsatzsteuer|Ohne Umsatzsteuer/i],
  ])("names none on paper, nor in the words of the answer: %s", (language, said) => {
    for (const detail of DETAILS) {
      const taxed = { ...at(detail, KEYBOARD), paperwork: { ...at(detail, KEYBOARD).paperwork, language } };
      expect(told(taxed).join("\n")).toMatch(said);
      expect(told(untaxed(at(detail, KEYBOARD), "No tax 0 %", language)).join("\n")).not.toMatch(said);
    }
    const input = untaxed(KEYBOARD, "No tax 0 %", language);
    const tongue = { locale: "en-GB", currency: "GBP", ...wordsIn(language) };
    const words = (of: EstimateInput) =>
      (["agreed", "declined"] as const).map((answer) =>
        ownerAnswerText({ answer, input: of, sheet: priced(of), struck: [], begun: true }, tongue),
      );
    for (const text of words(input)) expect(text).not.toMatch(said);
    for (const text of words(KEYBOARD)) expect(text).toMatch(said);
  });

  it("prints why, where it named its category after that", () => {
    const why = "Kleinunternehmer, § 19 UStG";
    for (const detail of DETAILS) expect(told(untaxed(at(detail, KEYBOARD), why, "de"))).toContain(`${why}.`);
  });
});

it("says of each set of options what it never comes to more than", () => {
  const options = priced(KEYBOARD).options.map(({ id }) => id);
  const input = asLetter({
    ...KEYBOARD,
    paperwork: {
      ...KEYBOARD.paperwork,
      packages: [
        { name: "Least", options: [] },
        { name: "Full", options },
      ],
    },
  });
  const { cash } = subjectOf(priced(input), input);
  const sets = packagePrices(input, priced(input));
  const texts = told(input).join("\n");
  for (const { ceiling } of sets) expect(texts).toContain(`never more than ${cash(ceiling)}`);
  for (const { total, ceiling } of sets) expect(ceiling).toBeGreaterThanOrEqual(total);
});
