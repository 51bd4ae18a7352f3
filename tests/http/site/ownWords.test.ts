/** What is on no list, by the pages alone: typed on a line, priced alike on page, paper and by program, kept for next time. All invented. */
import { describe, expect, it } from "vitest";
import { keepForNextTime } from "../../../src/acts/keepForNextTime.js";
import { estimateBlocks, everyLine } from "../../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../../src/documents/estimate/subject.js";
import { earlierWords } from "../../../src/records/earlierJobs.js";
import { estimates } from "../../../src/records/estimates.js";
import { offersFor } from "../../../src/records/offers.js";
import { partKindNamed } from "../../../src/records/partKinds.js";
import { rateBooks } from "../../../src/records/rateBooks.js";
import { shopSettings } from "../../../src/records/settings.js";
import { deskAt, done } from "../../acts/support/desk.js";
import { textsOf } from "../../documents/support/texts.js";
import { type Filled, visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";

const TEST = "Test the memory battery under load";
const CHIP = "Voice chip, pulled";
/** Two lines on a unit in sound condition: 12 minutes of bench work at 48.00 an hour, and a chip at 95.00 in 15 minutes. */
const SAID = {
  "owner.name": "Nerys Quillfeather",
  "unit.maker": "Threnwick",
  "unit.model": "Cadence 3",
  "unit.grade": "sound",
  "terms.diagnosis": null,
  "line.l1.operation": TEST,
  "line.l1.count": "1",
  "line.l1.likely": "12",
  "line.l2.operation": "Fit and tune the voice chip",
  "line.l2.count": "1",
  "line.l2.likely": "15",
  "line.l2.part": CHIP,
  "line.l2.cost": "95",
  "line.l2.source": "Wrendale Surplus",
  "line.l2.state": "donor pull",
  "line.l2.good": "100",
} satisfies Filled;

async function saved(said: Filled = {}) {
  const opened = await shop();
  const desk = visitor(opened);
  let form = await desk.get("/estimates/new?open=all");
  for (const _ of ["l1", "l2"]) form = await desk.press(form, "Add a line");
  const page = await desk.press(form, /^Save/, { ...SAID, ...said });
  const [, id] = /^\/estimates\/([^?/]+)/.exec(page.path) ?? [];
  return { opened, desk, page, id: id!, kept: async () => (await estimates.find(opened.db, id!))! };
}
const ANY = { "if-match": "*" };
const bookOf = async ({ db }: { db: Parameters<typeof shopSettings>[0] }) =>
  (await rateBooks.find(db, (await shopSettings(db)).rateBookId))!.book;

describe("own words on a line", () => {
  it("at a price say it alike as typed and as saved", async () => {
    const { desk, page, id } = await saved({ "line.l1.likely": "", "line.l1.price": "35.00", "line.l2.cost": "95.50" });
    expect([page.status, words(page.html)]).toEqual([200, expect.stringContaining("Saved.")]);
    const again = words((await desk.get(`/estimates/${id}`)).html);
    expect(again).toContain("price £35.00 each");
    expect(again).toContain("part costs £95.50;");
    const unfolded = words((await desk.get(`/estimates/${id}?open=all`)).html);
    expect(unfolded).toContain("Why that price is printed on the owner's papers.");
  });

  it("come to the same on page, paper and by program, and to what a hand reckons", async () => {
    const { opened, page, kept } = await saved();
    expect([page.status, words(page.html)]).toEqual([200, expect.stringContaining("Saved.")]);
    const { sheet, input } = await kept();
    const rateBook = await bookOf(opened);
    // 27 min at 48.00: 21.60, and 26.40 up to the least charge of 48.00. The chip: 95.00 and 25 % on it, as the band up to 100.00 has
    // it: 118.75. Sundries: 4 % of 118.75 and 2.5 % of 48.00: 5.95. Together 172.70; tax of 20 %: 34.54.
    expect(sheet!.lines.map(({ amount }) => amount)).toEqual([960, 1200, 2640, 11875]);
    expect(sheet!.totals).toMatchObject({ withoutTax: 17270, tax: 3454, total: 20724 });
    expect(page.html).toMatch(/<span class="till-name">Total<\/span> <strong>£207\.24</);
    const subject = subjectOf(sheet!, { ...input, rateBook });
    const paper = textsOf(everyLine(subject)).join("\n");
    for (const told of [TEST, CHIP]) expect(textsOf(estimateBlocks(subject)).join("\n")).toContain(told);
    for (const told of [TEST, CHIP, "£9.60", "£118.75", "£207.24"]) expect(paper).toContain(told);
    const priced = await opened.send("POST", "/api/estimate", { ...input, rateBook });
    expect(((await priced.json()) as { sheet: { totals: unknown } }).sheet.totals).toEqual(sheet!.totals);
  });

  it("stand in their boxes again, with what the fold holds said on it, and are offered to the next estimate", async () => {
    const { opened, desk, id, page } = await saved();
    const folded = words((await desk.get(`/estimates/${id}`)).html);
    expect(folded).toContain("12 min each");
    expect(folded).toContain("15 min each; part costs £95.00; 3 more filled in");
    const again = await desk.press(page, "Save");
    expect(words(again.html)).toContain("Saved.");
    expect(await earlierWords(opened.db)).toEqual({ works: [TEST, "Fit and tune the voice chip"], parts: [CHIP] });
    const next = await desk.get("/estimates/new");
    for (const name of [TEST, CHIP]) expect(next.html).toContain(`<option value="${name}">`);
  });

  it("are asked for what they lack beside their field, and nothing typed is lost", async () => {
    const { page } = await saved({ "line.l1.likely": "", "line.l2.cost": "" });
    expect(page.status).toBe(422);
    const read = words(page.html);
    expect(read).toContain(`'${TEST}' is not in the rate book: give its minutes or a price, or choose one of`);
    expect(read).toContain(
      `'${CHIP}' is not in the catalogue or the rate book: give what one costs, or tick that the owner brings it`,
    );
    expect(page.html).toMatch(/<div class="more" id="more-l1"/);
    expect(page.html).toContain('value="Wrendale Surplus"');
  });

  it("are a part's where only what a part has stands beside them, though typed where work is named", async () => {
    const box = {
      "line.l2.operation": CHIP,
      "line.l2.part": "",
      "line.l2.likely": "",
      "line.l2.like": "IC, 16 pins",
    };
    const { page, kept } = await saved(box);
    expect(page.status, words(page.html)).toBe(200);
    const { input } = await kept();
    expect(input.items[1]).toMatchObject({
      part: { own: { name: CHIP, cost: 9500, source: "Wrendale Surplus", state: "donor pull" } },
    });
    expect(words(page.html)).toContain("Saved.");
  });

  it("are told at the price of a used part what it carries for pieces that prove bad", async () => {
    const { desk, kept } = await saved();
    const { id } = await kept();
    const form = await desk.get(`/estimates/${id}?open=all`);
    expect(words(form.html)).toMatch(/used: \d+\s?% good/);
    const row = /name="line\.(\w+)\.cost" [^>]*value="[^"]/.exec(form.html)?.[1];
    const seen = await desk.press(form, "Save", { [`line.${row}.state`]: "used", [`line.${row}.good`]: "" });
    expect(words(seen.html)).toMatch(/The part carries £\d+\.\d\d margin: by the rate book/);
  });

  it("are priced as an extra fault at the part's own cost", async () => {
    const { desk, kept } = await saved();
    const { jobId } = await kept();
    const form = await desk.get(`/jobs/${jobId}/extra-fault`);
    expect(form.html).toContain(`<datalist id="own-parts"><option value="${CHIP}">`);
    const fault = {
      reason: "a second voice is silent",
      own: "Fit and tune another",
      minutes: "15",
      ownPart: CHIP,
      partCost: "95",
    };
    const seen = await desk.press(form, "See what it costs", fault);
    // Labour stays below the least charge. The chip: 118.75, sundries 4.75 on it, tax 24.70.
    expect(words(seen.html)).toContain("+£148.20");
    const added = await desk.press(seen, /^Add it to the draft/);
    expect(added.status).toBe(200);
    expect((await kept()).sheet!.totals.total).toBe(20724 + 14820);
  });
});

