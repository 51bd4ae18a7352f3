/**
 * From the counter to the bench and back to the owner: intake, issue, an answer on a phone, an extra fault, a second revision of which
 * the owner leaves one option, and the bench sheet that says so.
 */
import { execFileSync } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { faultsOn, overflowOf } from "./support/faults.js";
import { field, type OpenShop, openShop, picture } from "./support/shop.js";

let shop: OpenShop;
let scratch: string;
beforeAll(async () => {
  shop = await openShop();
  scratch = await mkdtemp(join(tmpdir(), "ohmwright-story-"));
});
afterAll(async () => {
  await shop.close();
  await rm(scratch, { recursive: true });
});

const PHONE = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true };
const OWNER = "Nerys Quillfeather";
const SHOP = "Tamsin Oakhollow";

/** Pictures of the page as it is, wide or on the phone; nothing for axe-core to find. */
async function look(page: Page, name: string): Promise<void> {
  await picture(page, `revise-${name}`);
  expect(await faultsOn(page), name).toEqual([]);
  expect(await overflowOf(page), name).toBe(0);
}

/** The words of a PDF behind a link of the page, by poppler. */
async function wordsOf(page: Page, href: string): Promise<string> {
  const bytes = await page.evaluate(async (address) => [...new Uint8Array(await (await fetch(address)).arrayBuffer())], href);
  const file = join(scratch, "paper.pdf");
  await writeFile(file, Buffer.from(bytes));
  return execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
}

/** As the parts of the page that follow the ticks show it. */
const totalOn = async (page: Page): Promise<string> => (await page.locator("#total strong").textContent())!.trim();

async function totalAfter(page: Page, before: string): Promise<string> {
  await page.waitForFunction((old) => document.querySelector("#total strong")?.textContent?.trim() !== old, before);
  return totalOn(page);
}

async function addressShown(page: Page): Promise<string> {
  await page.locator("#address").waitFor();
  return page.locator("#address").inputValue();
}

async function openOn(phone: Page, address: string): Promise<void> {
  await phone.goto(address);
  await phone.waitForURL(/\/o\/estimate$/);
}

let job = "";

