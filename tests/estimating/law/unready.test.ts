import { describe, expect, it } from "vitest";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { DocumentField } from "../../../src/estimating/law/profile.js";
import { PROFILES, profileOf } from "../../../src/estimating/law/profiles.js";
import { forbiddenCalls, missingFields, unready, usedParts } from "../../../src/estimating/law/unready.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { AMPLIFIER, ECHO, ORGAN, sheetOf } from "../agreement/demo.js";

/** Carries every field there is. */
const full = (profile: string): EstimateInput => ({
  ...ORGAN,
  unit: { ...ORGAN.unit, storedData: "" },
  policy: { ...ORGAN.policy, profile },
  paperwork: {
    ...ORGAN.paperwork,
    shop: { ...ORGAN.paperwork!.shop!, registration: "DEMO-1" },
  },
});

type Part = { -readonly [K in keyof EstimateInput]?: unknown };
const party =
  (side: "shop" | "owner", change: object) =>
  (input: EstimateInput): Part => ({
    paperwork: { ...input.paperwork, [side]: { ...input.paperwork![side], ...change } },
  });
const unit =
  (change: object) =>
  (input: EstimateInput): Part => ({ unit: { ...input.unit, ...change } });

/** How each field is left out; the others are on every sheet. */
const LEAVE_OUT: { readonly [F in DocumentField]?: (input: EstimateInput) => Part } = {
  "shop name": party("shop", { name: " " }),
  "shop address": party("shop", { address: ["", " "] }),
  "shop phone": party("shop", { phone: "" }),
  "shop e-mail": party("shop", { email: undefined }),
  "shop registration": party("shop", { registration: undefined }),
  "owner name": party("owner", { name: "" }),
  "owner address": party("owner", { address: undefined }),
  date: ({ paperwork }) => ({ paperwork: { ...paperwork, date: undefined } }),
  "maker and model": unit({ model: "" }),
  serial: unit({ serial: "" }),
  "reported fault": unit({ reported: undefined }),
  "work described": () => ({ items: [] }),
  "highest price": ({ policy }) => ({ policy: { ...policy, ceiling: 100 } }),
  "stored data notice": unit({ storedData: undefined }),
};

describe.each(PROFILES)("an estimate under '$id'", (profile) => {
  it("may be issued when it carries every field", () => {
    const input = full(profile.id);
    expect(unready(input, sheetOf(input))).toEqual([]);
  });

  it.each(Object.keys(LEAVE_OUT) as DocumentField[])("without %s is named for it if the profile asks for it", (field) => {
    const input = full(profile.id);
    const without = { ...input, ...LEAVE_OUT[field]!(input) } as EstimateInput;
    expect(missingFields(profile, without, sheetOf(without))).toEqual(profile.requires.includes(field) ? [field] : []);
  });

  it("without any paperwork misses all that paper carries", () => {
    const { paperwork: _, ...bare } = full(profile.id);
    const missing = missingFields(profile, bare, sheetOf(bare));
    expect(missing).toEqual(expect.arrayContaining(["shop name", "owner name", "date"]));
  });
});

describe("the stored-data notice", () => {
  it("asks that the owner was asked: 'nothing' is an answer, no answer is not", () => {
    const au = profileOf("au");
    const held = (storedData: string | undefined) => {
      const { storedData: _, ...rest } = ORGAN.unit;
      const input: EstimateInput = { ...full("au"), unit: { ...rest, ...(storedData !== undefined && { storedData }) } };
      return missingFields(au, input, sheetOf(input));
    };
    expect(held(undefined)).toEqual(["stored data notice"]);
    expect(held("")).toEqual([]);
    expect(held("64 patches")).toEqual([]);
  });
});

