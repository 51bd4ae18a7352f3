/** The bench on a tablet: a timer, ticks and parts, without a network and through a reload, each entry kept exactly once. */
import type { BrowserContextOptions } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { faultsOn, overflowOf } from "./support/faults.js";
import { type OpenShop, openShop, picture } from "./support/shop.js";

const TAPE_ECHO = "01a1e8fd-0b20-7cb5-9019-4936cadd928a";
const TABLET = { viewport: { width: 768, height: 1024 }, hasTouch: true } satisfies BrowserContextOptions;

let shop: OpenShop;

// biome-ignore lint/suspicious/noExplicitAny: a JSON body, read field by field
async function api(method: string, path: string, body?: object, headers: Record<string, string> = {}): Promise<any> {
  const answer = await fetch(shop.url + path, {
    method,
    headers: { "content-type": "application/json", ...headers },
    ...(body && { body: JSON.stringify(body) }),
  });
  expect(answer.ok, `${method} ${path} ${answer.status}`).toBe(true);
  return answer.json();
}

beforeAll(async () => {
  shop = await openShop();
  const { items } = await api("GET", `/api/estimates?job=${TAPE_ECHO}`);
  await api("POST", `/api/estimates/${items[0].id}/issue`, { by: "Wilhelmina" }, { "if-match": '"1"' });
  const spoken = {
    answer: "agreed",
    by: "Ottilie Vantongeren",
    channel: "e-mail",
    writing: "a letter",
    recordedBy: "Wilhelmina",
  };
  await api("POST", `/api/estimates/${items[0].id}/agreements`, { ...spoken, chosen: [] });
});
afterAll(() => shop.close());

it("keeps what is entered without a network through a reload, and sends each entry once and in order", async () => {
  const page = await shop.page(TABLET);
  await page.goto(`/jobs/${TAPE_ECHO}/bench?by=Wilhelmina`);
  const said = page.locator("#queue-said");
  await said.getByText("All sent.").waitFor();
  expect(await overflowOf(page)).toBeLessThanOrEqual(0);
  expect(await faultsOn(page)).toEqual([]);
  await picture(page, "bench-768");
  await page.setViewportSize({ width: 390, height: 844 });
  await page.emulateMedia({ colorScheme: "dark" });
  expect(await overflowOf(page)).toBeLessThanOrEqual(0);
  expect(await faultsOn(page, "dark")).toEqual([]);
  await page.emulateMedia({ colorScheme: "light" });
  await page.setViewportSize(TABLET.viewport);
  // The worker has the page once it can be read back from its cache.
  await page.waitForFunction(async (path) => (await caches.match(path)) !== undefined, `/jobs/${TAPE_ECHO}/bench`);

  const row = page.locator("#work-w01");
  await row.getByRole("button", { name: /^Start/ }).click();
  await page.locator("#stop").getByRole("button", { name: "Pause and log the time" }).waitFor();
  await said.getByText("All sent.").waitFor();
  expect((await api("GET", `/api/jobs/${TAPE_ECHO}/timers`)).items).toMatchObject([{ item: "w01", person: "Wilhelmina" }]);

  await page.context().setOffline(true);
  await row
    .getByRole("button", { name: /^(All|Tick off)/ })
    .last()
    .click();
  await page.locator("#stop").getByRole("button", { name: "Pause and log the time" }).click();
  await page.locator("#code").fill("1");
  await page.locator("#code").press("Enter");
  await page.locator("#minutes-form #minutes").fill("-5");
  await page.getByRole("button", { name: "Log the minutes" }).click();
  await said.getByText("4 waiting.").waitFor();
  const kept = page.locator("#minutes-form + .kept-here");
  expect(await kept.textContent()).toBe("Kept on this device; sent when there is a connection.");
  await page.reload();
  await said.getByText("4 waiting.").waitFor();
  expect(await page.locator("#queue-list li").count()).toBe(4);
  // What waits is what will be sent: all of the count, and minutes as minutes.
  const [tick] = (await page.locator("#queue-list li").allTextContents()).filter((text) => text.startsWith("Done"));
  expect(tick).not.toContain(", 0");
  await page.locator("#queue-list").getByText("-5 min").waitFor();
  await picture(page, "bench-offline");
  const { items: before } = await api("GET", `/api/jobs/${TAPE_ECHO}/work-log`);
  expect(before).toEqual([]);

  await page.context().setOffline(false);
  await said.getByText("1 refused").waitFor();
  await page.locator("#queue-list").getByText("as if it had ended before it began").waitFor();
  await page.locator("#minutes-form + .refused-here").waitFor();
  expect(await kept.count()).toBe(0);
  await picture(page, "bench-refused");
  const { items } = await api("GET", `/api/jobs/${TAPE_ECHO}/work-log`);
  expect(items).toMatchObject([{ item: "w01", startedAt: expect.any(String), endedAt: expect.any(String) }, { partCount: 1 }]);
  expect((await api("GET", `/api/jobs/${TAPE_ECHO}/tick-offs`)).items).toMatchObject([{ item: "w01" }]);

  await page.getByRole("button", { name: "Correct it" }).click();
  await page.locator("#minutes-form #minutes").fill("5");
  await page.getByRole("button", { name: "Log the minutes" }).click();
  await said.getByText("All sent.").waitFor();
  await page.reload();
  await said.getByText("All sent.").waitFor();
  expect((await api("GET", `/api/jobs/${TAPE_ECHO}/work-log`)).items).toHaveLength(3);
  expect((await api("GET", `/api/jobs/${TAPE_ECHO}/timers`)).items).toEqual([]);
});

