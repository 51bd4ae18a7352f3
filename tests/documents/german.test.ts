/** Estimates in English and German beside each other: what is alike must be the shop's own words or figures, and nothing else may be English. */
import { describe, expect, it } from "vitest";
import { estimateBlocks } from "../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import { accountBlocks } from "../../src/documents/finalAccountPdf.js";
import { quotationXml } from "../../src/documents/quotationXml.js";
import { finalAccount } from "../../src/estimating/closeout/account/finalAccount.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { PROFILES } from "../../src/estimating/law/profiles.js";
import type { Sheet } from "../../src/estimating/sheet.js";
import { done, INPUT, minutes, revisionOf, used } from "../estimating/closeout/done.js";
import { CAST, KEYBOARD, PLAIN_COUNTS, priced } from "./support/cast.js";
import { EARLIER, REVISED } from "./support/revision.js";
import { textsOf } from "./support/texts.js";

const inGerman = (input: EstimateInput, language?: string): EstimateInput => ({
  ...input,
  paperwork: { ...input.paperwork, locale: "de-DE", ...(language && { language }) },
});

/** What the shop and the owner wrote: every text of the input, the longest first. */
function written(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(written) : [];
}
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const own = (...inputs: readonly EstimateInput[]): string[] =>
  [...new Set(inputs.flatMap(written).flatMap((text) => [text, ...text.split("\n")]))]
    .filter((text) => /\p{L}{2}.|\p{L}.\p{L}/u.test(text))
    .flatMap((text) => [text.replace(/[.]+$/, ""), capital(text.replace(/[.]+$/, ""))])
    .sort((a, b) => b.length - a.length);

/** Without what was typed, figures, units and days. */
const oursIn = (text: string, theirs: readonly string[]): string =>
  theirs
    .reduce((left, each) => left.replaceAll(each, " "), text)
    .replaceAll(/\d+\. \p{L}+ \d{4}|\d+\u00a0(min|h)|https?:\S+/gu, " ");

const ENGLISH =
  /\b(the|and|of|is|are|with|not|you|your|to|for|from|this|that|when|if|tax|total|work|parts?|price|each|day|days)\b/i;
/** The language changes no figure, so a job is priced once. */
const blocksOf = (input: EstimateInput, sheet: Sheet, earlier?: typeof EARLIER) =>
  textsOf(estimateBlocks(subjectOf(sheet, input, earlier ? { earlier } : {})));

const SHEET = priced(KEYBOARD);
const FIXED: EstimateInput = {
  ...KEYBOARD,
  policy: {
    ...KEYBOARD.policy,
    pricing: { is: "fixed price", confidencePercent: 80 },
    rush: true,
    storageDays: 3,
    prepaid: 1000,
  },
};
const DOCUMENTS: readonly (readonly [name: string, input: EstimateInput, earlier: typeof EARLIER | undefined])[] = [
  ...CAST.map(([name, input]) => [name, input, undefined] as const),
  ["revision that replaces another", REVISED, EARLIER],
  ["fixed price, in a hurry", FIXED, undefined],
  ...PROFILES.map(({ id: profile }) => {
    const input = { ...PLAIN_COUNTS, policy: { ...PLAIN_COUNTS.policy, profile } };
    return [`plain counts under ${profile}`, input, undefined] as const;
  }),
];

