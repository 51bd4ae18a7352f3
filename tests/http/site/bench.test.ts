/** The bench page without script: each entry is a form of its own, and a refused one comes back as it was typed. */
import { describe, expect, it } from "vitest";
import { owed } from "../../../src/acts/owed.js";
import { movementsOf } from "../../../src/records/stock.js";
import { timersTable } from "../../../src/records/timers.js";
import { entriesOf } from "../../../src/records/workLog.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { answerOf, close, log, stands } from "../../acts/support/bench.js";
import { closing, worked } from "../../records/support/closed.js";
import { draftSaved, nextDraft } from "../../records/support/drafts.js";
import { at, TAPE_ECHO } from "../../records/support/livedIn.js";
import { cash } from "../../stories/support/everywhere.js";
import { agreedByTime, agreedShop } from "../support/agreedShop.js";
import { visitor, words } from "../support/noScript.js";

const BENCH = `/jobs/${TAPE_ECHO}/bench`;

async function agreed(having = agreedShop) {
  const opened = await having();
  const desk = visitor(opened);
  return { ...opened, desk, page: await desk.get(`${BENCH}?by=Wilhelmina`) };
}

/** A button with what it is of, as it is read out. */
const buttonOf = (html: string, text: RegExp): string => {
  const all = [...html.matchAll(/<button [^>]*>(.*?)<\/button>/gs)].map(([, inner = ""]) =>
    inner
      .replaceAll(/<[^>]+>/g, "")
      .replaceAll("&#39;", "'")
      .replaceAll(/\s+/g, " ")
      .trim(),
  );
  const found = all.find((each) => text.test(each));
  expect(found, `${text} among ${all.join(" | ")}`).toBeDefined();
  return found!;
};

