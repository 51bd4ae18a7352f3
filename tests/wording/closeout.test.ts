import { describe, expect, it } from "vitest";
import type { FinalAccount } from "../../src/estimating/closeout/account/finalAccount.js";
import { coverage } from "../../src/estimating/closeout/accuracy/accuracy.js";
import type { Proposal } from "../../src/estimating/closeout/learning/proposal.js";
import type { Standard } from "../../src/estimating/closeout/learning/standard.js";
import type { CloseOut } from "../../src/estimating/closeout/variance/closeOut.js";
import type { RiskWorth } from "../../src/estimating/closeout/variance/riskWorth.js";
import { CLOSE_OUT_CATEGORIES, VARIANCES } from "../../src/estimating/closeout/variance/row.js";
import type { Line } from "../../src/estimating/sheet.js";
import {
  accountBasisText,
  limitText,
  notChargedText,
  oldPartsText,
  partStateText,
  paymentText,
  warrantyText,
} from "../../src/wording/account.js";
import {
  atBookPrices,
  closeOutCategoryName,
  closeOutRowTitle,
  earnedText,
  riskWorthText,
  scopeCauseText,
  varianceName,
  varianceText,
} from "../../src/wording/closeout.js";
import {
  changeText,
  coverageText,
  evidenceText,
  proposalNote,
  standardName,
  takenText,
  withoutText,
} from "../../src/wording/learning.js";

const TONGUE = { locale: "en-GB", currency: "GBP" };
const plain = (text: string | undefined) => text?.replaceAll("\u00a0", " ");
const LINE: Line = {
  id: "x",
  sort: "cleaning",
  taxClass: "labour",
  taxCategory: "a",
  amount: 1,
  from: [],
  operation: { id: "c", name: "Clean jacks" },
};

describe("a variance", () => {
  it.each([
    ["rate", 400, "£4.00 more: the time was worked at dearer rates than allowed."],
    ["efficiency", -9600, "£96.00 less: the work took less time than allowed."],
    ["price", 38, "£0.38 more: the parts were dearer than allowed."],
    ["usage", -154, "£1.54 less: fewer pieces were used than allowed."],
    ["risk", -563, "£5.63 less: what was charged for risk gives way to what was really spent."],
    ["terms", 208, "£2.08 more: billing steps, fees, allowances and charges follow from the rest."],
    ["not agreed", 3000, "£30.00 more: work or parts were not agreed."],
    ["efficiency", 0, "Time: as allowed."],
  ] as const)("of %s by %i", (kind, amount, text) => expect(varianceText(kind, amount, TONGUE)).toBe(text));
  it("has a name of its own for each kind, and each category too", () => {
    expect(new Set(VARIANCES.map(varianceName)).size).toBe(VARIANCES.length);
    expect(new Set(CLOSE_OUT_CATEGORIES.map(closeOutCategoryName)).size).toBe(CLOSE_OUT_CATEGORIES.length);
  });
});

