/** The owner's pages in a browser: small, dark, without script, offline; and the secret that leaves no trace. */
import type { BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { faultsOn, overflowOf } from "./support/faults.js";
import { field, type OpenShop, openShop, picture } from "./support/shop.js";

let shop: OpenShop;
const link = { address: "", code: "" };

beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

const PHONE: BrowserContextOptions = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true };

/** The first job of the demo, issued once for all. */
async function issuedLink(): Promise<typeof link> {
  if (link.address) return link;
  const desk = await shop.page();
  await desk.goto("/");
  await desk.getByRole("link", { name: "J-2026-0001" }).click();
  await desk.getByRole("link", { name: "Issue revision 1" }).click();
  await field(desk, "by").fill("Tamsin Oakhollow");
  await desk.getByRole("button", { name: "Issue revision 1" }).click();
  link.address = await desk.locator("#address").inputValue();
  link.code = (await desk.locator("#code").textContent())!;
  return link;
}

async function come(options: BrowserContextOptions = PHONE): Promise<Page> {
  const { address } = await issuedLink();
  const page = await shop.page(options);
  await page.goto(address);
  await page.waitForURL(/\/o\/estimate$/);
  return page;
}

const total = (page: Page) => page.locator("#total strong").textContent();
const firstOption = (page: Page) => page.locator('input[name="chosen"]').first();

it("leaves the secret neither in the address, nor in the history, nor in a referrer", async () => {
  const { address } = await issuedLink();
  const secret = address.split("#")[1]!;
  const page = await shop.page(PHONE);
  const told: string[] = [];
  page.on("request", (request) => told.push(request.url(), request.headers().referer ?? ""));
  await page.goto(address);
  await page.waitForURL(/\/o\/estimate$/);
  expect(told.join("\n")).not.toContain(secret.split(".")[1]);
  expect(page.url()).toBe(`${shop.url}/o/estimate`);
  await page.goBack();
  expect(page.url()).not.toContain("#");
});

it("says what to do when a link was cut short", async () => {
  const page = await shop.page(PHONE);
  await page.goto(`${(await issuedLink()).address.slice(0, -3)}`);
  await page.getByText("it may have been cut short").waitFor();
  await picture(page, "owner-cut-short");
  expect(await faultsOn(page)).toEqual([]);
});

it("has an address to go back to after each form, and stays where it is without a network", async () => {
  const page = await come();
  await page.getByRole("button", { name: /^Agree to/ }).click();
  await page.getByRole("alert").getByText("Your full name is missing").waitFor();
  expect(new URL(page.url()).pathname).toBe("/o/estimate");
  await field(page, "name").fill("Žofie Kapradinová");
  await page.getByRole("button", { name: /^Agree to/ }).click();
  await page.getByRole("heading", { name: "One last look before you send" }).waitFor();
  await page.goBack();
  await page.getByRole("heading", { name: /^Estimate for your/ }).waitFor();
  await page.goForward();
  await page.getByRole("heading", { name: /^Estimate for your/ }).waitFor();

  await field(page, "name").fill("Žofie Kapradinová");
  await page.context().setOffline(true);
  await page.getByRole("button", { name: /^Decline/ }).click();
  await page.getByText("There is no connection: nothing was sent").waitFor();
  const { top, bottom } = (await page.locator("#not-sent").evaluate((told) => told.getBoundingClientRect().toJSON())) as DOMRect;
  expect(top >= 0 && bottom <= page.viewportSize()!.height, `${top} to ${bottom}`).toBe(true);
  expect(await field(page, "name").inputValue()).toBe("Žofie Kapradinová");
  await page.context().setOffline(false);
  await expect.poll(() => page.locator("#not-sent").count()).toBe(0);
});