describe("a service", () => {
  it("is offered beside work by its name, typed on a line, and priced as the rate book has it; not once it is retired", async () => {
    const opened = await shop();
    const desk = visitor(opened);
    const source = { basis: "demo" };
    const services = [
      {
        id: "lead",
        name: "Mains lead, fitted",
        price: 2400,
        work: [{ operation: "replace", count: 1, part: { type: "jack" } }],
        source,
      },
    ];
    const change = (row: object) =>
      opened.send(
        "POST",
        "/api/rate-books/bench-book/changes",
        { inForceFrom: "2026-11-25", carryOut: true, services: [row] },
        ANY,
      );
    expect((await change(services[0]!)).status).toBe(201);
    const form = await desk.press(await desk.get("/estimates/new?open=all"), "Add a line");
    expect(form.html).toContain('<option value="Mains lead, fitted">');
    const { "line.l1.operation": _, ...rest } = Object.fromEntries(
      Object.entries(SAID).filter(([name]) => !/^line\.l(1\.likely|2)/.test(name)),
    );
    const page = await desk.press(form, /^Save/, { ...rest, "line.l1.operation": "mains lead, fitted" });
    expect([page.status, words(page.html)]).toEqual([200, expect.stringContaining("Saved.")]);
    const [, id = ""] = /^\/estimates\/([^?/]+)/.exec(page.path) ?? [];
    const kept = (await estimates.find(opened.db, id))!;
    expect(kept.input.items).toEqual([expect.objectContaining({ service: "lead", count: 1 })]);
    expect(kept.sheet!.lines).toContainEqual(expect.objectContaining({ amount: 2400 }));
    expect((await change({ id: "lead", retiredOn: "2026-11-25" })).status).toBe(201);
    const after = (await desk.get("/estimates/new")).html.match(/<option value="Mains lead, fitted">/g);
    expect(after).toBeNull();
  });
});

