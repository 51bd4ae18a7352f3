/** Finding a job from the keyboard: results follow what is typed, the arrows go through them, Enter opens one. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { faultsOn, overflowOf } from "./support/faults.js";
import { type OpenShop, openShop } from "./support/shop.js";

let shop: OpenShop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

describe("the find page", () => {
  it("answers as one types, and is gone through and left by keys alone", async () => {
    const page = await shop.page();
    await page.goto("/find");
    await page.keyboard.type("tape");
    await page.locator("ol.found a").first().waitFor();
    await expect.poll(() => page.locator("#found-said").textContent()).toMatch(/found\.$/);
    expect(page.url()).toContain("q=tape");
    await page.keyboard.press("ArrowDown");
    expect(await page.evaluate(() => document.activeElement?.closest("ol.found") !== null)).toBe(true);
    await page.keyboard.press("ArrowUp");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("q");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await page.waitForURL(/\/jobs\//);
  });

  it("answers with the button alone where there is no script, fits 320 px, and has no faults in the dark", async () => {
    const page = await shop.page({ javaScriptEnabled: false, viewport: { width: 320, height: 700 }, colorScheme: "dark" });
    await page.goto("/find");
    await page.getByLabel("Owner, unit, serial, fault or note").fill("tape");
    await page.getByRole("button", { name: "Find" }).click();
    expect(await page.locator("ol.found li").count()).toBeGreaterThan(0);
    expect(await overflowOf(page)).toBe(0);
    const scripted = await shop.page({ colorScheme: "dark" });
    await scripted.goto("/find?q=tape");
    expect(await faultsOn(scripted, "dark")).toEqual([]);
  });
});
