/** Every page: no fault that axe-core finds, and no sideways scrolling at 320 pixels (WCAG 2.2, 1.4.10). */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { faultsOn, overflowOf } from "./support/faults.js";
import { field, type OpenShop, openShop, picture } from "./support/shop.js";

let shop: OpenShop;
let empty: OpenShop;
beforeAll(async () => {
  shop = await openShop();
  empty = await openShop("empty");
});
afterAll(async () => {
  await shop.close();
  await empty.close();
});

/** Opens a page of the shop the way a person gets there. */
const PAGES: Readonly<Record<string, (page: Page) => Promise<unknown>>> = {
  jobs: (page) => page.goto("/"),
  intake: (page) => page.goto("/estimates/new"),
  estimate: async (page) => {
    await page.goto("/");
    // The oldest that is open.
    await page.locator(".board").first().getByRole("link", { name: /^J-\d/ }).last().click();
    await page.getByRole("link", { name: "Change the estimate" }).first().click();
    await page.locator("#sheet-place .total").waitFor();
  },
  "estimate unfolded": async (page) => {
    await PAGES.estimate!(page);
    await page.goto(`${page.url()}?open=all`);
    await page.locator("#sheet-place .total").waitFor();
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
  },
  "estimate with problems": async (page) => {
    await page.goto("/estimates/new?open=intake+grid");
    await field(page, "cells.*.p:electrolytic").fill("-3");
    await field(page, "unit.value").fill("dear");
    await page.getByRole("button", { name: "Save the estimate" }).click();
    await page.locator("#summary").waitFor();
    // A row that the foot of the window cuts in two is small to axe; the next turn of the wheel shows it whole.
    await page.locator("table.grid").evaluate((grid) => grid.scrollIntoView({ block: "center", behavior: "instant" }));
  },
  job: async (page) => {
    await page.goto("/");
    await page.getByRole("link", { name: "J-2026-0001" }).click();
  },
  models: (page) => page.goto("/models"),
  model: async (page) => {
    await page.goto("/models");
    await page.getByRole("link", { name: "Quellmarsh Solivane 49", exact: true }).click();
  },
  "rate book": (page) => page.goto("/rate-book"),
  "what another rate does": async (page) => {
    await page.goto("/rate-book");
    await field(page, "labourClasses.0.ratePerHour").fill("60");
    await page.getByRole("button", { name: "See what it does" }).click();
    await page.getByRole("button", { name: "Save version 2" }).waitFor();
  },
  settings: async (page) => {
    await page.goto("/settings");
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
  },
  logo: async (page) => {
    await page.goto("/settings/logo");
    await page.getByRole("button", { name: "Put it on documents" }).click();
    await page.locator("#summary").waitFor();
  },
  help: (page) => page.goto("/help"),
  "a guide": (page) => page.goto("/help/pricing"),
  "what the owner gets": async (page) => {
    await page.goto("/");
    await page.getByRole("link", { name: "J-2026-0001" }).click();
    await page.goto(`${page.url()}/papers`);
    await field(page, "language").selectOption("de");
    await page.getByRole("button", { name: "Save" }).click();
    await page.locator("#names").waitFor();
  },
  "nothing here": (page) => page.goto("/nothing-here"),
};

/** The page as it stands in every way it is met: light, dark, 320 pixels, 200 % of a window of 1280, printed. */
async function everyWay(page: Page, name?: string): Promise<void> {
  const shot = (way: string) => (name ? picture(page, `${name}-${way}`) : undefined);
  await page.emulateMedia({ media: "screen", colorScheme: "light" });
  await page.setViewportSize({ width: 1280, height: 900 });
  expect(await faultsOn(page)).toEqual([]);
  await shot("light");
  await page.emulateMedia({ colorScheme: "dark" });
  expect(await faultsOn(page, "dark")).toEqual([]);
  await shot("dark");
  await page.setViewportSize({ width: 320, height: 720 });
  expect(await overflowOf(page)).toBe(0);
  await shot("320");
  await page.setViewportSize({ width: 640, height: 450 });
  expect(await overflowOf(page)).toBe(0);
  await page.emulateMedia({ media: "print", colorScheme: "light" });
  expect(await overflowOf(page)).toBe(0);
}

