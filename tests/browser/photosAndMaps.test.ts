/** What needs a browser: photos made smaller before they are sent, and a map redrawn while it is typed. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { png } from "../http/support/pictures.js";
import { faultsOn, overflowOf } from "./support/faults.js";
import { field, type OpenShop, openShop, picture } from "./support/shop.js";

let shop: OpenShop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

it("sends a photo of 3000 by 1000 pixels as a JPEG of 2000 by 667, and puts it into the estimate", async () => {
  const page = await shop.page({ colorScheme: "dark" });
  await page.goto("/");
  await page.locator('a[href^="/jobs/"]').first().click();
  await page.getByRole("link", { name: "Add photos" }).click();
  const file = { name: "front.png", mimeType: "image/png", buffer: Buffer.from(png(3000, 1000)) };
  await page.locator("#photo").setInputFiles(file);
  await page.getByText(/1 ready, \d+ kB in all/).waitFor();
  await page.getByLabel("Caption").fill("Front");
  await page.getByRole("button", { name: "Add photos" }).click();
  const shown = page.getByRole("img", { name: "Front" });
  expect([await shown.getAttribute("width"), await shown.getAttribute("height")]).toEqual(["2000", "667"]);
  await expect.poll(() => shown.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBe(2000);
  await page.getByLabel("In the estimate: Front").check();
  await page.getByRole("button", { name: /Put the ticked photos/ }).click();
  await page.getByText("Kept: the ticked photos").waitFor();
  expect(await faultsOn(page)).toEqual([]);
  await picture(page, "photos");
});

it("redraws a map while it is typed, and scrolls only the drawing at 320 pixels", async () => {
  const page = await shop.page({ viewport: { width: 320, height: 800 } });
  await page.goto("/models");
  await page.getByRole("link", { name: "Brantoft Thornbee 30", exact: true }).click();
  expect(await faultsOn(page)).toEqual([]);
  expect(await overflowOf(page)).toBe(0);
  await page.getByRole("link", { name: "Change the map" }).click();
  await page.locator("#graph").waitFor();
  expect(await overflowOf(page)).toBe(0);
  expect(await page.locator("#graph figcaption").getByText("wait for one another").count()).toBe(0);
  await field(page, "assembly.back-panel.behind").fill("Bias board");
  await page.locator("#graph figcaption").getByText("wait for one another").waitFor();
  expect(await field(page, "assembly.back-panel.behind").evaluate((box) => box === document.activeElement)).toBe(true);
  await page.getByRole("button", { name: "Redraw", exact: true }).last().click();
  await page.locator("#summary").waitFor();
  expect(await faultsOn(page)).toEqual([]);
  await picture(page, "map");
});