it("goes from intake to a link, an answer on a phone, an extra fault, a second answer and a marked bench sheet", async () => {
  const desk = await shop.page();
  const phone = await shop.page(PHONE);

  // Intake: a known model, and one option that is in the total until the owner says otherwise.
  await desk.goto("/estimates/new?open=intake+grid");
  await field(desk, "owner.name").fill(OWNER);
  await field(desk, "owner.email").fill("nerys@quillfeather.example");
  await field(desk, "unit.maker").fill("Quellmarsh");
  await field(desk, "unit.model").fill("Solivane 49");
  await desk.getByRole("button", { name: "Start from this model's map" }).click();
  await desk.getByText("The estimate starts from the map").waitFor();
  await field(desk, "unit.reported").fill("Hum on every voice.");
  await field(desk, "cells.chorus.p:film").fill("6");
  await desk.getByRole("button", { name: "Add a line", exact: true }).click();
  await field(desk, "line.l1.operation").fill("Adjust a voice");
  await field(desk, "line.l1.count").fill("4");
  await field(desk, "line.l1.certainty").selectOption("optional");
  await field(desk, "line.l1.chosen").check();
  await field(desk, "line.l1.reason").fill("evens out the voices");
  await desk.getByRole("button", { name: "Save the estimate" }).click();
  await desk.waitForURL(/\?saved/);
  await desk.getByRole("link", { name: "The job" }).click();
  job = new URL(desk.url()).pathname;
  await look(desk, "job-draft");

  // Issue: the link is shown once.
  await desk.getByRole("link", { name: "Issue revision 1" }).click();
  await field(desk, "by").fill(SHOP);
  expect(await field(desk, "deliveredTo").inputValue()).toBe("nerys@quillfeather.example");
  await look(desk, "issue");
  await desk.getByRole("button", { name: "Issue revision 1" }).click();
  const first = await addressShown(desk);
  expect(first).toMatch(/\/o#[\w-]{12}\.[\w-]{24}$/);
  const mail = (await desk.getByRole("link", { name: "Write the e-mail" }).getAttribute("href"))!;
  expect(mail).toMatch(/^mailto:nerys@quillfeather\.example\?/);
  expect(new URL(mail).searchParams.get("body")).toContain(first);
  await look(desk, "issued");

  // The owner, on a phone: the secret leaves the address bar, the price follows the ticks, nothing is sent unchecked.
  await openOn(phone, first);
  expect(phone.url()).not.toContain("#");
  await look(phone, "owner-open");
  const whole = await totalOn(phone);
  const option = phone.getByRole("checkbox", { name: /Adjust a voice/ });
  expect(await option.isChecked()).toBe(true);
  await option.uncheck();
  const less = await totalAfter(phone, whole);
  await option.check();
  expect(await totalAfter(phone, less)).toBe(whole);
  expect(await phone.locator("#total-now strong").textContent()).toBe(whole);
  await phone.getByRole("button", { name: /^Agree to/ }).click();
  await phone.locator("#summary").waitFor();
  expect(await phone.title()).toMatch(/^Error: /);
  await look(phone, "owner-nameless");
  await field(phone, "name").fill(OWNER);
  await phone.getByRole("button", { name: /^Agree to/ }).click();
  await phone.getByRole("heading", { name: "One last look before you send" }).waitFor();
  expect(await phone.locator("blockquote").textContent()).toContain(`I agree that it comes to ${whole}`);
  await look(phone, "owner-check");
  await phone.getByRole("button", { name: /^Agree to/ }).click();
  await phone.getByText("Your answer is on record.").waitFor();
  await look(phone, "owner-agreed");

  // The job knows. An extra fault is priced on what is open, and at a later visit.
  await desk.goto(job);
  await desk.getByText(`Agreed: ${OWNER}`).waitFor();
  await look(desk, "job-agreed");
  await desk.getByRole("link", { name: "Extra fault" }).click();
  await field(desk, "reason").fill("a jack is cracked through");
  await field(desk, "part").fill("Jack");
  await field(desk, "where").fill("Output board and jacks");
  await desk.getByRole("button", { name: "See what it costs" }).last().click();
  await desk.locator("#cost").waitFor();
  await look(desk, "extra-fault");
  const [now, later] = (await desk.locator("#cost tbody td:last-child").allTextContents()).map((text) =>
    Number(text.replaceAll(/[^\d.]/g, "")),
  );
  expect(now).toBeGreaterThan(0);
  expect(later).toBeGreaterThan(now!);
  await desk.getByRole("button", { name: "Add it and go on to issue revision 2" }).click();
  await desk.getByText("Faults found since").first().waitFor();
  await look(desk, "issue-2");
  await desk.getByRole("button", { name: "Issue revision 2" }).click();
  const second = await addressShown(desk);

  // The first link now points to the second revision; the owner leaves the option this time.
  await phone.goto("/o/estimate");
  await phone.getByText("Revision 2 waits for your answer.").waitFor();
  await look(phone, "owner-superseded");
  expect(await phone.getByRole("button", { name: /Agree/ }).count()).toBe(0);
  await openOn(phone, second);
  await phone.getByText("What changed since what you agreed to in revision 1").waitFor();
  await look(phone, "owner-second");
  const offered = await totalOn(phone);
  await phone.getByRole("checkbox", { name: /Adjust a voice/ }).uncheck();
  const agreed = await totalAfter(phone, offered);
  await field(phone, "name").fill(OWNER);
  await phone.getByRole("button", { name: /^Agree to/ }).click();
  await phone.getByText("Options left").waitFor();
  await look(phone, "owner-second-check");
  await phone.getByRole("button", { name: /^Agree to/ }).click();
  await phone.getByText("Your answer is on record.").waitFor();

  // The bench sheet marks what was left; the estimate's PDF says what changed.
  await desk.goto(job);
  await desk.getByText("Not agreed, so not to be worked on:").waitFor();
  await look(desk, "job-second");
  expect(await desk.locator(".limit strong").first().textContent()).toBe(agreed);
  const bench = await wordsOf(desk, (await desk.getByRole("link", { name: "Bench sheet PDF" }).getAttribute("href"))!);
  expect(bench).toContain("the owner left this option");
  const paper = await wordsOf(desk, (await desk.getByRole("link", { name: "Estimate PDF", exact: true }).getAttribute("href"))!);
  expect(paper).toMatch(/since revision 1/);
});

it("shows the rest of the job's pages as well", async () => {
  const desk = await shop.page();
  for (const name of ["answers", "links", "work-log", "changes", "trail", "extra-fault"]) {
    await desk.goto(`${job}/${name}`);
    await look(desk, name);
    await desk.setViewportSize({ width: 320, height: 720 });
    expect(await overflowOf(desk), name).toBe(0);
    await picture(desk, `revise-${name}-320`);
    await desk.setViewportSize({ width: 1280, height: 900 });
  }
});

it("works out what is ticked anew with each tick, where an answer is put on record", async () => {
  const desk = await shop.page();
  await desk.goto(`${job}/answers`);
  await desk.goto((await desk.locator('a[href*="corrects="]').first().getAttribute("href"))!);
  const total = desk.locator("#for-ticked");
  const before = await total.textContent();
  const tick = desk.locator('#work input[name="work"]:not([type=hidden])').first();
  if (!(await tick.isVisible())) await desk.locator("#work > summary").click();
  await tick.uncheck();
  await desk.waitForFunction(
    (old) =>
      /the total is/.test(document.querySelector("#for-ticked")!.textContent) &&
      document.querySelector("#for-ticked")!.textContent !== old,
    before,
  );
  const [left, all] = /(\d+) of (\d+)/
    .exec((await desk.locator("#of-work").textContent())!)!
    .slice(1)
    .map(Number);
  expect(left).toBe(all! - 1);
  await look(desk, "answer-ticked");
  await desk.context().setOffline(true);
  await tick.check();
  await desk.getByText("The price is not worked out for what is ticked now.").waitFor();
});