/** Those whose pictures are worth looking at. */
const PICTURED = new Set(["intake", "job"]);

it.each(Object.keys(PAGES))("light, dark, narrow, enlarged and on paper: %s", async (name) => {
  const page = await shop.tab();
  await PAGES[name]!(page);
  await everyWay(page, PICTURED.has(name) ? name : undefined);
});

/** One page goes through them all. */
const ADDRESSES = [
  ...[
    "/find?q=echo",
    "/parts",
    "/parts/stock",
    "/parts/stock/bp-10u-35",
    "/parts/kinds",
    "/parts/kinds/new",
    "/parts/kinds/bp-10u-35",
    "/parts/kinds/bp-10u-35/offers",
    "/parts/offers/o34",
    "/parts/offers/o34/confirmation",
    "/parts/donors",
    "/parts/donors/new",
    "/parts/rates",
    "/parts/goods-in",
    "/looking-back",
  ],
  ...[
    "/looking-back/rate-book",
    "/rate-book/operations",
    "/rate-book/part-types",
    "/rate-book/services",
    "/rate-book/services/new",
    "/rate-book/scarcity",
    "/rate-book/operations/new",
    "/rate-book/files",
    "/models/new",
    "/models/import",
    "/settings/sending",
    "/set-up",
    "/problems",
    "/problems/not-found",
  ],
  ...["/data", "/data/owners", "/data/in/offers", "/data/in/part-kinds", "/data/in/parts-list"],
];
const OF_THE_CLOSED_JOB = [
  "bench",
  "parts",
  "close-out",
  "close-out?correct",
  "photos",
  "work-log",
  "answers",
  "links",
  "trail",
  "extra-fault",
];

describe("each other page", () => {
  let page: Page;
  let closedJob: string;
  beforeAll(async () => {
    page = await shop.page({}, "file");
    await page.goto("/?state=closed");
    closedJob = (await page.getByRole("link", { name: "J-2026-0005" }).getAttribute("href"))!;
  });

  it.each([...ADDRESSES, ...OF_THE_CLOSED_JOB.map((part) => `job/${part}`)])(
    "light, dark, narrow, enlarged and on paper: %s",
    async (address) => {
      expect((await page.goto(address.replace(/^job/, closedJob)))!.status()).toBe(200);
      await everyWay(page);
    },
  );
});

/** Thousands of rows of one make: axe-core looks at a few of each, the layout is that of all. */
it("the API reference: nothing scrolls sideways, and axe-core finds nothing", async () => {
  const page = await shop.tab({ viewport: { width: 320, height: 720 } });
  await page.goto("/api");
  expect(await overflowOf(page)).toBe(0);
  await page.evaluate(() => {
    for (const part of document.querySelectorAll("main > section:has(> .operation) ~ section ~ section")) part.remove();
  });
  expect(await page.locator(".operation").count()).toBeGreaterThan(5);
  expect(await faultsOn(page)).toEqual([]);
  expect(await faultsOn(page, "dark")).toEqual([]);
});

it.each(["/", "/models", "/estimates/new"])("axe-core finds nothing on %s of an empty shop", async (path) => {
  const page = await empty.tab();
  await page.goto(path);
  expect(await faultsOn(page)).toEqual([]);
});

it("an empty shop says what to do next", async () => {
  const page = await empty.tab();
  await page.goto("/");
  await page.getByText("Each unit that comes in gets a job here").waitFor();
  await picture(page, "empty-shop");
  await page.getByRole("link", { name: "new estimate", exact: true }).click();
  await page.getByRole("heading", { name: "New estimate" }).waitFor();
});

