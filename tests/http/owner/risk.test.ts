/** What the shop reads about a job's risk never reaches its owner: not the page, not what its script is sent, not the PDF. */
import { describe, expect, it } from "vitest";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { ownerSheet } from "../../../src/http/owner/ownerSheet.js";
import { estimates } from "../../../src/records/estimates.js";
import { money } from "../../../src/wording/figures.js";
import { words } from "../support/noScript.js";
import { job } from "../support/shop.js";
import { come, issued, story } from "../support/story.js";

const tongue = { locale: "en-GB", currency: "GBP" };
const SHOP_ONLY = ["4 jobs in 5", "for the shop alone", "P80", "lose money", "loses money", "Expert view", "Shop's copy"];

async function fixed(): Promise<{ input: EstimateInput; sheet: Sheet; withRisk: Sheet }> {
  const demo = await job("string-organ-keyboard");
  const input: EstimateInput = { ...demo, policy: { ...demo.policy, pricing: { is: "fixed price", confidencePercent: 80 } } };
  const [plain, asked] = [estimate(input), estimate(input, { risk: true })];
  if (!plain.ok || !asked.ok) throw new Error("The demo has problems.");
  return { input, sheet: plain.sheet, withRisk: asked.sheet };
}

describe("the risk of a job", () => {
  it("stands on the shop's page of a job at a fixed price, and not on its owner's", async () => {
    const told = await story();
    const form = await told.desk.get(`/estimates/${told.estimateId}?open=all`);
    const saved = await told.desk.press(form, "Save", { "terms.pricing": "fixed price", "terms.confidence": "80" });
    expect(words(saved.html)).toContain("Fixed price that covers 4 jobs in 5.");
    const shops = words((await told.desk.get(told.job)).html);
    for (const text of SHOP_ONLY.filter((text) => text !== "lose money")) expect(shops).toContain(text);
    // P80 itself is the price at 80 in 100.
    const kept = (await estimates.find(told.opened.db, told.estimateId))!;
    const again = estimate(await estimates.inputOf(told.opened.db, kept), { risk: true });
    const { p10, p50, p95, expected, sd } = again.ok ? again.sheet.risk! : expect.unreachable();
    const amounts = [p10, p50, p95, expected, sd].map((amount) => money(amount, tongue));
    for (const amount of amounts) expect(shops).toContain(amount);

    const { seen } = await come(told, await issued(told));
    const owners = words(seen.html);
    expect(owners).toContain("Allowance for work that takes longer");
    expect(owners).toContain("you pay no more if it does");
    // What may be found is within the price, and is said so where it can be left out, too.
    expect(owners).toContain("Only if it proves necessary; the fixed price covers it:");
    expect(owners).not.toContain("not in the total");
    const ticks = seen.html.slice(seen.html.indexOf("the fixed price covers it:"));
    const listed = words(ticks.slice(0, ticks.indexOf("</fieldset>")));
    expect(listed).toContain("covered");
    expect(listed).not.toContain("£");
    for (const text of [...SHOP_ONLY, ...amounts]) expect(seen.html).not.toContain(text);
    expect(seen.html).not.toContain("shop-copy");
  });

  it("is not on the sheet unless it is asked for", async () => {
    const { sheet, withRisk } = await fixed();
    const { risk, ...rest } = withRisk;
    expect(risk?.p80).toBeGreaterThan(0);
    expect(sheet).toEqual(rest);
  });

  it("is left out of what the owner's page is sent and of the owner's PDF, even when a sheet has it", async () => {
    const { input, sheet, withRisk } = await fixed();
    expect(ownerSheet(withRisk, input, tongue)).toEqual(ownerSheet(sheet, input, tongue));
    expect(JSON.stringify(ownerSheet(withRisk, input, tongue))).not.toContain(String(withRisk.risk!.p95));
    const [one, two] = [await estimatePdf(sheet, input), await estimatePdf(withRisk, input)];
    expect(one.bytes).toEqual(two.bytes);
  });
});
