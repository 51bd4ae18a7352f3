import { expect, it } from "vitest";
import type { PlannedBuy, RiskSummary } from "../../src/estimating/sheet.js";
import { plannedBuyText, riskText, triedText } from "../../src/wording/risk.js";

const tongue = { locale: "en-GB", currency: "GBP" };
const plain = (text: string) => text.replaceAll("\u00a0", " ");

it("says what most jobs cost before any statistics", () => {
  expect(plain(riskText({ p80: 61_200 }, tongue))).toBe("4 jobs in 5 like this cost you £612.00 or less.");
});

it.each([
  [0.2, 500, "1 job in 5 loses money, and over all such jobs you lose £5.00 each."],
  [0.75, 9000, "3 jobs in 4 lose money, and over all such jobs you lose £90.00 each."],
  [1, 9000, "every job loses money, and over all such jobs you lose £90.00 each."],
])("counts a chance of loss of %d in jobs", (chanceOfLoss, expectedLoss, end) => {
  const by = { is: "fixed price", confidencePercent: 80 } as const;
  const pricing: RiskSummary["pricing"] = { by, deterministic: 60_000, price: 60_000 };
  const tried = { price: 60_000, chanceOfLoss, expectedLoss };
  expect(plain(triedText({ tried, pricing }, tongue))).toBe(`If the owner never pays more than the price of £600.00, ${end}`);
});

it("says of a price as counted what is not charged, before what it would lose if it were held", () => {
  const pricing: RiskSummary["pricing"] = { by: { is: "as counted" }, deterministic: 60_000, price: 60_000 };
  const tried = { price: 60_000, chanceOfLoss: 0.75, expectedLoss: 9000 };
  expect(plain(triedText({ tried, pricing }, tongue))).toBe(
    "Nothing is charged for work that is not found, and what is found is charged on top once it is agreed. If you held the owner to £600.00 whatever is found and however long it takes, 3 jobs in 4 lose money, and over all such jobs you lose £90.00 each.",
  );
});

it("does not speak of losses where there are none", () => {
  const pricing: RiskSummary["pricing"] = {
    by: { is: "time and parts with ceiling", confidencePercent: 95 },
    deterministic: 50_000,
    price: 50_000,
    ceiling: 60_000,
  };
  const tried = { price: 60_000, chanceOfLoss: 0, expectedLoss: 0 };
  expect(plain(triedText({ tried, pricing }, tongue))).toBe("No such job costs you more than the ceiling of £600.00.");
});

const PLAN: PlannedBuy = {
  part: { type: "dip-16", kind: "divider", name: "Divider" },
  needed: 2,
  serviceLevel: 0.9,
  buys: [{ offer: "o1", source: "Marrowgate Surplus", state: "used", packs: 3, pieces: 3, spend: 3600 }],
  freight: 400,
  spend: 4000,
  expectedSpend: 4200,
  probability: 0.784,
  reached: false,
  raisers: [
    { is: "more of an offer", offer: "o1", source: "Marrowgate Surplus", state: "used", pieces: 1 },
    { is: "a lower service level", level: 0.784 },
  ],
  leadDays: 9,
  reorderDays: 9,
};

it.each<[string, PlannedBuy, string]>([
  [
    "reached",
    { ...PLAN, probability: 0.92, reached: true, raisers: [] },
    "Divider: buy 3 from Marrowgate Surplus (used) for £40.00, here in 9 days; 92% sure to hold 2 good pieces.",
  ],
  [
    "not reached",
    PLAN,
    "Divider: buy 3 from Marrowgate Surplus (used) for £40.00, here in 9 days; 78.4% sure to hold 2 good pieces, short of the 90% wanted; to reach it: have 1 more piece from Marrowgate Surplus (used); or settle for 78.4%.",
  ],
  [
    "without an offer",
    { ...PLAN, group: "f", buys: [], raisers: [{ is: "an offer" }] },
    "Divider, if it proves needed: 2 good pieces needed and none offered, so the rate book's margin stands in; to reach 90%: record an offer.",
  ],
])("tells a buy plan that is %s", (_, plan, text) => {
  expect(plain(plannedBuyText(plan, tongue))).toBe(text);
});