it("keeps what has the focus clear of the strip at the foot (WCAG 2.2, 2.4.11)", async () => {
  // A page that glides there is looked at before it has arrived.
  const page = await shop.tab({ viewport: { width: 390, height: 700 }, reducedMotion: "reduce" });
  await PAGES.estimate!(page);
  await page.locator("#unit\\.maker").focus();
  for (let presses = 0; presses < 60; presses += 1) {
    await page.keyboard.press("Tab");
    const hidden = await page.evaluate(() => {
      const on = document.activeElement!;
      const till = document.querySelector(".till")!;
      if (till.contains(on)) return "";
      const [box, strip] = [on.getBoundingClientRect(), till.getBoundingClientRect()];
      return box.top >= strip.top && box.bottom <= strip.bottom ? on.id : "";
    });
    expect(hidden).toBe("");
  }
});

it.each([390, 320])(
  "the head and the foot of a page are a row each at %i pixels, and the menu unfolds over the page",
  async (width) => {
    const page = await shop.tab({ viewport: { width, height: 800 } });
    await page.goto("/estimates/new?open=intake+grid");
    await field(page, "cells.*.p:electrolytic").fill("-3");
    await page.locator(".till-open").waitFor();
    const high = (place: string) => page.locator(place).evaluate((one) => one.getBoundingClientRect().height);
    expect(await high(".top")).toBeLessThan(60);
    expect(await high(".till")).toBeLessThan(60);
    const looking = page.getByRole("link", { name: "Looking back" });
    expect(await looking.isVisible()).toBe(false);
    const before = await page.locator("main").evaluate((main) => (main as HTMLElement).offsetTop);
    await page.getByRole("button", { name: "Menu" }).click();
    expect(await page.locator("main").evaluate((main) => (main as HTMLElement).offsetTop)).toBe(before);
    expect(await faultsOn(page)).toEqual([]);
    await looking.click();
    await page.getByRole("heading", { name: "Looking back" }).waitFor();
  },
);

it("is set in the typeface of the papers, which no page waits for and no other scripts come with", async () => {
  const page = await shop.page();
  const asked: string[] = [];
  page.on("request", (request) => asked.push(new URL(request.url()).pathname));
  await page.goto("/models");
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  expect(await page.evaluate(() => document.fonts.check('16px "Ohmwright Text"'))).toBe(true);
  const fonts = asked.filter((path) => path.endsWith(".woff2"));
  expect(fonts.map((path) => path.replace(/-[0-9a-f]{10}\.woff2$/, "")).sort()).toEqual([
    "/assets/text-basic-400",
    "/assets/text-basic-600",
  ]);
  const answer = await page.request.get(fonts[0]!);
  expect([answer.headers()["content-type"], answer.headers()["cache-control"]]).toEqual([
    "font/woff2",
    "public, max-age=31536000, immutable",
  ]);
  expect(await page.evaluate(() => [...document.fonts].every(({ display }) => display === "swap"))).toBe(true);
});

it("prints the sheet without the controls", async () => {
  const page = await shop.tab();
  await PAGES.job!(page);
  await page.emulateMedia({ media: "print" });
  expect(await page.locator("nav, button, .button").evaluateAll((all) => all.filter((one) => one.checkVisibility()).length)).toBe(
    0,
  );
  expect(await page.locator(".total").isVisible()).toBe(true);
});

it("stays within a window of 768 and 900 pixels with long names on the list of jobs and over a job", async () => {
  const page = await shop.page();
  const rename = (at: string, text: string) =>
    page.locator(at).evaluateAll((all, name) => {
      for (const each of all) each.textContent = name;
    }, text);
  await page.goto("/");
  const job = (await page.locator('.board a[href^="/jobs/"]').first().getAttribute("href"))!;
  await rename(".board td:nth-child(2)", "Weatherbourne Electric Stage Piano 73 with stand");
  await rename(".board td:nth-child(3)", "Bartholomew Featherstone-Quillfeather");
  for (const width of [900, 768]) {
    await page.setViewportSize({ width, height: 900 });
    expect(await overflowOf(page), String(width)).toBe(0);
    await picture(page, `jobs-${width}`);
  }
  await page.goto(job);
  await rename("h1 .soft", "Quellmarsh-".repeat(30));
  await page.setViewportSize({ width: 900, height: 900 });
  expect(await overflowOf(page)).toBe(0);
  await rename("h1 .soft", "Quellmarsh".repeat(12));
  expect(await overflowOf(page)).toBe(0);
  await picture(page, "job-long-name");
});