describe("the price that follows the ticks", () => {
  it("keeps the focus on the tick, and what was unfolded unfolded", async () => {
    const page = await come();
    const before = await total(page);
    await page.locator("#heading-2 > summary").click();
    await firstOption(page).focus();
    await page.keyboard.press("Space");
    await page.waitForFunction((old) => document.querySelector("#total strong")?.textContent !== old, before);
    expect(await page.evaluate(() => document.activeElement?.getAttribute("name"))).toBe("chosen");
    expect(await page.locator("#heading-2").evaluate((fold) => (fold as HTMLDetailsElement).open)).toBe(true);
    expect(await page.locator("#work-out").isVisible()).toBe(false);
  });

  it("follows a tick taken away from work, and is that of the ticks when the owner comes back to them", async () => {
    const page = await come();
    const before = await total(page);
    const agree = page.getByRole("button", { name: /^Agree to/ });
    await page.locator("#work > summary").click();
    await page.locator('#work input[type="checkbox"]').first().uncheck();
    await page.waitForFunction((old) => document.querySelector("#total strong")?.textContent !== old, before);
    const [after, said] = [await total(page), await agree.textContent()];
    expect(said).toBe(`Agree to part of the work, for ${after}`);
    await field(page, "name").fill("Žofie Kapradinová");
    await agree.click();
    await page.getByRole("heading", { name: "One last look before you send" }).waitFor();
    await page.goBack();
    await page.waitForFunction((price) => document.querySelector("#total strong")?.textContent === price, after);
    expect(await agree.textContent()).toBe(said);
  });

  it("is that of the last ticks, however fast they come", async () => {
    const page = await come();
    const ticks = page.locator('input[name="chosen"]');
    const count = await ticks.count();
    for (let at = 0; at < count; at += 1) await ticks.nth(at).setChecked(true);
    await page.waitForFunction(() => !document.querySelector("[aria-busy]"));
    const shown = await total(page);
    await page.locator("#work-out").evaluate((button) => (button as HTMLButtonElement).click());
    await page.waitForURL(/\/o\/estimate\?revision=1$/);
    expect(await total(page)).toBe(shown);
  });

  it("says so when it cannot be had, and offers the button to try again", async () => {
    const page = await come();
    await page.context().setOffline(true);
    await firstOption(page).click();
    await page.getByText("The price could not be worked out just now.").waitFor();
    expect(await page.locator("#work-out").isVisible()).toBe(true);
    await page.context().setOffline(false);
    const before = await total(page);
    await page.locator("#work-out").click();
    await page.waitForURL(/\/o\/estimate\?revision=1$/);
    expect(await total(page)).not.toBe(before);
  });
});

it("without script takes number and code, works out the price by a button, and checks before it sends", async () => {
  const { code } = await issuedLink();
  const page = await shop.page({ ...PHONE, javaScriptEnabled: false });
  await page.goto("/o");
  await picture(page, "owner-entry");
  await field(page, "number").fill("J-2026-0001");
  await field(page, "code").fill(code.toLowerCase());
  await page.getByRole("button", { name: "Open the estimate" }).click();
  const before = await total(page);
  await firstOption(page).click();
  await page.getByRole("button", { name: "Work out the price" }).last().click();
  expect(await total(page)).not.toBe(before);
  await field(page, "name").fill("Žofie Kapradinová");
  await field(page, "name").press("Enter");
  expect(new URL(page.url()).pathname).toBe("/o/price");
  await page.getByRole("button", { name: /^Agree to/ }).click();
  await page.getByRole("heading", { name: "One last look before you send" }).waitFor();
  await page.getByRole("button", { name: "Go back and change it" }).click();
  expect(await field(page, "name").inputValue()).toBe("Žofie Kapradinová");
});

describe.each(["light", "dark"] as const)("in %s, at 320 pixels", (colorScheme) => {
  const small: BrowserContextOptions = { viewport: { width: 320, height: 640 }, colorScheme };

  it("has no fault that axe-core finds and nothing that scrolls sideways", async () => {
    const page = await come(small);
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
    expect(await faultsOn(page)).toEqual([]);
    expect(await overflowOf(page)).toBe(0);
    await picture(page, `owner-320-${colorScheme}`);
    await field(page, "name").fill("Žofie Kapradinová");
    await page.getByRole("button", { name: /^Decline/ }).click();
    await page.getByRole("heading", { name: "One last look before you send" }).waitFor();
    expect(await faultsOn(page)).toEqual([]);
    expect(await overflowOf(page)).toBe(0);
    await picture(page, `owner-check-320-${colorScheme}`);
  });
});