describe("the bench", () => {
  it("leads from the job, and shows the work order with its cautions", async () => {
    const { desk, page } = await agreed();
    expect((await desk.get(`/jobs/${TAPE_ECHO}`)).html).toContain(`href="${BENCH}"`);
    const read = words(page.html);
    for (const text of ["Take off, in this order", "Refit, in this order", "Test and soak", "Cautions at the bench", "agreed"])
      expect(read).toContain(text);
    expect(page.html).toContain(`href="/jobs/${TAPE_ECHO}/extra-fault"`);
    expect((await desk.get("/jobs/nobody/bench")).status).toBe(404);
  });

  it("says that a deposit is awaited, and takes by name and reason, once, that work begins without it", async () => {
    const { desk, page, db } = await agreed();
    const { deposit } = owed(await stands(db, TAPE_ECHO));
    expect(words(page.html)).toContain(`A deposit of ${cash(deposit)} is awaited before work begins.`);
    const unsaid = await desk.press(page, "Let work begin", { "begin.reason": "" });
    expect([unsaid.status, /<details open/.test(unsaid.html)]).toEqual([422, true]);
    const typed = { "begin.by": "Wilhelmina", "begin.reason": "an old customer" };
    const begun = await desk.press(unsaid, "Let work begin", typed);
    expect(words(begun.html).replaceAll(/\s+/g, " ")).toContain("Wilhelmina let work begin without it: an old customer");
    expect(begun.html).not.toContain("Let work begin</button>");
    const again = await desk.press(page, "Let work begin", typed);
    expect([again.status, words(again.html).includes("Wilhelmina let it begin already")]).toEqual([409, true]);
    const trail = words((await desk.get(`/jobs/${TAPE_ECHO}/trail`)).html);
    expect(trail).toContain(`Wilhelmina let work begin before the deposit of ${cash(deposit)} was paid.`);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("pauses by an override a timer that was started while the job was being closed", async () => {
    const { desk, db } = await agreed();
    await worked(db, TAPE_ECHO, 0.5);
    answerOf(await close(db, { job: TAPE_ECHO, when: at(600) }, closing()));
    await db.insert(timersTable).values({ id: "late", jobId: TAPE_ECHO, person: "Wilhelmina", item: "w01", startedAt: at(0) });
    const page = await desk.get(`${BENCH}?by=Wilhelmina`);
    const refused = await desk.press(page, "Pause and log the time", { worked: "4" });
    expect(refused.status, words(refused.html)).toBe(409);
    expect(words(refused.html)).toContain("the job was closed on 4 December 2026");
    expect((await stands(db, TAPE_ECHO)).timers).toHaveLength(1);
    const typed = { "override.by": "Wilhelmina", "override.reason": "started while it was being closed" };
    const kept = await desk.press(refused, "Log it by override", typed);
    expect(kept.status, words(kept.html)).toBe(200);
    expect((await stands(db, TAPE_ECHO)).timers).toEqual([]);
    expect((await entriesOf(db, TAPE_ECHO)).find(({ id }) => id === "late")).toMatchObject({
      startedAt: at(0),
      endedAt: at(4),
      overrideId: expect.any(String),
    });
    expect((await desk.get(`${BENCH}?by=Wilhelmina`)).html).not.toContain('class="bench-form');
  });

  it("starts a timer, switches it to other work, and logs both times", async () => {
    const { desk, page, pass, db } = await agreed();
    const first = await desk.press(page, buttonOf(page.html, /^Start a timer on Control panel: /));
    expect(words(first.html)).toContain("The timer runs.");
    pass(12 * 60_000);
    const second = await desk.press(first, buttonOf(first.html, /^Start a timer on Jack panel: /));
    pass(3 * 60_000);
    const paused = await desk.press(second, "Pause and log the time");
    expect(words(paused.html)).toContain("Paused; the time is logged.");
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      {
        startedAt: "2026-11-25T09:00:00.000Z",
        endedAt: "2026-11-25T09:12:00.000Z",
        person: "Wilhelmina",
        workedOn: "2026-11-25",
      },
      { startedAt: "2026-11-25T09:12:00.000Z", endedAt: "2026-11-25T09:15:00.000Z" },
    ]);
    expect((await stands(db, TAPE_ECHO)).timers).toEqual([]);
  });

  it("keeps a timer that was left running until somebody says when the work ended", async () => {
    const { desk, page, pass, db } = await agreed();
    const running = await desk.press(page, buttonOf(page.html, /^Start a timer on Control panel: /));
    pass(40 * 3_600_000);
    const refused = await desk.press(running, "Pause and log the time");
    expect(refused.status).toBe(422);
    expect(words(refused.html)).toContain("so it was probably left running");
    expect((await stands(db, TAPE_ECHO)).timers).toHaveLength(1);
    await desk.press(refused, "Pause and log the time", { worked: "25.5" });
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { startedAt: "2026-11-25T09:00:00.000Z", endedAt: "2026-11-25T09:25:30.000Z" },
    ]);
  });

  it("ticks counts off, and names a count above the agreed beside its field", async () => {
    const { desk, page, db, pass } = await agreed();
    const tick = buttonOf(page.html, /^Tick off Control panel: /);
    await desk.press(page, tick, { count: "3" });
    const [item] = Object.keys((await stands(db, TAPE_ECHO)).done);
    pass(1000);
    const above = await desk.press(page, tick, { count: "99" });
    expect(above.status).toBe(422);
    expect(above.html).toContain(`<a href="#count.${item}">`);
    expect(above.html).toContain("so 99 cannot be ticked off. Tick off");
    expect(above.html).toMatch(/<a href="\/jobs\/[^"]+\/extra-fault">Add an extra fault</);
    expect((await stands(db, TAPE_ECHO)).done).toEqual({ [item!]: 3 });
  });

  it("takes a part by its number in two strokes, by name and by its button, once each, off the shelf", async () => {
    const { desk, page, db } = await agreed();
    await desk.press(page, "Use it", { code: "1" });
    await desk.press(page, "Use it", { code: "1" });
    const [first] = await entriesOf(db, TAPE_ECHO);
    expect(first).toMatchObject({
      partCount: 1,
      paidPrice: expect.any(Number),
      paidPer: expect.any(Number),
      partState: "reproduction",
    });
    expect(await entriesOf(db, TAPE_ECHO)).toHaveLength(1);
    if (first?.partKind) expect(await movementsOf(db, first.partKind)).toMatchObject([{ why: "used on job", jobId: TAPE_ECHO }]);
    const next = await desk.get(`${BENCH}?by=Wilhelmina`);
    await desk.press(next, buttonOf(next.html, /^Use number 2, /));
    expect(await entriesOf(db, TAPE_ECHO)).toHaveLength(2);
    const unknown = await desk.press(await desk.get(BENCH), "Use it", { code: "no such part", partCount: "2" });
    expect(words(unknown.html)).toContain("nothing of this job is called 'no such part'");
    expect(unknown.html).toContain('value="no such part"');
    const other = await desk.press(await desk.get(BENCH), "Use it", { code: "number 99" });
    expect(other.status).toBe(422);
    expect(words((await desk.press(await desk.get(BENCH), "Use it", { code: "99" })).html)).toContain(
      "the list has no number 99",
    );
  });

  it("asks at the part before more is used than the work needs, takes several at once, and takes the last entry back there", async () => {
    const { desk, page, db, pass } = await agreed();
    const use = buttonOf(page.html, /^Use number 3, /);
    await desk.press(page, use, { partCount: "3" });
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([{ partCount: 3 }]);
    pass(1000);
    const full = await desk.get(`${BENCH}?by=Wilhelmina`);
    expect(words(full.html)).toContain("3 of 3 used");
    const asked = await desk.press(full, use, { partCount: "2" });
    expect([asked.status, words(asked.html)]).toEqual([422, expect.stringContaining("of the 3 that the work needs 0 are still")]);
    const [, field] = /<a href="#(pieces\.w\d+)">/.exec(asked.html)!;
    const row = asked.html.slice(asked.html.indexOf(`id="${field}"`));
    expect(row.slice(0, row.indexOf("</form>"))).toMatch(/name="beyond" value="yes" class="big beyond">/);
    const undo = buttonOf(full.html, /^Undo 3 × /);
    expect(words((await desk.press(full, undo)).html)).toContain("Undone");
    expect(await entriesOf(db, TAPE_ECHO)).toEqual([]);
  });

  it("takes all that the work still needs in one press, and no more from a page that was drawn before", async () => {
    const { desk, page, db } = await agreed();
    const all = buttonOf(page.html, /^All 3 of number 3, /);
    await desk.press(page, buttonOf(page.html, /^Use number 3, /));
    const asked = await desk.press(page, all);
    expect([asked.status, words(asked.html)]).toEqual([422, expect.stringContaining("of the 3 that the work needs 2 are still")]);
    expect(asked.html).toMatch(/id="pieces\.w\d+" name="partCount"[^>]*value="3"/);
    await desk.press(asked, buttonOf(asked.html, /^All 2 of number 3, /));
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([{}, { partCount: 2 }]);
    expect((await desk.get(BENCH)).html).not.toMatch(/>All 0/);
  });

  it("takes another part in the place of the agreed one, and says what was agreed and what was used", async () => {
    const { desk, page, db } = await agreed();
    const [, href] = /<a href="([^"]*instead=[^"]*)#part-form"/.exec(page.html)!;
    const form = await desk.get(href!.replaceAll("&amp;", "&"));
    expect(words(form.html)).toMatch(/In place of Drive belt, flat, 242 mm round/);
    const done = await desk.press(form, "Use it", {
      ownPart: "Belt from the drawer",
      paidPrice: "3",
      partState: "new old stock",
    });
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { ownPart: "Belt from the drawer", paidPrice: 300, partState: "new old stock", insteadOf: true },
    ]);
    expect(words(done.html)).toContain("1 × Belt from the drawer, in place of Drive belt, flat, 242 mm round");
  });

  it("logs work that is on no list by name and reason, flags it, and shows the caution of its danger", async () => {
    const { desk, page, db } = await agreed();
    const typed = { own: "Neutralise the battery leak", "own.minutes": "9", "own.override.by": "Wilhelmina" };
    const unsaid = await desk.press(page, "Log this work", { ...typed, ownHazards: "leaking cells" });
    expect([unsaid.status, unsaid.html]).toEqual([422, expect.stringContaining('<a href="#own.override.reason">')]);
    expect(unsaid.html).toMatch(/value="leaking cells" checked/);
    const why = { "own.override.reason": "it would eat the board" };
    const done = await desk.press(page, "Log this work", { ...typed, ...why, ownHazards: "leaking cells" });
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { own: typed.own, minutes: 9, ownHazards: ["leaking cells"], overrideId: expect.any(String) },
    ]);
    expect(words(done.html)).toContain("Not agreed: it is not in the revision the owner agreed to.");
    expect(words(done.html)).toMatch(/Leaking cells[^.]*Neutralise the battery leak/);
  });

  it("lets a part that was not agreed for the work through only by an override", async () => {
    const { desk, db } = await agreed();
    const page = await desk.get(`${BENCH}?by=Wilhelmina`);
    const [, item] = /<option value="(w\d+)"[^>]*>Control panel: /.exec(page.html)!;
    const refused = await desk.press(page, "Use it", { code: "Jack", for: item! });
    expect(refused.status).toBe(409);
    expect(words(refused.html)).toContain("is not in the agreed revision for this work");
    await desk.press(refused, "Log it by override", {
      "override.by": "Wilhelmina",
      "override.reason": "the jack was cracked too",
    });
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { item, partType: expect.any(String), overrideId: expect.any(String) },
    ]);
  });

  it("puts readings on record, those that the work expects with the figure given", async () => {
    const { desk, page, db, pass } = await agreed();
    await desk.press(page, "Note the reading", { label: "supply +12 V", expected: "12", found: "11.85", unit: "V" });
    pass(1000);
    await desk.press(page, buttonOf(page.html, /^Note it: working voltage/), { found: "27.4" });
    expect((await stands(db, TAPE_ECHO)).readings).toMatchObject([
      { label: "supply +12 V", expected: 12, found: 11.85, unit: "V", person: "Wilhelmina" },
      { label: expect.stringContaining("working voltage"), expected: expect.any(Number), found: 27.4 },
    ]);
    const seen = words((await desk.get(BENCH)).html);
    expect(seen).toContain("-0.15 V");
    const wrong = await desk.press(await desk.get(BENCH), "Note the reading", { found: "low" });
    for (const field of ["label", "found"]) expect(wrong.html).toContain(`<a href="#${field}">`);
  });

  it("refuses in the same words as a program is, where a text is longer than its field", async () => {
    const { desk, page, app, db } = await agreed();
    const long = { label: "supply +12 V ".repeat(31).trim(), found: "12" };
    const refused = await desk.press(page, "Note the reading", long);
    expect(refused.status).toBe(422);
    const answer = await app.request(`http://localhost:4700/api/jobs/${TAPE_ECHO}/readings`, {
      method: "POST",
      body: JSON.stringify({ ...long, found: 12, person: "Wilhelmina" }),
      headers: { "content-type": "application/json", "sec-fetch-site": "same-origin" },
    });
    const said = "What was measured has 402 characters; give at most 200.";
    expect([answer.status, await answer.json()]).toMatchObject([
      422,
      { errors: [{ pointer: "/label", name: "text too long", detail: said }] },
    ]);
    expect(words(refused.html)).toContain(said);
    expect(refused.html).toContain('<a href="#label">');
    expect((await stands(db, TAPE_ECHO)).readings).toEqual([]);
  });

  it("shows work that is not agreed as blocked, without a way to begin it", async () => {
    const { desk, db } = await agreed();
    const next = await nextDraft(db, TAPE_ECHO, "second", at(4));
    if (!next.record) throw new Error(next.is);
    const items = [...next.record.input.items, { ...next.record.input.items[0]!, id: "extra", reason: "found cracked" }];
    await draftSaved(db, "second", 1, { ...next.record, input: { ...next.record.input, items } }, at(5));
    const { html } = await desk.get(BENCH);
    const [, row] = /<li class="bench-row blocked" id="work-extra">(.*?)<\/li>/s.exec(html)!;
    expect(words(row!)).toContain("it is not in the revision the owner agreed to");
    expect(row).not.toContain("<button");
  });

  it("leaves in what only work that is not agreed opens: no step takes it out or puts it back, until such work is logged", async () => {
    const { desk, db } = await agreed();
    const next = await nextDraft(db, TAPE_ECHO, "second", at(4));
    if (!next.record) throw new Error(next.is);
    const { items, map, ...input } = next.record.input;
    const front = items.find(({ assembly }) => assembly !== undefined)!.assembly!;
    const deep = {
      id: "deep",
      name: "Deep board",
      sort: "board",
      behind: [front],
      access: { by: "standard", size: "small", mounting: "on top" },
    } as const;
    const opened = {
      ...input,
      map: { ...map!, assemblies: [...map!.assemblies, deep] },
      items: [...items, { ...items[0]!, id: "extra", assembly: "deep" }],
    };
    await draftSaved(db, "second", 1, { ...next.record, input: opened }, at(5));
    const rows = async (section: string) => {
      const { html } = await desk.get(BENCH);
      const [, part = ""] = new RegExp(`<section id="${section}".*?<ol class="bench-rows">(.*?)</ol>`, "s").exec(html) ?? [];
      return part.split("</li>").flatMap((row) => (row.includes("Deep board") ? [words(row)] : []));
    };
    expect(await rows("removal")).toEqual([
      expect.stringMatching(/^\s*Deep board[\s\S]*Leave it in: it only comes off for work that is not agreed\./),
    ]);
    expect(await rows("refit")).toEqual([]);
    answerOf(
      await log(db, { job: TAPE_ECHO, when: at(6) }, { item: "extra", minutes: 5 }, { by: "Ines", reason: "asked by telephone" }),
    );
    expect((await rows("removal")).join()).not.toContain("Leave it in");
    expect((await rows("refit")).length).toBeGreaterThan(1);
  });

  it("has the memory saved before anything comes off, and says of a cell not to take it out before", async () => {
    const { desk, db } = await agreed();
    expect(words((await desk.get(BENCH)).html)).not.toContain("Save the memory first");
    const next = await nextDraft(db, TAPE_ECHO, "second", at(4));
    if (!next.record) throw new Error(next.is);
    const { items, unit, ...input } = next.record.input;
    const added = [
      { id: "save", operation: "save-memory", count: 1, certainty: { is: "planned" } },
      { id: "cell", operation: "replace", part: { type: "memory-cell" }, count: 1, certainty: { is: "planned" } },
    ] as const;
    const told = { ...input, unit: { ...unit, storedData: "64 sounds" }, items: [...items, ...added] };
    await draftSaved(db, "second", 1, { ...next.record, input: told }, at(5));
    const { html } = await desk.get(BENCH);
    const [first, removal] = [html.indexOf('id="first"'), html.indexOf('id="removal"')];
    expect([first > 0, first < removal]).toEqual([true, true]);
    expect(html.indexOf('id="work-save"')).toBeLessThan(removal);
    expect(words(html)).toContain("copy what it remembers (64 sounds)");
    const [, cell] = /<li class="[^"]*" id="work-cell">(.*?)<\/li>/s.exec(html)!;
    expect(words(cell!)).toContain("Only after the memory is saved.");
  });

  it("leads to each of its places that is there, and to no form where the job is closed", async () => {
    const { desk, page, db } = await agreed();
    const placesOf = (html: string) => [...html.matchAll(/<li><a href="#([^"]+)">/g)].map(([, to]) => to!);
    expect(placesOf(page.html)).toEqual(["removal", "works", "parts", "readings", "refit", "minutes-form", "own-form"]);
    for (const to of placesOf(page.html)) expect(page.html).toContain(` id="${to}"`);
    answerOf(await close(db, { job: TAPE_ECHO, when: at(600) }, closing()));
    const closed = await desk.get(BENCH);
    expect(placesOf(closed.html)).toEqual(["removal", "works", "parts", "readings", "refit"]);
    for (const to of placesOf(closed.html)) expect(closed.html).toContain(` id="${to}"`);
  });

  it("wants to know who works", async () => {
    const { desk, page, db } = await agreed();
    const nobody = await desk.press(page, "Log the minutes", { minutes: "5", person: "" });
    expect(nobody.html).toContain('<a href="#by">');
    expect(await entriesOf(db, TAPE_ECHO)).toEqual([]);
    expect(words((await desk.press(page, "Log the minutes", { minutes: "" })).html)).toContain(
      "There is nothing to log; give minutes",
    );
  });

  it("answers its script in JSON, once for each key", async () => {
    const { app, db } = await agreed(agreedByTime);
    const post = (body: Record<string, string>, key: string) =>
      app.request(`http://localhost:4700${BENCH}`, {
        method: "POST",
        body: new URLSearchParams({ person: "Wilhelmina", ...body }).toString(),
        headers: {
          "content-type": "application/x-www-form-urlencoded",
          accept: "application/json",
          "sec-fetch-site": "same-origin",
          "idempotency-key": `"${key}"`,
        },
      });
    const minutes = { act: "minutes", work: "access", minutes: "5" };
    for (const replayed of [null, "true"]) {
      const done = await post(minutes, "one");
      expect([done.status, done.headers.get("idempotency-replayed")]).toEqual([200, replayed]);
      expect(await done.json()).toEqual({ done: "minutes" });
    }
    expect(await entriesOf(db, TAPE_ECHO)).toHaveLength(1);
    // What waited for a network was worked on the day it was told; a clock that is ahead tells none to come.
    await post({ ...minutes, moment: "2026-11-21T16:40:00.000Z" }, "from Saturday");
    await post({ ...minutes, moment: "2031-01-01T00:00:00.000Z" }, "ahead");
    expect((await entriesOf(db, TAPE_ECHO)).map(({ workedOn }) => workedOn).sort()).toEqual([
      ...["2026-11-21", "2026-11-25", "2026-11-25"],
    ]);
    const negative = await post({ ...minutes, minutes: "-5" }, "two");
    expect([negative.status, negative.headers.get("content-type")]).toEqual([422, "application/problem+json"]);
    expect(await negative.json()).toMatchObject({ errors: [{ pointer: "/minutes", name: "time negative" }] });
    const unknown = await post({ ...minutes, act: "solder" }, "four");
    expect([unknown.status, await unknown.json()]).toEqual([
      422,
      expect.objectContaining({
        errors: [expect.objectContaining({ pointer: "/act", detail: "This form is not one of the bench; open the page again." })],
      }),
    ]);
    const beyond = await post({ ...minutes, minutes: "6000" }, "three");
    expect(await beyond.json()).toMatchObject({ status: 409, type: "/problems/limit-passed" });
  });
});
