/** Pricing by risk in the browser: the price follows the policy while it is typed, and the shop sees why. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { faultsOn, overflowOf } from "./support/faults.js";
import { drawn, field, type OpenShop, openShop, picture, totalAfter, totalOn } from "./support/shop.js";

let shop: OpenShop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

/** The draft does not save itself, so that the next test finds it as it was. */
async function openDraft(page: Page, place: "first" | "last" = "last"): Promise<void> {
  await page.route("**/estimates/*", (route) => (route.request().resourceType() === "fetch" ? route.abort() : route.continue()));
  await page.goto("/");
  await page.locator(".board").first().getByRole("link", { name: /^J-\d/ })[place]().click();
  await page.getByRole("link", { name: "Change the estimate" }).first().click();
  // Terms and counts are folded until they are wanted.
  await page.goto(`${page.url()}?open=all`);
  await page.locator("#risk").waitFor();
}

/** Of the part alone: a picture of so long a page stalls the browser. */
const riskPicture = (page: Page, name: string) => picture(page.locator("#risk"), `risk-${name}`);

const pence = (text: string): number => Number(text.replace(/[^\d]/g, ""));

/** Chooses a fixed price that covers 80 jobs in 100, and waits for its total. */
async function fixThePrice(page: Page): Promise<{ before: string; after: string }> {
  const before = await totalOn(page);
  await field(page, "terms.pricing").selectOption("fixed price");
  return { before, after: await totalAfter(page, before) };
}

describe("a fixed price", () => {
  it("is dearer than what is counted, and says what the difference is for", async () => {
    const page = await shop.tab();
    await openDraft(page, "first");
    expect(await page.locator("#risk .allowances").count()).toBe(0);
    expect(await field(page, "terms.confidence").isVisible()).toBe(false);
    const { before, after } = await fixThePrice(page);
    expect(await field(page, "terms.confidence").inputValue()).toBe("80");
    expect(await field(page, "terms.margin").isVisible()).toBe(false);
    expect(pence(after)).toBeGreaterThan(pence(before));
    await page.locator("#risk").getByText("Fixed price that covers 4 jobs in 5.").waitFor();
    await page.locator("#risk .allowances").getByText("Allowance for work that takes longer").waitFor();

    await field(page, "terms.confidence").fill("95");
    const surer = await totalAfter(page, after);
    expect(pence(surer)).toBeGreaterThan(pence(after));
    await page.locator("#risk").getByText("Fixed price that covers 19 jobs in 20.").waitFor();

    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.waitForURL(/saved/);
    expect(await totalOn(page)).toBe(surer);
    // Script off: the server says the same.
    const plain = await shop.tab({ javaScriptEnabled: false });
    await plain.goto(page.url());
    expect(await totalOn(plain)).toBe(surer);
    expect(await plain.locator("#risk .risk-first").textContent()).toBe(await page.locator("#risk .risk-first").textContent());
  });

  it("says beside the field what is wanting once the form was sent", async () => {
    const page = await shop.tab({ javaScriptEnabled: false });
    await openDraft(page);
    await field(page, "terms.pricing").selectOption("expected cost plus");
    await page.getByRole("button", { name: "Recalculate" }).last().click();
    expect(await page.locator('[id="terms.margin-wrong"]').textContent()).toContain("nothing is given");
    await field(page, "terms.margin").fill("900000");
    await page.getByRole("button", { name: "Recalculate" }).last().click();
    expect(await page.locator('[id="terms.margin-wrong"]').textContent()).toContain("900000");
    expect(await field(page, "terms.confidence").isVisible()).toBe(false);
  });
});

describe("the expert view", () => {
  it.each(["light", "dark"] as const)("draws the curve beside its table, without a fault, in %s", async (colorScheme) => {
    const page = await shop.tab({ colorScheme });
    await openDraft(page);
    await fixThePrice(page);
    await page.locator("#risk-expert > summary").click();
    await page.getByRole("img", { name: "Chance that the job costs no more than an amount" }).waitFor();
    const rows = await page
      .getByRole("table", { name: "Chance that the job costs no more" })
      .locator("tbody th")
      .allTextContents();
    expect(rows.map((row) => row.trim().split(" ")[0])).toEqual(expect.arrayContaining(["P10", "P50", "P80", "Price", "P95"]));
    // The rest of the form is looked at in pages.test.ts.
    expect(await faultsOn(page, colorScheme, "#risk")).toEqual([]);
    await riskPicture(page, colorScheme);
    // Unfolded it stays while a count is typed, and the price's line moves.
    const line = () => page.locator(".curve-price").getAttribute("d");
    const [at, total] = [await line(), await totalOn(page)];
    await field(page, "terms.confidence").fill("60");
    await totalAfter(page, total);
    expect(await page.locator("#risk-expert").evaluate((fold) => (fold as HTMLDetailsElement).open)).toBe(true);
    expect(await line()).not.toBe(at);
  });

  it.each([320, 390])("needs no sideways scrolling at %i pixels", async (width) => {
    const page = await shop.tab({ viewport: { width, height: 844 } });
    await openDraft(page);
    await fixThePrice(page);
    await page.locator("#risk-expert > summary").click();
    expect(await overflowOf(page)).toBe(0);
    await riskPicture(page, String(width));
  });

  it("stands on the job's page too, which is not printed with it, and the shop's copy is one click away", async () => {
    const page = await shop.tab();
    await page.goto("/");
    await page.getByRole("link", { name: "J-2026-0001" }).click();
    await page.locator("#risk-expert > summary").click();
    await riskPicture(page, "job");
    expect(await faultsOn(page)).toEqual([]);
    const href = await page.getByRole("link", { name: "Shop's copy PDF" }).getAttribute("href");
    const head = await page.evaluate(async (address) => (await (await fetch(address)).text()).slice(0, 5), href!);
    expect(head).toBe("%PDF-");
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("#risk").isVisible()).toBe(false);
  });
});

it("follows typing without being felt: a count is priced, risk and all, in a few frames of processor", async () => {
  const page = await shop.tab();
  await openDraft(page);
  await fixThePrice(page);
  // From 81: at the 80 that stands nothing changes, so nothing is redrawn.
  const took = await drawn(page, "terms.confidence", 8, 81);
  console.info(`Typing to sheet with its risk: ${took.join(", ")} ms of processor.`);
  expect([...took].sort((a, b) => a - b)[4]).toBeLessThan(300);
});