it("keeps what has the focus clear of the strip at the foot (WCAG 2.2, 2.4.11)", async () => {
  const page = await come({ viewport: { width: 390, height: 700 }, reducedMotion: "reduce" });
  // A page that glides there, or whose typeface comes late, is looked at before it has arrived.
  await page.evaluate(() => document.fonts.ready);
  for (let presses = 0; presses < 40; presses += 1) {
    await page.keyboard.press("Tab");
    const hidden = await page.evaluate(async () => {
      await new Promise(requestAnimationFrame);
      const [on, till] = [document.activeElement!, document.querySelector(".till")!];
      if (till.contains(on)) return "";
      const [box, strip] = [on.getBoundingClientRect(), till.getBoundingClientRect()];
      return box.top >= strip.top && box.bottom <= strip.bottom ? on.outerHTML : "";
    });
    expect(hidden).toBe("");
  }
});

it("is sent one small script: nothing of the engine, the rates or the costs", async () => {
  const page = await shop.page(PHONE);
  const scripts: string[] = [];
  page.on("response", (answer) => {
    if (/javascript/.test(answer.headers()["content-type"] ?? "")) scripts.push(answer.url());
  });
  await page.goto((await issuedLink()).address);
  await page.waitForURL(/\/o\/estimate$/);
  await page.waitForLoadState("networkidle");
  expect(new Set(scripts).size).toBe(1);
  expect((await (await page.request.get(scripts[0]!)).text()).length).toBeLessThan(3100);
  expect(await page.content()).not.toMatch(/rateBook|markUp|typicalCost/);
});

it("prints without the controls, the total in sight", async () => {
  const page = await come();
  await page.emulateMedia({ media: "print" });
  expect(
    await page
      .locator("button, .button, textarea, #name")
      .evaluateAll((all) => all.filter((one) => one.checkVisibility()).length),
  ).toBe(0);
  expect(await page.locator("#total").isVisible()).toBe(true);
});

it("a new link can be copied by its button", async () => {
  await issuedLink();
  const desk = await shop.page({ permissions: ["clipboard-read", "clipboard-write"] });
  await desk.goto("/");
  await desk.getByRole("link", { name: "J-2026-0001" }).click();
  await desk.getByRole("link", { name: "Links to the owner's page" }).click();
  await desk.getByRole("button", { name: "Make a link" }).click();
  await desk.getByRole("button", { name: "Copy" }).click();
  await desk.getByText("Copied.").waitFor();
  expect(await desk.evaluate(() => navigator.clipboard.readText())).toBe(await desk.locator("#address").inputValue());
});

it.each([390, 320])(
  "shows the shop's whole name, and breaks neither its telephone number nor the estimate's, at %i pixels",
  async (width) => {
    const desk = await shop.page();
    await desk.goto("/settings");
    await field(desk, "phone").fill("+44 1632 960 417");
    await desk.getByRole("button", { name: "Save" }).first().click();
    await desk.waitForLoadState("networkidle");
    const page = await come({ ...PHONE, viewport: { width, height: 844 } });
    await page.evaluate(() => document.fonts.ready);
    const cut = await page.locator(".mark").evaluate((mark) => mark.scrollWidth - mark.clientWidth);
    expect(cut).toBeLessThanOrEqual(0);
    const rows = (where: string) =>
      page
        .locator(where)
        .first()
        .evaluate((one) => {
          const range = document.createRange();
          range.selectNodeContents(one);
          return new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size;
        });
    expect(await rows(".reach a[href^='tel:']")).toBe(1);
    await picture(page, `owner-head-${width}`);
    expect(await overflowOf(page)).toBe(0);
    await field(page, "name").fill("Žofie Kapradinová");
    await page.getByRole("button", { name: /^Agree to/ }).click();
    await page.getByRole("heading", { name: "One last look before you send" }).waitFor();
    expect(await rows(".facts .whole")).toBe(1);
    await picture(page, `owner-check-${width}-whole`);
  },
);
