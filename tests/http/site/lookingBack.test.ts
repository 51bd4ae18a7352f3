import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { rateBooks } from "../../../src/records/rateBooks.js";
import { shopSettings } from "../../../src/records/settings.js";
import { grow, template } from "../../bench/scale/grow.js";
import { change } from "../../records/support/put.js";
import { visitor, words } from "../support/noScript.js";
import { demo, openShop } from "../support/shop.js";

const open: Awaited<ReturnType<typeof openShop>>[] = [];
afterAll(() => Promise.all(open.map(({ close }) => close())));

/** A demo shop with some closed jobs of one kind, whose actual figures are spread. */
async function closedShop(count = 12) {
  const opened = await openShop();
  open.push(opened);
  const { jobs } = await demo();
  await template(opened.db, jobs.at(-1)!.id);
  await grow(opened.db, 0, count - 1);
  return { opened, desk: visitor(opened) };
}

describe("looking back", () => {
  let seen: Awaited<ReturnType<typeof closedShop>>;
  let html: string;
  let said: string;
  beforeAll(async () => {
    seen = await closedShop();
    html = (await seen.desk.get("/looking-back")).html;
    said = words(html);
  }, 60_000);

  it("says how near the estimates were, with the range of what four in five should stay within", () => {
    expect(said).toMatch(/Over 1[0-9] jobs, work came to/);
    expect(said).toMatch(/of 1[0-9] jobs came to no more than the figure that four in five should stay within/);
    expect(said).toMatch(/For half of them it was within [\d.]+% of what they came to\./);
    expect(said).toMatch(/was (left|lost)/);
  });

  it("draws each job once, and has the same figures in a table", () => {
    const drawn = html.match(/class="chart-past"|<circle class="chart-point"[^>]*r="3.5"/g)!.length;
    const rows = html.match(/\/close-out">J-/g)!.length;
    expect(drawn).toBe(rows);
    expect(html).toContain('role="img" aria-labelledby="scatter-title scatter-desc"');
  });

  it("narrows to days and to a model, and names a day that is none", async () => {
    const model = /href="\/looking-back\?model=([^"]+)"/.exec(html)![1]!;
    const few = (await seen.desk.get(`/looking-back?model=${model}`)).html;
    // Of fewer than ten a picture says less than the figures.
    expect(few).not.toContain("scatter-title");
    const one = words(few);
    expect(one).toMatch(/Over (1 job|\d jobs),/);
    const none = words((await seen.desk.get("/looking-back?from=1999-01-01&to=1999-12-31")).html);
    expect(none).toContain("No job of this choice is closed yet.");
    const wrong = await seen.desk.get("/looking-back?from=yesterday");
    expect(wrong.status).toBe(422);
    expect(wrong.html).toContain('value="yesterday"');
    expect(words(wrong.html)).toContain("Give a day, such as 2026-01-31");
  });
});

describe("looking back by the API", () => {
  it("answers the same board and the same proposals", async () => {
    const { opened } = await closedShop();
    const board = await (await opened.call("/api/accuracy")).json();
    expect(board).toMatchObject({ currency: "GBP", overall: { coverage80: { of: board.overall.jobs } } });
    const { proposals, jobs } = await (await opened.call("/api/accuracy/proposals")).json();
    expect(proposals.length).toBeGreaterThan(2);
    expect(proposals[0].jobs).toBeLessThanOrEqual(jobs);
    expect(proposals[0].most).toMatchObject({ number: expect.stringMatching(/^J-\d{4}-\d{4}$/), changes: expect.any(Array) });
    expect((await opened.call("/api/accuracy?from=May")).status).toBe(400);
    const none = await (await opened.call("/api/accuracy?to=1999-12-31")).json();
    expect(none.overall).toBeUndefined();
  });
});

describe("what the rate book should learn", () => {
  it("proposes with the number of jobs behind it, shows what would have changed, and makes a version only when told to", async () => {
    const { opened, desk } = await closedShop();
    const { rateBookId } = await shopSettings(opened.db);
    const before = (await rateBooks.find(opened.db, rateBookId))!;
    const page = await desk.get("/looking-back/rate-book");
    expect(words(page.html)).toMatch(/\d+ pieces of work on \d+ jobs; they weigh [\d.]+% against the rate book\./);
    expect(words(page.html)).toMatch(/J-\d{4}-\d{4}\s+moves it most; without it /);
    const [, id] = /name="accept" value="([^"]+)"/.exec(page.html)!;

    const none = await desk.press(page, `Make version ${before.version + 1}`);
    expect(none.status).toBe(422);
    expect(words(none.html)).toContain("Tick at least one proposal.");

    const tried = await desk.press(page, "See what would have changed", { accept: [id!] });
    expect(words(tried.html)).toMatch(/Job by job the prices were off by .* they would have been off by/);
    expect((await rateBooks.find(opened.db, rateBookId))!.version).toBe(before.version);

    await desk.press(tried, `Make version ${before.version + 1}`);
    const after = (await rateBooks.find(opened.db, rateBookId))!;
    expect(after.version).toBe(before.version + 1);
    expect(after.book).not.toEqual({ ...before.book, version: after.version, inForceFrom: after.book.inForceFrom });
    expect((await rateBooks.findVersion(opened.db, rateBookId, before.version))!.book).toEqual(before.book);
    expect(JSON.stringify(after.book)).toContain("measured here");
  });

  it("reads earlier jobs again for a new version, some at a time", async () => {
    const { opened, desk } = await closedShop(1);
    const { rateBookId } = await shopSettings(opened.db);
    const { version, book } = (await rateBooks.find(opened.db, rateBookId))!;
    await change(opened.db, rateBooks, rateBookId, book, "2026-12-05T09:00:00.000Z", version);
    const page = await desk.get("/looking-back/rate-book");
    const [, button] = /(Read \d+ more jobs?)/.exec(words(page.html))!;
    const read = await desk.press(page, button!);
    expect(words(read.html)).not.toMatch(/Read \d+ more job/);
  });

  it("takes a stale page back: what is proposed for the book as it stands is shown instead", async () => {
    const { opened, desk } = await closedShop();
    const { rateBookId } = await shopSettings(opened.db);
    const { version, book } = (await rateBooks.find(opened.db, rateBookId))!;
    const page = await desk.get("/looking-back/rate-book");
    expect(words(page.html)).toMatch(/J-\d{4}-\d{4}\s+moves it most; without it /);
    const [, id] = /name="accept" value="([^"]+)"/.exec(page.html)!;
    await change(opened.db, rateBooks, rateBookId, book, "2026-12-05T09:00:00.000Z", version);
    const late = await desk.press(page, `Make version ${version + 1}`, { accept: [id!] });
    expect(words(late.html)).toContain("nothing was accepted");
  });
});