describe("a close-out", () => {
  it("titles its rows as the sheet does", () => {
    expect(closeOutRowTitle({ is: { line: LINE } }, TONGUE)).toBe("Clean jacks");
    const adjustment = {
      id: "d",
      sort: "discount",
      charge: false,
      amount: 5,
      taxCategory: "a",
      taxClass: "labour",
      reason: "returning owner",
      from: [],
    } as const;
    expect(closeOutRowTitle({ is: { adjustment } }, TONGUE)).toBe("Discount: returning owner");
  });
  it.each([
    [{ is: "revision", from: 1, to: 2 }, "Revision 2 instead of revision 1"],
    [{ is: "choice", revision: 1 }, "What the owner chose, or left out, of revision 1"],
    [{ is: "not done" }, "Planned work that was not done"],
    [{ is: "found" }, "Possible work that proved necessary"],
    [{ is: "found and done" }, "Work that was not done, and possible work that proved necessary"],
  ] as const)("says what changed its scope: %j", (cause, text) => expect(scopeCauseText(cause)).toBe(text));
  it.each<[Partial<RiskWorth>, string]>([
    [{ covers: "parts", used: 0 }, "£5.63 was charged for risk; the parts came to what was allowed, so £5.63 of it is left."],
    [
      { covers: "parts", used: -100 },
      "£5.63 was charged for risk; the parts came to £1.00 less than allowed, so £6.63 of it is left.",
    ],
    [
      { covers: "work", used: 863 },
      "£5.63 was charged for risk; the work came to £8.63 more than allowed, so it fell short by £3.00.",
    ],
    [{ covers: "found", used: 500 }, "£5.63 was charged for risk; what was found came to £5.00, so £0.63 of it is left."],
  ])("says what a charge for risk was worth: %j", (given, text) => {
    const used = given.used ?? 0;
    expect(riskWorthText({ line: LINE, charged: 563, covers: "work", used, kept: 563 - used, ...given }, TONGUE)).toBe(text);
  });
});

describe("what a job earned", () => {
  const margin = (revenue: number, labour: number, parts: number, other: number) => ({
    ...{ revenue, labour, parts, other, margin: revenue - labour - parts - other },
  });
  it("is told from the plan by reasons that add up to the difference", () => {
    const text = earnedText(
      {} as CloseOut,
      { margin: margin(81_915, 24_551, 16_372, 0), planned: margin(84_502, 26_379, 16_372, 1978) },
      TONGUE,
    );
    expect(text).toBe(
      "The job earned £409.92, £12.19 more than planned: £25.87 less was billed, hours cost £18.28 less and freight and other costs came to £19.78 less.",
    );
  });
});

describe("a final account", () => {
  const limit = { agreed: 10_848, upTo: 11_933, withTax: true, by: "ceiling" } as const;
  const held = (over: number, above?: FinalAccount["above"]) =>
    limitText({ held: { over, allowances: [] }, limit, ...(above && { above }) }, TONGUE);

  it("says what it rests on", () => {
    expect(accountBasisText({ basis: "fixed price" })).toBe("Fixed price, as agreed");
    expect(accountBasisText({ basis: "time and parts" })).toBe("Time and parts, up to the limit agreed");
    expect(["new", "used", "reconditioned"].map((state) => partStateText(state as "new"))).toEqual([
      "new",
      "used",
      "reconditioned",
    ]);
  });
  it("says what kept it within the limit, or by whose word it passes", () => {
    expect(held(0)).toBeUndefined();
    expect(held(12_067)).toBe("£120.67 above the limit agreed, £119.33, is not charged.");
    expect(held(12_067, { reason: "the owner asked for it", by: "Oskar" })).toBe(
      "The limit agreed, £119.33, is passed by £120.67: the owner asked for it (Oskar).",
    );
    expect(limitText({ held: { over: 5, allowances: [] }, limit: { ...limit, withTax: false } }, TONGUE)).toBe(
      "£0.05 above the limit agreed, £119.33 before tax, is not charged.",
    );
  });
  it("says payments, warranty, old parts and what is not charged", () => {
    expect(paymentText({ on: "2026-11-09", amount: 1, for: "deposit" }, TONGUE)).toBe("Deposit received on 9 November 2026");
    expect(warrantyText({ days: 90, until: "2027-02-23" }, TONGUE)).toBe("Warranty: 90 days, until 23 February 2027.");
    expect(warrantyText({ days: 0, until: "2026-11-25" }, TONGUE)).toBe("No warranty beyond what the law gives.");
    expect(oldPartsText({ is: "returned" })).toBe("The parts that were replaced are returned with the unit.");
    expect(oldPartsText({ is: "kept", why: "exchange part" })).toBe(
      "The parts that were replaced are not returned: exchange part.",
    );
    expect(notChargedText({ notCharged: 0 }, TONGUE)).toBeUndefined();
    expect(notChargedText({ notCharged: 3000 }, TONGUE)).toBe("Work and parts worth £30.00 were not agreed and are not charged.");
  });
});

