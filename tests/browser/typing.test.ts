/** Boxes with suggestions, by keyboard. The pattern is the combobox with a list of the ARIA Authoring Practices Guide. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { faultsOn } from "./support/faults.js";
import { type OpenShop, openShop, picture } from "./support/shop.js";

let shop: OpenShop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

const boxOf = (page: Page, leaf: string) => page.locator("fieldset.line").first().locator(`input[name$=".${leaf}"]`);
const suggested = "#suggested:not([hidden]) [role=option]";

it("finds an entry by any words in any order, and takes it by arrows and Enter", async () => {
  const page = await shop.tab();
  await page.goto("/estimates/new");
  await page.getByRole("button", { name: "Add a line", exact: true }).click();
  const box = boxOf(page, "part");
  await box.fill("50 electrolytic 100");
  await page.locator(suggested).first().waitFor();
  const texts = await page.locator(suggested).allTextContents();
  expect(texts.length).toBeLessThanOrEqual(12);
  for (const text of texts) for (const word of ["50", "electrolytic", "100"]) expect(text.toLowerCase()).toContain(word);
  expect(await faultsOn(page)).toEqual([]);
  await picture(page, "typing");
  await box.press("ArrowDown");
  expect(await box.getAttribute("aria-activedescendant")).toBe("suggested-0");
  await box.press("Enter");
  expect(await box.inputValue()).toBe(texts[0]);
  expect(await page.locator(suggested).count()).toBe(0);
  // Enter still goes on as the form has it: another line.
  await boxOf(page, "count").fill("2");
  await boxOf(page, "count").press("Enter");
  await page.locator("fieldset.line").nth(1).waitFor();
});

it("closes on Escape, and suggests nothing for what no entry has", async () => {
  const page = await shop.tab();
  await page.goto("/estimates/new");
  await page.getByRole("button", { name: "Add a line", exact: true }).click();
  const box = boxOf(page, "operation");
  await box.fill("clean");
  await page.locator(suggested).first().waitFor();
  await box.press("Escape");
  expect(await page.locator(suggested).count()).toBe(0);
  expect(await box.inputValue()).toBe("clean");
  await box.fill("clean the memory battery under load");
  expect(await page.locator(suggested).count()).toBe(0);
});