it("goes on showing what was sent, where the network went before the page could be read again", async () => {
  const page = await shop.page(TABLET);
  const path = `/jobs/${TAPE_ECHO}/bench`;
  await page.goto(`${path}?by=Ines`);
  await page.waitForFunction(async (path) => (await caches.match(path)) !== undefined, path);
  // As the worker has the page it is from before the timer.
  let readAgain = 0;
  await page.context().route(
    (url) => url.pathname === path,
    async (route) => {
      if (route.request().method() !== "GET") return route.continue();
      await route.abort();
      readAgain += 1;
    },
  );
  await page
    .locator("#work-w02")
    .getByRole("button", { name: /^Start/ })
    .click();
  await expect.poll(() => readAgain).toBe(1);
  await page.locator("#queue-said").getByText("All sent.").waitFor();
  await page.waitForTimeout(300);
  await page.locator("#stop").getByRole("button", { name: "Pause and log the time" }).waitFor({ timeout: 5000 });
});

it("logs a double press once, and gives what is wrong as typed back to the form it came from", async () => {
  const page = await shop.page(TABLET);
  await page.goto(`/jobs/${TAPE_ECHO}/bench?by=Wilhelmina`);
  const said = page.locator("#queue-said");
  await said.getByText("All sent.").waitFor();
  const logged = async () => (await api("GET", `/api/jobs/${TAPE_ECHO}/work-log`)).items.length;
  const before = await logged();
  const [minutes, log] = [page.locator("#minutes-form #minutes"), page.getByRole("button", { name: "Log the minutes" })];
  await minutes.fill("6");
  await log.dblclick();
  await expect.poll(logged).toBe(before + 1);
  await said.getByText("All sent.").waitFor();

  await minutes.fill("soon");
  await page.locator("#minutes-form textarea").fill("the long note");
  await log.click();
  await page.locator("#minutes-form + .said-here").getByText("'soon' is not a number").waitFor();
  expect([await minutes.inputValue(), await page.locator("#minutes-form textarea").inputValue()]).toEqual([
    "soon",
    "the long note",
  ]);
  expect(await minutes.evaluate((box) => box === document.activeElement && box.ariaInvalid)).toBe("true");
  expect(await page.locator("#queue-list li").count()).toBe(0);
  await minutes.fill("7");
  await log.click();
  await expect.poll(logged).toBe(before + 2);
  expect(await page.locator(".said-here").count()).toBe(0);
});

it("is read and worked on a telephone, in the dark, without script", async () => {
  const page = await shop.page({
    viewport: { width: 390, height: 844 },
    isMobile: true,
    hasTouch: true,
    colorScheme: "dark",
    javaScriptEnabled: false,
  });
  await page.goto(`/jobs/${TAPE_ECHO}/bench?by=Tamsin`);
  await page.getByRole("button", { name: "Log the minutes" }).click();
  await page.getByRole("link", { name: /There is nothing to log; give minutes/ }).waitFor();
  await picture(page, "bench-390-dark");
});
