/** A draft of the demo shop (invented) that was a mistake. */
import { describe, expect, it } from "vitest";
import { withdrawDraft } from "../../src/acts/withdrawDraft.js";
import { estimates } from "../../src/records/estimates.js";
import { search } from "../../src/records/search.js";
import { eventsOf } from "../../src/records/trail.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { shop } from "../http/support/shop.js";
import { HAND, issued as issuedOnPage, story } from "../http/support/story.js";
import { draftSaved, nextDraft } from "../records/support/drafts.js";
import { at, draftOf, issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { deskAt, done } from "./support/desk.js";

const SAID = { by: "Wilhelmina Stråhle", reason: "begun on the wrong job" };

describe("a mistaken draft", () => {
  it("is gone once withdrawn, its event says by whom and why, and the next draft takes its number", async () => {
    const { db } = await shop();
    await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const second = (await nextDraft(db, TAPE_ECHO, "second", at(2))).record!;
    const found = { ...second.input, unit: { ...second.input.unit, found: "zzquark resistor" } };
    await draftSaved(db, "second", second.version, { ...second, input: found }, at(2));
    expect(await search(db, ["zzquark"], 5)).toHaveLength(1);
    const outcome = await done(withdrawDraft, deskAt(db, at(3)), SAID, { id: "second" });
    expect(outcome).toMatchObject({ ok: true, answer: { id: "second", revision: 2, ...SAID } });
    expect((await estimates.ofJob(db, TAPE_ECHO)).map(({ revision }) => revision)).toEqual([1]);
    expect(await search(db, ["zzquark"], 5)).toEqual([]);
    expect((await eventsOf(db, TAPE_ECHO)).at(-1)).toMatchObject({ is: "draft withdrawn", content: { revision: 2, ...SAID } });
    expect((await nextDraft(db, TAPE_ECHO, "third", at(4))).record).toMatchObject({ id: "third", revision: 2 });
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("stays where it was issued, saved by another since, or withdrawn before", async () => {
    const { db } = await shop();
    const { id, version } = await draftOf(db, TAPE_ECHO);
    const withdraw = (seen?: number) => done(withdrawDraft, deskAt(db, at(3)), SAID, { id, ...(seen !== undefined && { seen }) });
    expect(await withdraw(version + 1)).toMatchObject({ ok: false, refusal: { is: "version moved" } });
    await issued(db, id);
    expect(await withdraw()).toMatchObject({ ok: false, refusal: { is: "estimate issued" } });
    await expect(db.run(`DELETE FROM estimates WHERE id = '${id}'`)).rejects.toThrow();
    await nextDraft(db, TAPE_ECHO, "second", at(4));
    const both = [0, 1].map(() => done(withdrawDraft, deskAt(db, at(5)), SAID, { id: "second" }));
    expect((await Promise.all(both)).map(({ ok }) => ok).sort()).toEqual([false, true]);
    expect((await eventsOf(db, TAPE_ECHO)).filter(({ is }) => is === "draft withdrawn")).toHaveLength(1);
  });

  it("is withdrawn by its page, which asks first, and by a program; its job then begins anew", async () => {
    const told = await story();
    await issuedOnPage(told);
    await told.desk.send(`${told.job}/revisions`, []);
    const page = await told.desk.get(`${told.job}/draft/withdrawal`);
    const silent = await told.desk.press(page, "Withdraw it", { by: HAND });
    expect(silent.html).toContain('<a href="#reason">');
    const job = await told.desk.press(page, "Withdraw it", { by: HAND, reason: SAID.reason });
    expect(words(job.html)).toContain("The draft is withdrawn");
    expect(words((await told.desk.get(`${told.job}/trail`)).html)).toContain(`was withdrawn by ${HAND}: ${SAID.reason}`);
    const { send } = told.opened;
    const next = (await (await send("POST", `/api${told.job}/estimates`, {})).json()) as { id: string };
    expect((await send("POST", `/api/estimates/${next.id}/withdrawal`, SAID)).status).toBe(200);
    expect((await send("POST", `/api/estimates/${next.id}/withdrawal`, SAID)).status).toBe(404);
  });

  it("leaves a job without any estimate, which is begun from what was said when the unit came in", async () => {
    const told = await story();
    await told.opened.send("POST", `/api/estimates/${told.estimateId}/withdrawal`, SAID);
    const job = await told.desk.get(told.job);
    expect(job.status).toBe(200);
    const form = await told.desk.press(job, "Start an estimate");
    expect(form.html).toContain("Hum on every voice");
    const [draft] = await estimates.ofJob(told.opened.db, told.jobId);
    expect(draft).toMatchObject({ revision: 1, input: { unit: { maker: "Quellmarsh" }, items: [] } });
  });
});

describe("programs can, as pages do", () => {
  it("price an extra fault now and later, add it, and compare the two revisions", async () => {
    const told = await story();
    await issuedOnPage(told);
    const { send, call } = told.opened;
    const said = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
    const priced = (await (await send("POST", `/api${told.job}/extra-fault/price`, said)).json()) as Record<
      string,
      { price: number }
    >;
    expect(priced.later!.price).toBeGreaterThan(priced.now!.price);
    expect(await estimates.ofJob(told.opened.db, told.jobId)).toHaveLength(1);
    expect((await call(`/api${told.job}/changes`)).status).toBe(404);
    const added = await send("POST", `/api${told.job}/extra-fault`, said);
    expect(added.status).toBe(201);
    const draft = (await added.json()) as { revision: number; sheet: { totals: { total: number } } };
    expect(draft).toMatchObject({ revision: 2, sheet: { totals: { total: priced.total } } });
    const changes = (await (await call(`/api${told.job}/changes`)).json()) as {
      sums: { total: { difference: number } };
      causes: object[];
    };
    expect(changes.sums.total.difference).toBe(priced.now!.price);
    expect(changes.causes).toContainEqual(expect.objectContaining({ cause: "extra faults", amount: priced.now!.price }));
    expect(await (await call(`/api${told.job}/changes?from=1&to=2`)).json()).toEqual(changes);
    expect((await call(`/api${told.job}/changes?from=1&to=7`)).status).toBe(404);
    const unknown = await send("POST", `/api${told.job}/extra-fault`, { ...said, where: "the attic" });
    expect(await unknown.json()).toMatchObject({
      errors: [{ pointer: "/where", detail: expect.stringContaining("Supply board") }],
    });
  });
});