describe("a German estimate", () => {
  it.each(DOCUMENTS)("has no word of ours in English: %s", (_, input, earlier) => {
    const theirs = own(input, ...(earlier ? [earlier.input] : []));
    const sheet = priced(input);
    const [english, german] = [blocksOf(inGerman(input), sheet, earlier), blocksOf(inGerman(input, "de"), sheet, earlier)];
    expect(german).toHaveLength(english.length);
    const left = german.map((text) => oursIn(text, theirs));
    expect(left.filter((text) => ENGLISH.test(text))).toEqual([]);
    const alike = left.filter((text, at) => /\p{L}{2}/u.test(text) && german[at] === english[at]);
    expect(alike.filter((text) => text.trim() !== "Name")).toEqual([]);
  });

  it("finds English where it is left: the check can fail", () => {
    const left = blocksOf(inGerman(KEYBOARD), SHEET).map((text) => oursIn(text, own(KEYBOARD)));
    expect(left.filter((text) => ENGLISH.test(text)).length).toBeGreaterThan(20);
  });

  it("adds up to the same figures as the English one", () => {
    const figures = (language: string) =>
      blocksOf(inGerman(KEYBOARD, language), SHEET)
        .join(" ")
        .match(/\d[\d.]*,\d\d\u00a0£/g)!;
    expect(figures("de").sort()).toEqual(figures("en").sort());
    expect(figures("de").length).toBeGreaterThan(40);
  });

  it("has its days in the words of its language, whatever region its figures follow", () => {
    const untilIn = (language: string, locale: string) => {
      const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, language, locale } };
      return blocksOf(input, SHEET).join("\n");
    };
    expect(untilIn("en", "de-AT")).toContain("It is good until 25 December 2026.");
    expect(untilIn("de", "en-GB")).toContain("Er gilt bis 25. Dezember 2026.");
  });

  it("tells readers its language, with the owner's region", async () => {
    const lang = async (language: string, locale: string) => {
      const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, language, locale } };
      return /\/Lang\(([^)]*)\)/.exec(Buffer.from((await estimatePdf(SHEET, input)).bytes).toString("latin1"))?.[1];
    };
    expect(await lang("de", "de-AT")).toBe("de-AT");
    expect(await lang("de", "en-GB")).toBe("de");
    expect(await lang("en", "de-AT")).toBe("en");
  });

  it("goes with a quotation whose notes say that they are German", () => {
    const input = inGerman(KEYBOARD, "de");
    const xml = quotationXml(SHEET, input);
    // By hand: total 1,023.02, and a tenth above it, half up.
    expect(xml).toContain('<cbc:Note languageID="de">Nie mehr als, inkl. Umsatzsteuer: 1.125,32\u00a0£</cbc:Note>');
    expect(xml).toContain('<cbc:Note languageID="de">Nur bei Bedarf:');
    expect(xml).not.toMatch(/Open and refit|Ceiling/);
  });
});

describe("a German final account", () => {
  it.each(["fixed price", "time and parts", "declined"] as const)("has no word of ours in English: %s", (basis) => {
    const handBack = { to: "Žofie Kapradinová", accessories: ["Mains lead", "rote Decke"], note: "Zugeschraubt wie gebracht." };
    const terms = {
      ...(basis === "declined" && { handBack }),
      basis,
      on: "2026-11-25",
      payments: [{ on: "2026-11-20", amount: 1000, for: "deposit" }],
      warrantyDays: 90,
      oldParts: { is: "kept", why: "Sie wollten sie nicht" },
    } as const;
    const log = {
      time: [minutes("open lid", 10), minutes("clean", 900)],
      parts: [used("caps", 3, 12), used("caps", 2, 15, { state: "reconditioned", part: { own: "Wickel 7" }, insteadOf: true })],
    };
    const result = finalAccount(done(log), terms);
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const { account } = result;
    const sheet = { ...revisionOf(INPUT).sheet, lines: account.lines, adjustments: account.adjustments, totals: account.totals };
    const texts = (language: string) => textsOf(accountBlocks(subjectOf(sheet, inGerman(INPUT, language)), account, language));
    const told = (language: string) => texts(language).map((text) => oursIn(text, [...own(INPUT), ...written(handBack)]));
    if (basis === "declined")
      for (const [language, lead] of [
        ["de", "Netzkabel"],
        ["en", "Mains lead"],
      ] as const)
        expect(texts(language).join(" ")).toContain(`${lead}, rote Decke`);
    expect(told("de").filter((text) => ENGLISH.test(text))).toEqual([]);
    expect(told("en").filter((text) => ENGLISH.test(text)).length).toBeGreaterThan(8);
  });
});