describe("own words once they are agreed to", () => {
  it("stand at the bench and in the log by name, and count in no count of earlier jobs", async () => {
    const { opened, desk, id, kept } = await saved();
    const { jobId } = await kept();
    const by = "Tamsin Oakhollow";
    expect((await opened.send("POST", `/api/estimates/${id}/issue`, { by }, { "if-match": "*" })).ok).toBe(true);
    const { contentHash } = await kept();
    const answer = {
      answer: "agreed",
      contentHash,
      by: "Nerys Quillfeather",
      channel: "in person",
      recordedBy: by,
      writing: "paper signed at the counter",
    };
    const agreed = await opened.send("POST", `/api/estimates/${id}/agreements`, answer);
    expect(agreed.ok, await agreed.clone().text()).toBe(true);
    const bench = words((await desk.get(`/jobs/${jobId}/bench`)).html);
    expect(bench).toContain(TEST);
    expect(bench).toContain(CHIP);
    const entry = { person: by, item: "l1", minutes: 14 };
    expect((await opened.send("POST", `/api/jobs/${jobId}/work-log`, entry)).status).toBe(201);
    expect(words((await desk.get(`/jobs/${jobId}/work-log`)).html)).toContain(TEST);
    const next = await desk.get("/estimates/new");
    const filled = { "unit.maker": SAID["unit.maker"], "unit.model": SAID["unit.model"] };
    const suggested = await desk.press(next, "Take counts of earlier jobs of this model", filled);
    expect([suggested.status, words(suggested.html)]).toEqual([200, expect.stringContaining("Nothing to take from")]);
  });
});

