import { describe, expect, it } from "vitest";
import { estimateBlocks } from "../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import type { DocumentField } from "../../src/estimating/law/profile.js";
import { PROFILES } from "../../src/estimating/law/profiles.js";
import { usedParts } from "../../src/estimating/law/unready.js";
import { declinedWithTax } from "../../src/estimating/sheet/terms.js";
import type { Sheet } from "../../src/estimating/sheet.js";
import { LOCAL_LAW, profileNotices } from "../../src/wording/profile.js";
import { KEYBOARD, priced } from "./support/cast.js";
import { textsOf } from "./support/texts.js";

const under = (profile: string): EstimateInput => ({
  ...KEYBOARD,
  unit: { ...KEYBOARD.unit, storedData: "sixteen patch memories" },
  policy: { ...KEYBOARD.policy, profile },
  paperwork: {
    ...KEYBOARD.paperwork,
    shop: { ...KEYBOARD.paperwork!.shop!, registration: "REG-4471 (demo)" },
  },
});
const told = (input: EstimateInput): string[] => textsOf(estimateBlocks(subjectOf(priced(input), input)));

/** What a reader must find on the paper for each field a profile can require. */
const FOUND: Readonly<Record<DocumentField, (input: EstimateInput, sheet: Sheet, cash: (amount: number) => string) => string[]>> =
  {
    "shop name": ({ paperwork }) => [paperwork!.shop!.name],
    "shop address": ({ paperwork }) => [...paperwork!.shop!.address!],
    "shop phone": ({ paperwork }) => [paperwork!.shop!.phone!],
    "shop e-mail": ({ paperwork }) => [paperwork!.shop!.email!],
    "shop registration": () => ["Registered REG-4471 (demo)"],
    "owner name": ({ paperwork }) => [paperwork!.owner!.name],
    "owner address": ({ paperwork }) => [...paperwork!.owner!.address!],
    date: () => ["25 November 2026"],
    "maker and model": ({ unit }) => [`${unit.maker} ${unit.model}`],
    serial: ({ unit }) => [unit.serial!],
    "reported fault": ({ unit }) => [unit.reported!],
    "work described": (_, { lines }) => lines.flatMap(({ operation }) => operation?.name ?? []),
    total: (_, { totals }, cash) => [cash(totals.total)],
    "highest price": (_, { ceiling }, cash) => [`We do not go above ${cash(ceiling.amount)}, tax included`],
    validity: () => ["Good until", "25 December 2026"],
    "days to complete": (_, { days }) => [`About ${days.total} days`],
    "price of diagnosis": (input, { ifDeclined }, cash) => [
      `Diagnosis ${cash(declinedWithTax(ifDeclined, input.rateBook.tax).diagnosis)}`,
    ],
    "price of teardown and reassembly": (input, { ifDeclined }, cash) => [
      `opening and refitting ${cash(declinedWithTax(ifDeclined, input.rateBook.tax).access)}`,
    ],
    "stored data notice": () => ["This unit holds data of yours: sixteen patch memories. Repair may erase it; keep a copy."],
    "used parts notice": (input, sheet) => usedParts(input, sheet).concat("Used or reconditioned parts"),
  };

describe("the notices of an agreement profile", () => {
  it.each(PROFILES.map((profile) => [profile.id, profile] as const))(
    "all stand on the estimate, with every field the profile requires: %s",
    (id, profile) => {
      const input = under(id);
      const sheet = priced(input);
      const { cash, tongue } = subjectOf(sheet, input);
      const texts = told(input);
      const all = texts.join("\n");
      for (const field of profile.requires)
        for (const part of FOUND[field](input, sheet, cash)) expect(all, field).toContain(part);
      for (const notice of profileNotices(profile, input, sheet, tongue)) expect(texts).toContain(notice);
      expect(texts.includes("Notices")).toBe(id !== "plain");
      expect(all.includes(LOCAL_LAW)).toBe(id !== "plain");
    },
  );

  it("say how far the bill may pass the estimate", () => {
    expect(told(under("us-md-pg")).join("\n")).toContain("We do not go more than 10% above this estimate");
    expect(told(under("us-ca")).join("\n")).toContain("We do not go above this estimate");
  });

  it("name the used parts that are planned for", () => {
    const names = usedParts(KEYBOARD, priced(KEYBOARD));
    expect(names.length).toBeGreaterThan(0);
    const notice = told(under("us-md-pg")).find((text) => text.startsWith("Used or reconditioned parts are planned for"))!;
    for (const name of names) expect(notice).toContain(name);
  });
});
