import { gzipSync } from "node:zlib";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawn, field, type OpenShop, openShop, picture, settledTotal, totalAfter, totalOn } from "./support/shop.js";

let shop: OpenShop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

const ORGAN = { maker: "Quellmarsh", model: "Solivane 49" };

async function startOrgan(page: Page) {
  await page.goto("/estimates/new?open=intake+grid");
  await field(page, "owner.name").fill("Nerys Quillfeather");
  await field(page, "unit.maker").fill(ORGAN.maker);
  await field(page, "unit.model").fill(ORGAN.model);
  await page.getByRole("button", { name: "Start from this model's map" }).click();
  await page.getByText("The estimate starts from the map").waitFor();
  expect(await page.locator("table.grid tbody tr").count()).toBe(17);
}

/** The estimate on record with who and what unfolded. */
const unfolded = (page: Page, at = page.url()) => page.goto(`${at.split("?")[0]}?open=intake`);

/** The bytes behind a link, fetched by the page itself. */
const bytesOf = (page: Page, href: string) =>
  page.evaluate(async (address) => {
    const answer = await fetch(address);
    return { type: answer.headers.get("content-type"), head: (await answer.text()).slice(0, 5) };
  }, href);

describe("a known model", () => {
  it("reprices while counts are typed, to the total the server computes, and prints", async () => {
    const page = await shop.tab();
    await startOrgan(page);
    const first = await totalOn(page);
    await field(page, "cells.chorus.p:film").fill("12");
    const second = await totalAfter(page, first);
    await field(page, "cells.chorus.p:film").fill("");
    expect(await totalAfter(page, second)).toBe(first);
    await page.locator("#more-columns").click();
    await field(page, "show.o:clean-pots").check();
    await field(page, "cells.*.o:clean-pots").fill("9");
    const live = await totalAfter(page, first);
    await picture(page, "known-model");

    await page.getByRole("button", { name: "Save the estimate" }).click();
    await page.waitForURL(/\/estimates\/[0-9a-f-]+\?saved/);
    expect(await totalOn(page)).toBe(live);
    // Script off: what the server wrote, untouched by the browser.
    const plain = await shop.tab({ javaScriptEnabled: false });
    await plain.goto(page.url());
    expect(await totalOn(plain)).toBe(live);

    const href = await page.getByRole("link", { name: "Estimate PDF" }).getAttribute("href");
    expect(await bytesOf(page, href!)).toEqual({ type: "application/pdf", head: "%PDF-" });
    const bench = await page.getByRole("link", { name: "Bench sheet PDF" }).getAttribute("href");
    expect(await bytesOf(page, bench!)).toEqual({ type: "application/pdf", head: "%PDF-" });
  });

  it("has columns of counts that are all as wide as each other", async () => {
    const page = await shop.tab();
    await startOrgan(page);
    const widths = await page
      .locator("table.grid thead th.upright")
      .evaluateAll((heads) => heads.map((head) => Math.round(head.getBoundingClientRect().width)));
    expect(widths.length).toBeGreaterThan(5);
    expect(Math.max(...widths) - Math.min(...widths)).toBeLessThanOrEqual(4);
  });

  it("moves no focus while typing, and says the total to those who cannot see it", async () => {
    const page = await shop.tab();
    await startOrgan(page);
    const before = await totalOn(page);
    await field(page, "cells.chorus.p:film").click();
    await page.keyboard.type("123");
    await totalAfter(page, before);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("cells.chorus.p:film");
    expect(await page.locator("#total-now").evaluate((output) => output.tagName)).toBe("OUTPUT");
  });

  it.each(["line.l1.operation", "next.what"])("keeps what is typed into %s while a count that was cleared goes", async (into) => {
    const page = await shop.tab();
    await startOrgan(page);
    await page.locator('[id="see-*"]').click();
    await page.getByRole("button", { name: "Add a line", exact: true }).click();
    const count = field(page, "cells.*.p:film");
    await count.fill("3");
    await count.press("Tab");
    const row = page.locator('[data-cell="*.p:film"]');
    await row.waitFor();
    await count.fill("");
    await field(page, into).click();
    await page.keyboard.type("Clean");
    await row.waitFor({ state: "detached" });
    await page.keyboard.type(" it");
    expect(await field(page, into).inputValue()).toBe("Clean it");
  });

  it("opens in a new window the PDF of what is not saved yet", async () => {
    const page = await shop.tab();
    await startOrgan(page);
    const answered = page.context().waitForEvent("response", (answer) => answer.url().endsWith("/estimates/preview.pdf"));
    await page.getByRole("button", { name: "PDF", exact: true }).click();
    const answer = await answered;
    expect([answer.status(), answer.headers()["content-type"]]).toEqual([200, "application/pdf"]);
  });

  it("keeps unfolded what was unfolded while the sheet is drawn again", async () => {
    const page = await shop.tab();
    await startOrgan(page);
    await page.locator("#group-access > summary").click();
    const before = await totalOn(page);
    await field(page, "cells.chorus.p:film").fill("5");
    await totalAfter(page, before);
    expect(await page.locator("#group-access").evaluate((fold) => (fold as HTMLDetailsElement).open)).toBe(true);
  });
});