describe("keep for next time", () => {
  const KEEP = { "line.l1.keep": "on", "line.l2.keep": "on", "line.l2.like": "IC, 16 pins" };

  it("puts the work into the next version of the rate book, and the part with its cost into the catalogue; once", async () => {
    const { opened, desk, page, id, kept } = await saved(KEEP);
    expect(words(page.html)).toContain(`Saved. Kept for next time: ${TEST}, Fit and tune the voice chip and ${CHIP}.`);
    const book = await bookOf(opened);
    expect(book.version).toBe(2);
    expect(book.operations.find(({ name }) => name === TEST)).toMatchObject({
      ...{ sort: "other", labourClass: "bench", unit: { low: 12, likely: 12, high: 12 }, setup: { likely: 0 } },
      source: { basis: "measured here" },
    });
    const chip = (await partKindNamed(opened.db, CHIP))!;
    expect(chip.type).toBe("ic-16");
    const [offer, ...more] = await offersFor(opened.db, [chip.id]);
    expect(more).toEqual([]);
    expect(offer).toMatchObject({ price: 9500, packSize: 1, source: "Wrendale Surplus", state: "donor pull", on: "2026-11-25" });
    // The draft stands on its own version, and on its own words.
    expect((await kept()).sheet!.totals.total).toBe(20724);
    const again = await desk.get(`/estimates/${id}?open=all`);
    await desk.press(again, "Save", { "line.l1.keep": "on", "line.l2.keep": "on" });
    expect((await bookOf(opened)).version).toBe(2);
    expect(await offersFor(opened.db, [chip.id])).toHaveLength(1);
    const next = await desk.get("/estimates/new");
    expect(next.html.match(new RegExp(`<option value="${TEST}">`, "g"))).toHaveLength(1);
  });

  it("makes a service of work at a price, and says what a list needs to know beyond one estimate", async () => {
    const priced = await saved({ "line.l1.price": "20", "line.l1.keep": "on" });
    expect((await bookOf(priced.opened)).services?.at(-1)).toMatchObject({
      ...{ name: TEST, price: 2000, work: [{ own: { name: TEST, minutes: { likely: 12 } }, count: 1 }] },
    });
    const flat = await saved({ "line.l1.price": "20", "line.l1.likely": "", "line.l1.keep": "on" });
    expect(words(flat.page.html)).toContain("Saved. Not kept for next time: ");
    expect(words(flat.page.html)).toContain("the rate book wants to know its time too");
    const unlike = await saved({ "line.l2.keep": "on" });
    expect(words(unlike.page.html)).toContain(`'${CHIP}': the catalogue wants a part type; say what it is fitted like.`);
    expect(await partKindNamed(unlike.opened.db, CHIP)).toBeUndefined();
  });

  it("is a manager's for work, and refused by line where there is nothing to keep", async () => {
    const { opened, id } = await saved();
    const keep = (items: string[], desk = deskAt(opened.db, "2026-11-25T10:00:00.000Z")) =>
      done(keepForNextTime, desk, { items }, { estimate: id });
    const staff = { id: "s1", name: "Ilse", role: "technician" as const };
    const theirs = { ...deskAt(opened.db, "2026-11-25T10:00:00.000Z"), staff };
    expect(await keep(["l1"], theirs)).toMatchObject({ ok: false, refusal: { is: "role wanted" } });
    expect(await keep(["nothing"])).toMatchObject({ refusal: { errors: [{ pointer: "/items/0", name: "record unknown" }] } });
    expect((await bookOf(opened)).version).toBe(1);
    expect(await keep(["l1"])).toMatchObject({ ok: true, answer: { works: [TEST], parts: [] } });
    expect(await keep(["l1"])).toMatchObject({ ok: true, answer: { works: [], parts: [] } });
  });
});
