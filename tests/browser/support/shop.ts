/** The app as `npm start` serves it, on a free loopback port over a demo shop of its own, and Debian's Chromium. */
import { copyFile, mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { onTestFinished } from "vitest";
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
  demo: madeOnce((db) => fillOnce(db, "demo", new Date()), migratedFile),
  empty: madeOnce((db) => fillOnce(db, "empty", new Date()), migratedFile),
};

/** One for all files of a run: it ends with the process, each file's windows with their shop. */
let launched: Promise<Browser> | undefined;

export interface OpenShop {
  readonly url: string;
  /** Closed when the test ends, or with the shop: 'file'. */
  readonly page: (options?: BrowserContextOptions, until?: "test" | "file") => Promise<Page>;
  readonly close: () => Promise<void>;
}

export async function openShop(first: FirstShop = "demo"): Promise<OpenShop> {
  await build();
  const { startServer } = await import("../../../src/server.js");
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-browser-"));
  await copyFile((await FIRST[first]()).path, `${folder}/shop.db`);
  const { db, close } = await connectFile(`file:${folder}/shop.db`);
  const server = await startServer({
    ...{ db, host: "127.0.0.1", port: 0, secret: undefined, write: () => {} },
    photos: photoFolder(`${folder}/photos`),
  });
  launched ??= chromium.launch({ executablePath: "/usr/bin/chromium", args: FLAGS });
  const browser = await launched;
  const contexts: BrowserContext[] = [];
  const url = server.url.replace(/\/$/, "");
  return {
    url,
    page: async (options = {}, until = "test") => {
      const context = await browser.newContext({
        baseURL: url,
        locale: "en-GB",
        viewport: { width: 1280, height: 900 },
        ...options,
      });
      contexts.push(context);
      const page = await context.newPage();
      page.setDefaultTimeout(15_000);
      if (until === "test") onTestFinished(() => context.close());
      page.on("pageerror", (error) => {
        throw error;
      });
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

/** Waits until the total is another one, and tells which. */
export async function totalAfter(page: Page, before: string): Promise<string> {
  await page.waitForFunction((old) => document.querySelector("#total-now strong")?.textContent?.trim() !== old, before);
  return totalOn(page);
}

/** A field by its name. */
export const field = (page: Page, name: string) => page.locator(`[name="${name}"]:not([type=hidden])`);

export async function picture(page: Page, name: string): Promise<void> {
  await mkdir(".shots", { recursive: true });
  await page.screenshot({ path: `.shots/${name}.png`, fullPage: true });
}