describe("a proposal", () => {
  const proposal: Proposal = {
    id: "operation:clean",
    standard: { is: "operation", id: "clean", name: "Clean sliders" },
    changes: [],
    observations: 23,
    jobs: 12,
    weight: 0.8519,
  };
  const time = { low: 1.5, likely: 3, high: 70 };

  it("says what would be proposed without the job that moves it most", () => {
    const change = { pointer: "/operations/3/unit", was: time, proposed: { low: 1.7, likely: 3.62, high: 82 } };
    expect(plain(withoutText([change], "en-GB"))).toBe("without it each 3.6 min (1.7 min to 1 h 22 min).");
    expect(withoutText([], "en-GB")).toBe("without it nothing would change.");
  });
  it("says what would change", () => {
    expect(
      plain(changeText({ pointer: "/operations/3/unit", was: time, proposed: { low: 1.7, likely: 3.62, high: 82 } }, "en-GB")),
    ).toBe("each: 3 min (1.5 min to 1 h 10 min) becomes 3.6 min (1.7 min to 1 h 22 min)");
    expect(changeText({ pointer: "/grades/1/labourPercent", was: 110, proposed: 118.4 }, "en-GB")).toBe(
      "all minutes: 110% becomes 118.4%",
    );
    expect(changeText({ pointer: "/scarcity/shareGood/used", was: 0.7, proposed: 0.655 }, "en-GB")).toBe(
      "share good: 70% becomes 65.5%",
    );
    expect(plain(changeText({ pointer: "/leads/desolder", was: time, proposed: time }, "en-GB"))).toMatch(/^desolder: /);
  });
  it("says what it rests on", () => {
    expect(evidenceText(proposal, "en-GB")).toBe("23 pieces of work on 12 jobs; they weigh 85.2% against the rate book.");
    const grade = { is: "grade", id: "worn", name: "Worn" } as const;
    expect(evidenceText({ ...proposal, standard: grade, observations: 1, jobs: 1, weight: 0.2 }, "en-GB")).toBe(
      "1 job; it weighs 20% against the rate book.",
    );
    expect(evidenceText({ ...proposal, standard: { is: "share good", state: "used" }, observations: 15, jobs: 0 }, "en-GB")).toBe(
      "15 pieces tested; they weigh 85.2% against the rate book.",
    );
    expect(proposalNote(proposal)).toBe("23 pieces of work on 12 jobs");
    expect(takenText({ p10: 0.5, p50: 1.204, p80: 1.6, p90: 2 })).toBe(
      "Half of them take 1.2 times the likely time or less, four in five 1.6 times.",
    );
  });
  it.each<[Standard, string]>([
    [{ is: "leads" }, "Soldered leads"],
    [{ is: "part type", id: "valve", name: "Valve" }, "Valve"],
    [{ is: "fastener", kind: "screw" }, "1 screw"],
    [{ is: "access", size: "small", mounting: "behind another" }, "Access, small board behind another"],
    [{ is: "grade", id: "worn", name: "Worn" }, "Condition: Worn"],
    [{ is: "share good", state: "donor pull" }, "Share good: donor pull"],
  ])("names its standard: %j", (standard, text) => expect(standardName(standard)).toBe(text));
});

it("says how many jobs stayed within their P80, and how sure that is", () => {
  expect(coverageText(coverage(15, 20), "en-GB")).toBe(
    "15 of 20 jobs came to no more than the figure that four in five should stay within; the true share lies between 50.9% and 91.3% (95% exact interval).",
  );
});

it("calls figures before tax only where tax comes on top of the prices", () => {
  expect(atBookPrices({ included: true })).toBe("At the rate book's prices, tax included.");
  expect(atBookPrices({ included: false })).toBe("At the rate book's prices, before tax that comes on top.");
});