describe("own words on a line", () => {
  it("unfold the rest of the line, reprice while they are typed, and are on the lists once they are kept", async () => {
    const page = await shop.tab();
    await startOrgan(page);
    await page.getByRole("button", { name: "Add a line", exact: true }).click();
    await field(page, "line.l1.operation").fill("Age the valves overnight");
    await page.keyboard.press("Tab");
    await page.locator("#more-l1").waitFor();
    const before = await totalOn(page);
    await field(page, "line.l1.price").fill("35");
    await field(page, "line.l1.likely").fill("20");
    await totalAfter(page, before);
    await field(page, "line.l1.keep").check();
    const live = await settledTotal(page);
    await picture(page, "own-words");
    await page.getByRole("button", { name: "Save the estimate" }).click();
    await page.getByText("Kept for next time: Age the valves overnight.").waitFor();
    expect(await totalOn(page)).toBe(live);
    await page.getByRole("button", { name: "Whole unit" }).click();
    // What is half written saves itself, and is put on no list by that.
    await page.getByRole("button", { name: "Add a line", exact: true }).click();
    await field(page, "line.l2.operation").fill("Age the val");
    await page.keyboard.press("Tab");
    await field(page, "line.l2.price").fill("35");
    await field(page, "line.l2.likely").fill("20");
    await field(page, "line.l2.keep").check();
    await page.locator("#saved-at", { hasText: /^Saved/ }).waitFor();
    await page.goto("/rate-book/services");
    await page.getByText("Age the valves overnight").first().waitFor();
    expect(await page.content()).not.toMatch(/Age the val(?!ves)/);
  });
});

describe("prices entered in another tab", () => {
  it.each(["coming back to it", "Recalculate"])("are seen by the open form, unsaved, by %s", async (by) => {
    const page = await shop.tab();
    await startOrgan(page);
    const send = (path: string, data: object) => page.request.post(`${shop.url}${path}`, { data, headers: { origin: shop.url } });
    const name = `Vibrato lamp pair ${by.length}`;
    const { id: kind } = await (await send("/api/part-kinds", { type: "film", name })).json();
    await page.reload();
    await startOrgan(page);
    await page.locator('[id="next.what"]').fill(`2 ${name}`);
    await page.keyboard.press("Enter");
    await page.getByText(name).first().waitFor();
    const before = await settledTotal(page);
    const currency = by === "Recalculate" ? "USD" : "NOK";
    const on = "2026-11-20";
    expect((await send("/api/exchange-rates", { currency, rate: "0.8", on, source: "the shop's bank" })).status()).toBe(201);
    const offer = { kind, source: "Farshore", on, currency, price: 40_000, packSize: 1, leadDays: 9, state: "new" };
    expect((await send("/api/offers", offer)).status()).toBe(201);
    await page.evaluate((how) => {
      if (how !== "Recalculate") window.dispatchEvent(new Event("focus"));
      else document.querySelector<HTMLButtonElement>("#intake [name=intent][value=recalculate]")!.click();
    }, by);
    expect(await settledTotal(page)).not.toBe(before);
    expect(await page.getByText("no exchange rate").count()).toBe(0);
  });
});

