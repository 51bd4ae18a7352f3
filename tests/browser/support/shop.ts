/** The app as `npm start` serves it, on a free loopback port over a demo shop of its own, and Debian's Chromium. */
import { copyFile, mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Locator,
  type Page,
} from "playwright-core";
import { expect, onTestFinished } from "vitest";
import { connectFile } from "../../../src/records/connectFile.js";
import { photoFolder } from "../../../src/records/photoFolder.js";
import { build } from "../../../src/tools/build.js";
import { type FirstShop, fillOnce } from "../../../src/tools/firstShop.js";
import { type MadeOnce, madeOnce, migratedFile } from "../../http/support/madeOnce.js";

const FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const FIRST: Readonly<Record<FirstShop, MadeOnce<unknown>>> = {
  year: madeOnce((db) => fillOnce(db, "year", new Date()), migratedFile),
  demo: madeOnce((db) => fillOnce(db, "demo", new Date()), migratedFile),
  empty: madeOnce((db) => fillOnce(db, "empty", new Date()), migratedFile),
};

/** One for all files of a run: it ends with the process, each file's windows with their shop. */
let launched: Promise<Browser> | undefined;

export interface OpenShop {
  readonly url: string;
  /** Closed when the test ends, or with the shop: 'file'. */
  readonly page: (options?: BrowserContextOptions, until?: "test" | "file") => Promise<Page>;
  /** The same in a browser that has been here before: its cache, and whatever the shop's pages leave behind, are shared with other tests. */
  readonly tab: (options?: BrowserContextOptions) => Promise<Page>;
  readonly close: () => Promise<void>;
}

export async function openShop(first: FirstShop = "demo"): Promise<OpenShop> {
  await build();
  const { startServer } = await import("../../../src/server.js");
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-browser-"));
  await copyFile((await FIRST[first]()).path, `${folder}/shop.db`);
  const { db, close } = await connectFile(`file:${folder}/shop.db`);
  let url = "";
  const server = await startServer({
    ...{ db, host: "127.0.0.1", port: 0, secret: undefined, write: () => {} },
    // Said to be public, so that owners' links are made and lead here.
    origin: () => url,
    photos: photoFolder(`${folder}/photos`),
  });
  url = server.url.replace(/\/$/, "");
  launched ??= chromium.launch({ executablePath: "/usr/bin/chromium", args: FLAGS });
  const browser = await launched;
  const contexts: BrowserContext[] = [];
  const shared = new Map<string, Promise<BrowserContext>>();
  const opened = async (options: BrowserContextOptions) => {
    const viewport = { width: 1280, height: 900 };
    const context = await browser.newContext({ baseURL: url, locale: "en-GB", viewport, ...options });
    contexts.push(context);
    return context;
  };
  const pageIn = async (context: BrowserContext) => {
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    page.on("pageerror", (error) => {
      throw error;
    });
    return page;
  };
  return {
    url,
    page: async (options = {}, until = "test") => {
      const context = await opened(options);
      if (until === "test") onTestFinished(() => context.close());
      return pageIn(context);
    },
    tab: async (options = {}) => {
      const key = JSON.stringify(options);
      if (!shared.has(key)) shared.set(key, opened(options));
      const page = await pageIn((await shared.get(key))!);
      onTestFinished(() => page.close());
      return page;
    },
    close: async () => {
      for (const context of contexts) await context.close();
      await server.stop();
      close();
      await rm(folder, { recursive: true });
    },
  };
}

/** The total in the strip at the foot of the form. */
export const totalOn = async (page: Page): Promise<string> => (await page.locator("#total-now strong").textContent())!.trim();

/** The total once it is that of the form as it is filled in now, by the server's own reckoning. */
export async function settledTotal(page: Page): Promise<string> {
  const { action, data } = await page.evaluate(() => {
    const form = document.querySelector<HTMLFormElement>("#intake")!;
    const body = new URLSearchParams([...new FormData(form)].map(([name, value]) => [name, String(value)]));
    body.set("intent", "recalculate");
    return { action: form.action, data: String(body) };
  });
  const headers = { "content-type": "application/x-www-form-urlencoded", origin: new URL(action).origin, accept: "text/html" };
  const answer = await page.request.post(action, { data, headers });
  const total = /id="total-now".*?<strong>([^<]+)</s.exec(await answer.text())![1]!.trim();
  await page.waitForFunction((wanted) => document.querySelector("#total-now strong")?.textContent?.trim() === wanted, total);
  return total;
}

/** The same, which is another than before. */
export async function totalAfter(page: Page, before: string): Promise<string> {
  const total = await settledTotal(page);
  expect(total).not.toBe(before);
  return total;
}

/** Milliseconds of processor that the page's own thread took meanwhile: what else the machine does is not in it. */
async function processorOf(page: Page, work: () => Promise<unknown>): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const taken = async () => {
    const { metrics } = await session.send("Performance.getMetrics");
    return metrics.find(({ name }) => name === "TaskDuration")!.value * 1000;
  };
  const before = await taken();
  await work();
  return (await taken()) - before;
}

/** Types so many numbers into a box, one after the other; what drawing the sheet again took of the processor each time, in milliseconds. */
export async function drawn(page: Page, box: string, times: number, from = 1): Promise<readonly number[]> {
  const spent: number[] = [];
  for (let count = from; count < from + times; count += 1)
    spent.push(
      await processorOf(page, () =>
        page.evaluate(
          ([name, value]) =>
            new Promise<void>((done) => {
              const watch = new MutationObserver(() => {
                watch.disconnect();
                done();
              });
              watch.observe(document.getElementById("sheet-place")!, { childList: true, subtree: true, characterData: true });
              const typed = document.querySelector<HTMLInputElement>(`[name="${name}"]`)!;
              typed.value = value;
              typed.dispatchEvent(new Event("input", { bubbles: true }));
            }),
          [box, String(count)] as const,
        ),
      ),
    );
  return spent.map(Math.round);
}

/** A field by its name. */
export const field = (page: Page, name: string) => page.locator(`[name="${name}"]:not([type=hidden])`);

/** To be looked at, in `.shots`; only when asked for, since nothing is held against it. */
export async function picture(of: Page | Locator, name: string): Promise<void> {
  if (!process.env.PICTURES) return;
  await mkdir(".shots", { recursive: true });
  const path = `.shots/${name}.png`;
  await ("goto" in of ? of.screenshot({ path, fullPage: true }) : of.screenshot({ path }));
}