describe("a word the profile forbids for the amount (16 CCR 2722: not a minimum)", () => {
  const ca = profileOf("us-ca");
  const calls = (term: string) => forbiddenCalls(ca, { ...full("us-ca"), paperwork: { terms: ["First term.", term] } });

  it.each([
    "This estimate is a minimum.",
    "The price above is the MINIMUM amount; the bill may be higher.",
    "Total: minimum 300",
    "We work carefully. The minimum cost is stated above.",
  ])("keeps back: %s", (term) => {
    expect(calls(term)).toMatchObject([{ word: "minimum", pointer: "/paperwork/terms/1" }]);
  });

  it.each([
    "Bench work is charged for one hour at the minimum.",
    "The minimum charge for labour is one hour.",
    "Every price is final.",
    "Minimal cleaning only; the total stands.",
    "Keep the volume at minimum. The total stands.",
  ])("lets pass: %s", (term) => expect(calls(term)).toEqual([]));

  it("is looked for where the shop has agreed nothing about the price yet", () => {
    const { policy: _, ...input } = full("us-ca");
    expect(forbiddenCalls(profileOf("us-ca")!, { ...input, unit: { ...ORGAN.unit, found: "Minimum price." } })).toHaveLength(1);
  });

  it("names the sentence and where it stands, in terms, reasons and findings of the shop, not in the owner's words", () => {
    const input: EstimateInput = {
      ...full("us-ca"),
      unit: { ...ORGAN.unit, found: "Dust. Minimum price to clean.", reported: "I want the minimum price." },
      items: ORGAN.items.map((item, at) => (at === 2 ? { ...item, reason: "the estimate is a minimum here" } : item)),
      policy: { profile: "us-ca", discount: { percent: 1, reason: "off the minimum total" } },
      paperwork: { ...full("us-ca").paperwork, whyChanged: { "w/1": "minimum cost kept" } },
    };
    expect(unready(input, sheetOf(input)).filter(({ is }) => is === "word not allowed")).toEqual([
      { is: "word not allowed", word: "minimum", sentence: "Minimum price to clean.", pointer: "/unit/found" },
      { is: "word not allowed", word: "minimum", sentence: "off the minimum total", pointer: "/policy/discount/reason" },
      { is: "word not allowed", word: "minimum", sentence: "the estimate is a minimum here", pointer: "/items/2/reason" },
      { is: "word not allowed", word: "minimum", sentence: "minimum cost kept", pointer: "/paperwork/whyChanged/w~11" },
    ]);
  });

  it("may be used where the profile does not forbid it", () => {
    const input: EstimateInput = { ...full("uk"), paperwork: { terms: ["This estimate is a minimum."] } };
    expect(forbiddenCalls(profileOf("uk"), input)).toEqual([]);
  });
});

describe("how long an estimate holds", () => {
  const days = (validityDays: number, profile: string, date = "2026-11-25"): [EstimateInput, Sheet] => {
    const input: EstimateInput = {
      ...full(profile),
      rateBook: { ...ORGAN.rateBook, validityDays },
      paperwork: { ...full(profile).paperwork, date },
    };
    return [input, sheetOf(input)];
  };

  it("is the profile's 30 days where the rate book's are fewer, and the rate book's where they are more", () => {
    expect(days(14, "eu-form")[1].validUntil).toBe("2026-12-25");
    expect(days(45, "eu-form")[1].validUntil).toBe("2027-01-09");
    expect(days(14, "plain")[1].validUntil).toBe("2026-12-09");
  });

  it("counts from the day the form is given: prices read five days before it leave 25 days, so it is kept back", () => {
    const [input, sheet] = days(14, "eu-form", "2026-11-30");
    expect(unready(input, sheet)).toEqual([
      { is: "validity too short", until: "2026-12-25", atLeast: "2026-12-30", days: 30, asOfFrom: "2026-11-30" },
    ]);
    const [longer, held] = days(35, "eu-form", "2026-11-30");
    expect(unready(longer, held)).toEqual([]);
  });
});

describe("parts that are not new", () => {
  it("are those priced from used or donor offers, each once", () => {
    const used = (input: EstimateInput) => usedParts(input, sheetOf(input));
    expect(used(ECHO)).toEqual([]);
    const kind = AMPLIFIER.kinds!.find(({ id }) => id === "double-triode")!;
    const offers = AMPLIFIER.offers!.map((offer) => (offer.kind === kind.id ? { ...offer, state: "used" as const } : offer));
    expect(used({ ...AMPLIFIER, offers })).toContain(kind.name);
    expect(used({ ...AMPLIFIER, offers }).filter((name) => name === kind.name)).toHaveLength(1);
  });
});