describe("script off", () => {
  it("recalculates, adds and removes rows and saves by buttons, and loses nothing typed", async () => {
    const page = await shop.tab({ javaScriptEnabled: false });
    await startOrgan(page);
    const first = await totalOn(page);
    await field(page, "cells.chorus.p:film").fill("12");
    await field(page, "unit.reported").fill('Hum,\n"motor-boating" & <crackle>');
    await page.getByRole("button", { name: "Recalculate" }).last().click();
    const second = await totalOn(page);
    expect(second).not.toBe(first);
    expect(await field(page, "unit.reported").inputValue()).toBe('Hum,\n"motor-boating" & <crackle>');

    await page.getByRole("button", { name: "Add a line", exact: true }).click();
    await field(page, "line.l1.part").fill("Jack");
    await field(page, "line.l1.count").fill("3");
    await page.getByRole("button", { name: "Repeat line 1" }).click();
    expect(await field(page, "line.l2.part").inputValue()).toBe("Jack");
    const withTwo = await totalOn(page);
    await page.getByRole("button", { name: "Remove line 2" }).click();
    expect(await totalOn(page)).not.toBe(withTwo);
    await page.getByRole("button", { name: "Put it back" }).click();
    expect(await totalOn(page)).toBe(withTwo);

    await page.getByRole("button", { name: "Save the estimate" }).click();
    expect(page.url()).toMatch(/\?saved/);
    expect(await totalOn(page)).toBe(withTwo);
  });

  it("presses a harmless button when Enter is pressed in a field", async () => {
    const page = await shop.tab({ javaScriptEnabled: false });
    await startOrgan(page);
    await field(page, "unit.serial").fill("S-77");
    await field(page, "unit.serial").press("Enter");
    await page.waitForLoadState();
    expect(new URL(page.url()).pathname).toBe("/estimates/new");
    expect(await field(page, "unit.serial").inputValue()).toBe("S-77");
  });
});

describe("an unknown model", () => {
  it("is sketched in the page and kept for next time", async () => {
    const page = await shop.tab();
    await page.goto("/estimates/new?open=intake+grid+map");
    await field(page, "owner.name").fill("Nerys Quillfeather");
    await field(page, "unit.maker").fill("Threnwick");
    await field(page, "unit.model").fill("Cadence 3");
    await field(page, "assembly.a1.name").fill("Top cover");
    await field(page, "assembly.a2.name").fill("Tone board");
    await page.keyboard.press("Tab");
    await page.getByRole("button", { name: "Top cover", exact: true }).click();
    await page.getByRole("button", { name: "How it is reached" }).click();
    await field(page, "fasteners.a1.screw").fill("8");
    await page.locator("#see-a2").click();
    await field(page, "assembly.a2.behind").fill("Top cover");
    await field(page, "cells.a2.p:electrolytic").fill("11");
    await page.getByLabel(/Keep this map for the next/).check();
    await page.getByText("Opening and refitting").first().waitFor();
    await page.getByRole("button", { name: "Save the estimate" }).click();
    await page.waitForURL(/\?saved/);

    await page.goto("/models");
    await page.getByRole("link", { name: "Threnwick Cadence 3", exact: true }).click();
    await page.getByRole("cell", { name: "8 screws" }).waitFor();
    await page.getByRole("link", { name: "New estimate from this map" }).click();
    expect(await field(page, "cells.a2.p:electrolytic").inputValue()).toBe("11");
    await page.locator("#see-a2").click();
    await page.getByRole("button", { name: "How it is reached" }).click();
    expect(await field(page, "assembly.a2.behind").inputValue()).toBe("Top cover");
  });
});

describe("no map and no time", () => {
  it("prices plain counts by standard, says so, and refines them without a cent of difference", async () => {
    const page = await shop.tab();
    await page.goto("/estimates/new");
    await page.getByRole("button", { name: /^Boards by size/ }).click();
    await field(page, "boards.medium.on%20top").fill("2");
    await field(page, "boards.large.behind%20another").fill("1");
    await field(page, "cells.*.p:electrolytic").fill("30");
    await page.getByText("Access is by the rate book's standards").waitFor();
    const counted = await totalAfter(page, "£0.00");
    await page.getByRole("button", { name: "Refine into named boards" }).click();
    expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toBe("Board 1");
    expect(await settledTotal(page)).toBe(counted);
    expect(await field(page, "cells.*.p:electrolytic").inputValue()).toBe("30");
    await picture(page, "refined");
  });
});

