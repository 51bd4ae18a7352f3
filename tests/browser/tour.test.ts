/**
 * Walks the tour, and holds its text to what was done on the way. `npm run tour` writes text and pictures anew; without it only the
 * text is held, since a picture differs from machine to machine.
 */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Guide } from "../tour/guide.js";
import { tourText, wayToPdf } from "../tour/page.js";
import { tour } from "../tour/tour.js";
import { type OpenShop, openShop } from "./support/shop.js";

const FOLDER = "tests/tour";
const WRITING = process.env.npm_lifecycle_event === "tour";
const MOST_BYTES = 1_500_000;

let shop: OpenShop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

const pictures = () => readdirSync(FOLDER).filter((name) => name.endsWith(".png"));

/** The first page of a PDF as poppler draws it, on a page of its own. */
async function paper(page: Page, href: string): Promise<Page> {
  const bytes = await page.evaluate(async (address) => [...new Uint8Array(await (await fetch(address)).arrayBuffer())], href);
  const drawn = execFileSync("pdftoppm", ["-png", "-r", "96", "-l", "1", "-singlefile", "-"], { input: Buffer.from(bytes) });
  const sheet = await shop.page({ viewport: { width: 794, height: 1123 } });
  await sheet.setContent(`<body style="margin:0"><img alt="" src="data:image/png;base64,${drawn.toString("base64")}"></body>`);
  await sheet.waitForFunction(() => document.images[0]!.complete && document.images[0]!.naturalWidth > 700);
  return sheet;
}

it("three clicks lead from the first page to a PDF, as the README says", async () => {
  expect(readFileSync("README.md", "utf8")).toContain("*Models*, *New estimate* beside one of them, *PDF*");
  const page = await shop.page();
  await page.goto("/");
  await page.getByRole("link", { name: "Models", exact: true }).click();
  await page.locator("main").getByRole("link", { name: "New estimate" }).first().click();
  const answered = page.context().waitForEvent("response", (answer) => answer.url().endsWith("/estimates/preview.pdf"));
  await page.getByRole("button", { name: "PDF", exact: true }).click();
  const answer = await answered;
  expect([answer.status(), answer.headers()["content-type"]]).toEqual([200, "application/pdf"]);
});

describe("the tour", () => {
  const guide = new Guide(async (page, file, looksAt) => {
    expect((await page.locator("main, img").first().boundingBox())!.height).toBeGreaterThan(100);
    await (looksAt ?? page.locator("body")).evaluate((element) =>
      element.scrollIntoView({ block: "center", behavior: "instant" }),
    );
    if (!WRITING) return;
    if (!looksAt) await page.evaluate(() => scrollTo({ top: 0, behavior: "instant" }));
    await page.screenshot({ path: `${FOLDER}/${file}` });
  });

  it("goes from intake over PDF, answer, bench and close-out to looking back", async () => {
    if (WRITING) for (const name of pictures()) rmSync(`${FOLDER}/${name}`);
    const desk = await shop.page({ viewport: { width: 900, height: 680 } });
    const phone = await shop.page({ viewport: { width: 390, height: 760 }, isMobile: true, hasTouch: true });
    await tour(guide, { desk, phone, paper });
    if (WRITING) writeFileSync(`${FOLDER}/TOUR.md`, tourText(guide.stops));
  });

  // Our own goal: a new user has a PDF of a demo model within three minutes.
  it("takes someone new less than three minutes from the first page to a PDF", () => {
    const { seconds, clicks } = wayToPdf(guide.stops);
    expect(clicks).toBeGreaterThan(3);
    expect(seconds).toBeLessThan(180);
  });

  it("is told as it was walked, with a picture of each stop", () => {
    expect(readFileSync(`${FOLDER}/TOUR.md`, "utf8")).toBe(tourText(guide.stops));
    const wanted = guide.stops.map(({ name }, index) => `${String(index + 1).padStart(2, "0")}-${name}.png`);
    expect(pictures().sort()).toEqual(wanted);
    expect(wanted.reduce((sum, name) => sum + statSync(`${FOLDER}/${name}`).size, 0)).toBeLessThan(MOST_BYTES);
  });
});
