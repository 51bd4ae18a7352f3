/** Boxes with suggestions, by keyboard. The pattern is the combobox with a list of the ARIA Authoring Practices Guide. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
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
  // Enter still goes on as the form has it: to the next line.
  await boxOf(page, "count").fill("2");
  await boxOf(page, "count").press("Enter");
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("next.what");
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

it.each([1280, 700])(
  "cuts no name or reason of a line short at %i pixels; one too long for its box stands whole below it",
  async (width) => {
    const page = await shop.tab();
    await page.setViewportSize({ width, height: 900 });
    await page.goto("/estimates/new");
    const own = "Recone the woofer and centre its voice coil with a spider";
    const long = `${own}, then match both channels by ear and meter`;
    for (const line of [`${own} 120.00`, `${long} 90.00`]) {
      await page.fill('[id="next.what"]', line);
      await page.press('[id="next.what"]', "Enter");
    }
    await page.locator("fieldset.line").first().locator("select").selectOption("if found");
    await page.locator('[name="line.l1.reason"]').fill("the cone rubs when it is pushed, at low notes alone");
    const cut = () =>
      page.evaluate(() =>
        [...document.querySelectorAll<HTMLInputElement>(".line input")]
          .filter((box) => box.scrollWidth > box.clientWidth)
          .map(({ value }) => value),
      );
    await expect.poll(cut).toEqual([long]);
    expect(await page.locator(".line-told", { hasText: long }).count()).toBe(1);
  },
);

describe("a part that the page does not carry", () => {
  const NAME = "Film capacitor of many 987 nF, radial";
  beforeAll(async () => {
    const page = await shop.page({}, "file");
    const rows = Array.from({ length: 400 }, (_, at) => `film,"Film capacitor of many ${at + 600} nF, radial"`);
    const data = { text: ["type,name", ...rows, ""].join("\n"), carryOut: true };
    expect((await page.request.post(`${shop.url}/api/imports/part-kinds`, { data })).status()).toBe(200);
  });

  it("is found while it is typed wherever a part is named, and taken by arrows and Enter", async () => {
    const page = await shop.tab();
    await page.goto("/");
    const job = (await page.locator('a[href^="/jobs/"]').first().getAttribute("href"))!;
    for (const [at, box] of [
      ["/parts/goods-in", "kind"],
      ["/parts/donors/new", "parts.0.kind"],
      [`${job}/extra-fault`, "part"],
      ["/parts/kinds/film-capacitor-of-many-600-nf-radial", "into"],
    ] as const) {
      await page.goto(at);
      expect(await page.locator(`datalist option[value="${NAME}"]`).count(), at).toBe(0);
      const typed = page.locator(`input[name="${box}"]`);
      for (const fold of await page.locator("details").all())
        await fold.evaluate((each: HTMLDetailsElement) => (each.open = true));
      await typed.fill("radial 987 many");
      await page.locator(suggested).first().waitFor();
      expect(await page.locator(suggested).allTextContents(), at).toEqual([NAME]);
      await typed.press("ArrowDown");
      await typed.press("Escape");
      expect([await page.locator(suggested).count(), await typed.inputValue()]).toEqual([0, "radial 987 many"]);
      await typed.press("ArrowDown");
      await typed.press("ArrowDown");
      await typed.press("Enter");
      expect(await typed.inputValue(), at).toBe(NAME);
    }
  });

  it("is taken without a script by its name whatever the case, and the nearest are named where there is none", async () => {
    const page = await shop.tab({ javaScriptEnabled: false });
    await page.goto("/parts/goods-in");
    for (const [name, value] of Object.entries({
      kind: "radial 987 many",
      source: "By post",
      pieces: "2",
      paid: "1",
      packSize: "1",
    }))
      await page.fill(`[name="${name}"]`, value);
    for (const [name, value] of Object.entries({ leadDays: "3", by: "Wilhelmina Stråhle" }))
      await page.fill(`[name="${name}"]`, value);
    await page.getByRole("button", { name: "Book in" }).click();
    await page.getByText(`Part: 'radial 987 many' is not known; choose one of ${NAME},`).last().waitFor();
    await picture(page, "goods-in-nearest");
    await page.fill('[name="kind"]', NAME.toUpperCase());
    await page.getByRole("button", { name: "Book in" }).click();
    await page.getByText(`In: 2 pieces of ${NAME}.`).waitFor();
  });
});