describe("usual companions", () => {
  it.each([true, false])(
    "are one tap away beside the sheet, and gone once they are there (script %s)",
    async (javaScriptEnabled) => {
      const page = await shop.tab({ javaScriptEnabled });
      await page.goto("/estimates/new");
      await page.getByRole("button", { name: "Add a line", exact: true }).click();
      await field(page, "line.l1.part").fill("Memory cell with tags");
      if (!javaScriptEnabled) await page.getByRole("button", { name: "Recalculate" }).last().click();
      const offers = page.locator(".companions button");
      await offers.first().waitFor();
      await picture(page.locator(".companions"), `companions-${javaScriptEnabled}`);
      // A unit counts as mains powered until someone says otherwise.
      expect(await offers.allTextContents()).toEqual([
        "Add: Safety test: earth bond, insulation, leakage",
        "Add: Test every function",
        "Add: Save and restore the memory",
        "Add: Measure the memory battery under load",
      ]);
      await page.getByRole("button", { name: "Add: Save and restore the memory" }).click();
      await field(page, "line.l2.operation").waitFor();
      expect(await field(page, "line.l2.operation").inputValue()).toBe("Save and restore the memory");
      expect(await offers.allTextContents()).toEqual([
        "Add: Safety test: earth bond, insulation, leakage",
        "Add: Test every function",
        "Add: Measure the memory battery under load",
      ]);
    },
  );
});

describe("what cannot be right", () => {
  const NOTE = "Crackles when warm. ".repeat(500);
  const NAMES = [
    "<script>alert(1)</script>",
    '=HYPERLINK("http://x","y")',
    "Ярослав Подсолнухин",
    "Ελένη Μελισσά",
    "🎹 Dee",
    "מרים כלנית",
  ];

  it.each([true, false])("is named beside its field and stays as typed (script %s)", async (javaScriptEnabled) => {
    const page = await shop.tab({ javaScriptEnabled });
    await page.goto("/estimates/new?open=intake+grid");
    const typed: Readonly<Record<string, string>> = {
      "owner.name": "Nerys",
      "unit.maker": "Threnwick",
      "unit.model": "Cadence 9",
      "unit.value": "a lot",
      "unit.reported": NOTE,
      "assembly.a1.name": "Tone board",
      "cells.a1.p:electrolytic": "-2",
      "cells.a1.p:film": "2.5",
      "cells.a1.p:tantalum": "99999999999",
      "cells.*.p:resistor": "many",
    };
    for (const [name, text] of Object.entries(typed)) await field(page, name).fill(text);
    await page.getByRole("button", { name: "Save the estimate" }).click();
    await page.getByRole("heading", { name: "Something is missing or cannot be right" }).waitFor();
    expect(await page.title()).toBe("Error: New estimate – Ohmwright");
    expect(new URL(page.url()).pathname).toBe("/estimates/new");
    for (const [name, text] of Object.entries(typed)) expect(await field(page, name).inputValue(), name).toBe(text);

    for (const [name, words] of [
      ["unit.value", "'a lot' is not a number"],
      ["cells.a1.p:electrolytic", "the count is -2"],
      ["cells.a1.p:film", "the count is 2.5"],
      ["cells.a1.p:tantalum", "above the limit of 10000"],
      ["cells.*.p:resistor", "'many' is not a number"],
    ] as const) {
      const box = field(page, name);
      expect(await box.getAttribute("aria-invalid")).toBe("true");
      const told = (await box.getAttribute("aria-describedby"))!.split(" ").at(-1)!;
      expect(await page.locator(`[id="${told}"]`).textContent()).toContain(words);
      const link = page.locator("#summary a", { hasText: words });
      await link.click();
      await expect.poll(() => page.evaluate(() => document.activeElement?.id || location.hash.slice(1))).toBe(name);
    }
    await picture(page, `wrong-${javaScriptEnabled ? "script" : "no-script"}`);
    if (!javaScriptEnabled) return;
    for (const name of Object.keys(typed)) await field(page, name).fill("");
    await expect.poll(() => page.title()).toBe("New estimate – Ohmwright");
  });

  it.each(NAMES)("takes %s as a name, everywhere as text", async (name) => {
    const page = await shop.tab();
    page.on("dialog", () => {
      throw new Error("A name ran as a script.");
    });
    await page.goto("/estimates/new?open=intake+grid");
    await field(page, "owner.name").fill(name);
    await field(page, "unit.maker").fill(name);
    await field(page, "unit.model").fill("Cadence 3");
    await field(page, "unit.reported").fill(NOTE);
    await field(page, "assembly.a1.name").fill(name);
    await field(page, "cells.a1.p:electrolytic").fill("1");
    await page.getByText("Opening and refitting").first().waitFor();
    await page.getByRole("button", { name: "Save the estimate" }).click();
    await page.waitForURL(/\?saved/);
    expect(await field(page, "owner.name").inputValue()).toBe(name);
    expect(await field(page, "assembly.a1.name").inputValue()).toBe(name);
    expect(await field(page, "unit.reported").inputValue()).toBe(NOTE.trim());
    const href = await page.getByRole("link", { name: "Estimate PDF" }).getAttribute("href");
    expect((await bytesOf(page, href!)).head).toBe("%PDF-");
    await page.getByRole("link", { name: "The job" }).click();
    await page.getByText(name).first().waitFor();
  });
});

describe("the keyboard alone", () => {
  it("enters, repeats and removes lines, goes down the grid, and saves", async () => {
    const page = await shop.tab();
    await page.goto("/estimates/new");
    const tabTo = async (id: string) => {
      for (let presses = 0; presses < 400; presses += 1) {
        if ((await page.evaluate(() => document.activeElement?.id)) === id) return;
        await page.keyboard.press("Tab");
      }
      throw new Error(`Tab never reaches ${id}.`);
    };
    const now = () => page.evaluate(() => document.activeElement?.id);
    await tabTo("unit.maker");
    await page.keyboard.type("Threnwick");
    await page.keyboard.press("Tab");
    await page.keyboard.type("Cadence 7");
    await tabTo("assembly.a1.name");
    await page.keyboard.type("Cover");
    await page.keyboard.press("Enter");
    expect(await now()).toBe("assembly.a2.name");
    await page.keyboard.type("Tone board");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    expect(await now()).toBe("assembly.a4.name");
    await page.keyboard.type("Fourth");
    await tabTo("cells.a4.p:electrolytic");
    await page.keyboard.type("4");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    expect(await now()).toBe("cells.a2.p:electrolytic");
    await page.keyboard.type("7");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    expect(await now()).toBe("cells.a4.p:electrolytic");
    await page.keyboard.press("ArrowDown");
    expect(await now()).toBe("cells.*.p:electrolytic");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("Enter");
    expect(await now()).toBe("assembly.a5.name");

    const press = async (name: string) => {
      for (let presses = 0; presses < 400; presses += 1) {
        const at = await page.evaluate(() => {
          const on = document.activeElement;
          return on?.getAttribute("aria-label") ?? on?.textContent?.trim() ?? "";
        });
        if (at === name) return page.keyboard.press("Enter");
        await page.keyboard.press("Tab");
      }
      throw new Error(`Tab never reaches '${name}'.`);
    };
    await tabTo("next.what");
    await page.keyboard.type("Test every function");
    await page.keyboard.press("Enter");
    expect(await now()).toBe("next.what");
    await page.keyboard.press("ArrowUp");
    expect(await now()).toBe("line.l1.count");
    await press("Repeat line 1");
    expect(await now()).toBe("line.l2.count");
    await page.keyboard.press("Alt+ArrowUp");
    expect(await page.locator(".line").evaluateAll((lines) => lines.map((line) => (line as HTMLElement).dataset.line))).toEqual([
      "l2",
      "l1",
    ]);
    expect(await now()).toBe("line.l2.count");
    await page.keyboard.press("Control+Delete");
    expect(await now()).toBe("put-back");
    expect(await field(page, "line.l2.count").count()).toBe(0);
    await press("Owner, complaint and condition nothing yet; wanted before it is issued");
    expect(await now()).toBe("owner.id");
    await tabTo("owner.name");
    await page.keyboard.type("Nerys Quillfeather");
    await page.keyboard.press("Control+Enter");
    await page.waitForURL(/\?saved/);
    expect(await field(page, "cells.a2.p:electrolytic").inputValue()).toBe("7");
    expect(await field(page, "line.l1.operation").inputValue()).toBe("Test every function");
  });
});

describe("what a crash leaves behind", () => {
  it("is offered again in the same browser, goes on as it stood, and is forgotten once it is on record", async () => {
    const context = (await shop.page()).context();
    const typed = await context.newPage();
    await typed.goto("/estimates/new");
    await field(typed, "unit.maker").fill("Threnwick");
    await field(typed, "unit.model").fill("Cadence 12");
    await field(typed, "cells.*.p:film").fill("7");
    const total = await settledTotal(typed);
    await typed.waitForFunction(() => localStorage.getItem("ohmwright typed /estimates/new")?.includes("Cadence 12"));
    await typed.close();
    const again = await context.newPage();
    await again.goto("/estimates/new");
    await again.getByText(/^Typed here on/).waitFor();
    await again.getByRole("button", { name: "Go on with it" }).click();
    expect(await field(again, "cells.*.p:film").inputValue()).toBe("7");
    expect(await settledTotal(again)).toBe(total);
    await again.getByRole("button", { name: /^Owner, complaint/ }).click();
    await field(again, "owner.name").fill("Orla Thistlewick");
    await again.getByRole("button", { name: "Save the estimate" }).click();
    await again.waitForURL(/\?saved/);
    await again.goto("/estimates/new");
    await again.locator("html.scripted").waitFor();
    expect(await again.getByText(/^Typed here on/).count()).toBe(0);
  });
});

describe("a serial number", () => {
  it.each([true, false])("that was here before says so and leads to its jobs (script %s)", async (javaScriptEnabled) => {
    const page = await shop.tab({ javaScriptEnabled });
    await page.goto("/estimates/new?open=intake");
    await field(page, "unit.serial").fill("s49-02117");
    if (javaScriptEnabled) await page.keyboard.press("Tab");
    else await page.getByRole("button", { name: "Recalculate" }).last().click();
    await page.getByText("This serial number was here before:").waitFor();
    await page.getByRole("link", { name: /^J-2026-0001, Quellmarsh Solivane 49/ }).waitFor();
  });
});

describe("two people at one estimate", () => {
  it("shows the second both versions and keeps what was typed", async () => {
    const [one, two] = [await shop.tab(), await shop.tab()];
    await startOrgan(one);
    await one.getByRole("button", { name: "Save the estimate" }).click();
    await one.waitForURL(/\?saved/);
    for (const page of [one, two]) await unfolded(page, one.url());
    await field(one, "unit.serial").fill("FIRST-1");
    await one.getByRole("button", { name: "Save", exact: true }).click();
    await one.getByText("Saved.", { exact: true }).waitFor();
    await field(two, "unit.serial").fill("SECOND-2");
    await two.getByRole("button", { name: "Save", exact: true }).click();
    await two.getByRole("heading", { name: "Someone else saved this estimate first" }).waitFor();
    const row = two.getByRole("row", { name: /Serial number/ });
    expect(await row.textContent()).toMatch(/SECOND-2\s*FIRST-1/);
    expect(await field(two, "unit.serial").inputValue()).toBe("SECOND-2");
    await picture(two, "conflict");
  });
});

describe("a draft on record", () => {
  /** Its clock is set forward in place of waiting. */
  const clocked = async () => {
    const page = await shop.page();
    await page.clock.install();
    return page;
  };
  const pause = (page: Page) => page.clock.fastForward(5000);
  const savedOrgan = async () => {
    const page = await clocked();
    await startOrgan(page);
    await page.getByRole("button", { name: "Save the estimate" }).click();
    await page.waitForURL(/\?saved/);
    await unfolded(page);
    return page;
  };

  it("saves itself when typing pauses, and makes no second owner of a new one", async () => {
    const page = await savedOrgan();
    await field(page, "unit.serial").fill("AUTO-1");
    await field(page, "owner.id").selectOption("");
    await field(page, "owner.name").fill("Morwenna Ashgrove");
    await pause(page);
    await page.getByText(/^Saved \d/).waitFor();
    const owner = await field(page, "owner.id").inputValue();
    expect(owner).not.toBe("");
    await field(page, "owner.phone").fill("01632 960555");
    await pause(page);
    await page.waitForFunction((at) => document.querySelector<HTMLInputElement>('[name="meta.version"]')!.value !== at, "2");
    expect(await field(page, "owner.id").inputValue()).toBe(owner);
    const plain = await shop.tab({ javaScriptEnabled: false });
    await unfolded(plain, page.url());
    expect(await field(plain, "unit.serial").inputValue()).toBe("AUTO-1");
    expect(await field(plain, "owner.phone").inputValue()).toBe("01632 960555");
    expect(await plain.locator("option", { hasText: "Morwenna Ashgrove" }).count()).toBe(1);
  });

  it("does not save itself over what someone else saved, and says so", async () => {
    const one = await savedOrgan();
    const two = await clocked();
    await two.goto(one.url());
    await field(one, "unit.serial").fill("FIRST-1");
    await one.getByRole("button", { name: "Save", exact: true }).click();
    await one.getByText("Saved.", { exact: true }).waitFor();
    await field(two, "unit.serial").fill("SECOND-2");
    await pause(two);
    await two.getByText("It was saved or issued elsewhere meanwhile.").waitFor();
    await unfolded(one);
    expect(await field(one, "unit.serial").inputValue()).toBe("FIRST-1");
    await two.getByRole("button", { name: "Save", exact: true }).click();
    await two.getByRole("heading", { name: "Someone else saved this estimate first" }).waitFor();
    expect(await field(two, "unit.serial").inputValue()).toBe("SECOND-2");
  });

  it("stays as it is and says so when the shop cannot be reached, and is saved once it can", async () => {
    const page = await shop.tab();
    await startOrgan(page);
    await page.locator("[data-save]").click();
    await page.waitForURL(/\?saved/);
    await unfolded(page);
    await page.route("**/*", (route) => (route.request().method() === "GET" ? route.continue() : route.abort()));
    await field(page, "unit.serial").fill("S49-9");
    await page.locator("[data-save]").click();
    await page.locator("#not-sent").getByText("There is no connection: nothing was sent").waitFor();
    expect(await field(page, "unit.serial").inputValue()).toBe("S49-9");
    await page.unroute("**/*");
    await page.locator("[data-save]").click();
    await page.waitForURL(/\?saved/);
  });

  it("saved by the button while it saves itself meets no conflict of its own", async () => {
    const page = await savedOrgan();
    let press = () => {};
    const pressed = new Promise<void>((resolve) => {
      press = resolve;
    });
    await page.route("**/estimates/*", async (route) => {
      if (route.request().method() === "POST") await pressed;
      await route.continue();
    });
    const saving = page.waitForRequest((request) => request.method() === "POST");
    await field(page, "unit.serial").fill("BOTH-1");
    await pause(page);
    await saving;
    await page.getByRole("button", { name: "Save", exact: true }).click();
    press();
    await page.getByText("Saved.", { exact: true }).waitFor();
    await unfolded(page);
    expect(await field(page, "unit.serial").inputValue()).toBe("BOTH-1");
  });
});

it("takes usual accessories and marks as ticks, which write into their notes and follow them", async () => {
  const page = await shop.tab();
  await page.goto("/estimates/new?open=intake");
  await page.locator("html.scripted").waitFor();
  const box = page.locator('textarea[name="unit.accessories"]');
  await box.fill("Two spare tapes");
  await page.getByLabel("Mains lead").check();
  await page.getByLabel("Lid or cover").check();
  expect(await box.inputValue()).toBe("Two spare tapes\nMains lead\nLid or cover");
  await page.getByLabel("Mains lead").uncheck();
  expect(await box.inputValue()).toBe("Two spare tapes\nLid or cover");
  await box.fill("Manual");
  expect([await page.getByLabel("Manual").isChecked(), await page.getByLabel("Lid or cover").isChecked()]).toEqual([true, false]);
  await page.getByLabel("Smells burnt").check();
  expect(await page.locator('textarea[name="unit.condition"]').inputValue()).toBe("Smells burnt");
  await picture(page.locator("#part-intake"), "usual-ticks");
});

describe("weight and speed", () => {
  it("sends less than 115 kB of script, and no zod, to the browser", async () => {
    const { assets } = (await import("../../.built/assets.js")) as {
      assets: Readonly<Record<string, { readonly body: string }>>;
    };
    const [, script] = Object.entries(assets).find(([path]) => path.startsWith("/assets/intake-"))!;
    expect(script.body).not.toMatch(/ZodError|\$ZodType/);
    const size = gzipSync(script.body).length;
    console.info(`Script of the intake page: ${size} bytes gzipped.`);
    expect(size).toBeLessThan(115_000);
  });

  it("draws the sheet of the largest demo estimate again in less than a tenth of a second of processor", async () => {
    const page = await shop.tab();
    await page.goto("/");
    await page.getByRole("link", { name: "J-2026-0001" }).click();
    await page.getByRole("link", { name: "Change the estimate" }).click();
    await page.locator("html.scripted").waitFor();
    await page.goto(`${page.url()}?open=grid`);
    const [first, ...rest] = await drawn(page, "cells.chorus.p:film", 15);
    console.info(`Typing to sheet: at first ${first} ms of processor, then ${rest.join(", ")}.`);
    // The shop's goal is 50; a machine that does other things besides is given twice that.
    expect([...rest].sort((a, b) => a - b)[7]).toBeLessThan(100);
  });
});
