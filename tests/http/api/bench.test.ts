/** The bench through the API; every answer is held to its OpenAPI entry, every refusal to its fixture. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { answerOf, close } from "../../acts/support/bench.js";
import { closing, worked } from "../../records/support/closed.js";
import { at, TAPE_ECHO } from "../../records/support/livedIn.js";
import { agreedByTime, agreedShop } from "../support/agreedShop.js";
import { demo } from "../support/shop.js";

// biome-ignore lint/suspicious/noExplicitAny: a JSON body, read field by field
const read = async (response: Response): Promise<any> => response.json();

interface Made {
  readonly entry?: object;
  readonly timer?: object;
  readonly stop?: object;
  readonly tick?: object;
  readonly reading?: object;
}
interface Refusal extends Made {
  readonly name: string;
  readonly when: string;
  readonly status: number;
  readonly pointer?: string;
  readonly text: string;
}
const { refusals, closed } = JSON.parse(
  readFileSync(new URL("../../../fixtures/bench/refusals.json", import.meta.url), "utf8"),
) as { readonly refusals: readonly Refusal[]; readonly closed: readonly (Made & { readonly what: string })[] };

async function opened(having = agreedShop) {
  const opened = await having();
  const post = (path: string, body: object, headers: Record<string, string> = {}, job = TAPE_ECHO) =>
    opened.send("POST", `/api/jobs/${job}/${path}`, { person: "Ines", ...body }, headers);
  const log = (entry: object, headers?: Record<string, string>, job?: string) =>
    post("work-log", { workedOn: "2026-11-25", ...entry }, headers, job);
  const list = async (path: string) => read(await opened.call(`/api/jobs/${TAPE_ECHO}/${path}`));
  const make = ({ entry, timer, stop, tick, reading }: Made) =>
    entry
      ? log(entry)
      : timer
        ? post("timers", timer)
        : stop
          ? post("timers/stop", stop)
          : tick
            ? post("tick-offs", tick)
            : post("readings", reading!);
  return { ...opened, post, log, list, make };
}

describe("the bench", () => {
  it("runs one timer a person, and logs its time when it is paused, once for each key", async () => {
    const { post, list, pass } = await opened();
    const started = await post("timers", { item: "w02" });
    expect([started.status, await read(started)]).toMatchObject([201, { item: "w02", startedAt: "2026-11-25T09:00:00.000Z" }]);
    expect((await post("timers", { item: "w02", person: "Tamsin" })).status).toBe(201);
    pass(90_000);
    for (const replayed of [null, "true"]) {
      const stopped = await post("timers/stop", { note: "to be gone on with" }, { "idempotency-key": '"stop"' });
      expect([stopped.status, stopped.headers.get("idempotency-replayed")]).toEqual([201, replayed]);
      expect(await read(stopped)).toMatchObject({ item: "w02", endedAt: "2026-11-25T09:01:30.000Z", note: "to be gone on with" });
    }
    expect((await list("timers")).items).toMatchObject([{ person: "Tamsin" }]);
    expect((await list("work-log")).items).toHaveLength(1);
  });

  it("keeps the timer while the log refuses its time, and takes it by an override", async () => {
    const { post, list } = await opened(agreedByTime);
    await post("timers", { item: "w02", startedAt: "2026-11-25T01:00:00Z" });
    const fill = { item: "w01", minutes: 400, person: "Tamsin", workedOn: "2026-11-25" };
    expect((await post("work-log", fill)).status).toBe(201);
    const stop = { endedAt: "2026-11-25T20:00:00Z" };
    expect(await read(await post("timers/stop", stop))).toMatchObject({ status: 409, type: "/problems/limit-passed" });
    expect((await list("timers")).items).toHaveLength(1);
    const stopped = await post("timers/stop", { ...stop, override: { by: "Wilhelmina", reason: "our own fault" } });
    expect([stopped.status, await read(stopped)]).toMatchObject([201, { overrideId: expect.any(String) }]);
    expect((await list("timers")).items).toEqual([]);
  });

  it("logs parts by kind with what they cost, takes them off the shelf, and keeps counts and readings", async () => {
    const { log, post, list, db } = await opened();
    const part = { item: "w02", partKind: "drive-belt" };
    expect(await read(await log(part))).toMatchObject({
      partCount: 1,
      partState: "reproduction",
      paidPrice: expect.any(Number),
      paidPer: 1,
    });
    const paid = { ...part, partCount: 2, paidPrice: 450, paidPer: 3, partState: "used", partReason: "from a lot" };
    expect(await read(await log(paid))).toMatchObject({ errors: [{ pointer: "/partCount", name: "more than needed" }] });
    expect(await read(await log({ ...paid, beyond: true, note: "one was cracked" }))).toMatchObject(paid);
    const { rows } = await db.run(
      "SELECT beyond - change AS pieces FROM stock_movements WHERE why = 'used on job' ORDER BY number",
    );
    expect(rows.map(({ pieces }) => pieces)).toEqual([1, 2]);
    for (const count of [1, 4, 2]) expect((await post("tick-offs", { item: "w01", count })).status).toBe(201);
    expect(await list("tick-offs")).toMatchObject({ done: { w01: 2 }, items: [{ count: 1 }, { count: 4 }, { count: 2 }] });
    const reading = { label: "supply +12 V", expected: 12, found: 11.9, unit: "V" };
    expect((await post("readings", reading)).status).toBe(201);
    expect((await list("readings")).items).toMatchObject([{ ...reading, person: "Ines" }]);
    for (const path of ["timers", "tick-offs", "readings"]) expect((await list(path)).items).toBeDefined();
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("refuses by name, place and text what cannot be right, and nothing is lost or added", async () => {
    const { log, post, make, list } = await opened(agreedByTime);
    const other = (await demo()).jobs[0]!.id;
    const override = { by: "Wilhelmina", reason: "a test of two jobs" };
    const before = [
      await post("timers", { item: "w02", startedAt: "2026-11-25T10:00:00Z" }),
      await log({ item: "w01", startedAt: "2026-11-25T08:00:00Z", endedAt: "2026-11-25T09:00:00Z" }),
      await log({ startedAt: "2026-11-25T06:00:00Z", endedAt: "2026-11-25T07:00:00Z", override }, {}, other),
    ];
    expect(before.map(({ status }) => status)).toEqual([201, 201, 201]);
    for (const refusal of refusals) {
      const answer = await make(refusal);
      const { type, detail, errors } = await read(answer);
      const one = errors?.[0];
      const name = (one ? one.type : type).replace("/problems/", "").replaceAll("-", " ");
      const text = (one?.detail ?? detail).replaceAll("\u00a0", " ");
      const pointer = one?.pointer;
      expect({ ...refusal, name, status: answer.status, ...(pointer !== undefined && { pointer }), text }).toEqual(refusal);
    }
    expect((await list("work-log")).items).toHaveLength(1);
    expect((await list("timers")).items).toHaveLength(1);
    expect((await list("tick-offs")).items).toEqual([]);
  });

  it("withdraws a wrong entry once for each key, and says by name what it can not withdraw", async () => {
    const { log, send, list, call } = await opened();
    const { id } = await read(await log({ item: "w02", minutes: 200 }));
    const why = { by: "Tamsin", reason: "200 typed for 20" };
    const withdraw = (entry: string, headers?: Record<string, string>, body: object = why, job = TAPE_ECHO) =>
      send("POST", `/api/jobs/${job}/work-log/${entry}/withdrawal`, body, headers);
    expect((await withdraw(id, {}, { by: "Tamsin" })).status).toBe(422);
    for (const replayed of [null, "true"]) {
      const done = await withdraw(id, { "idempotency-key": '"wrong"' });
      expect([done.status, done.headers.get("idempotency-replayed")]).toEqual([201, replayed]);
      expect(await read(done)).toMatchObject({ ...why, entryId: id });
    }
    expect((await list("work-log")).items).toMatchObject([{ id, minutes: 200, withdrawal: why }]);
    const refused = [await withdraw(id), await withdraw("nothing"), await withdraw(id, {}, why, "nobody")];
    expect(await Promise.all(refused.map(read))).toMatchObject([
      { status: 409, type: "/problems/entry-withdrawn-already", detail: "Tamsin withdrew this entry before: 200 typed for 20" },
      { status: 404, type: "/problems/log-entry-unknown" },
      { status: 404, type: "/problems/not-found" },
    ]);
    const csv = await (await call("/api/csv/work-log")).text();
    expect(csv).toMatch(/withdrawnAt,withdrawnBy,withdrawnWhy\r\n/);
    expect(csv).toContain(",Tamsin,200 typed for 20\r\n");
  });

  it("lets nothing more onto a closed job", async () => {
    const { make, db, call } = await opened();
    await worked(db, TAPE_ECHO);
    answerOf(await close(db, { job: TAPE_ECHO, when: at(600) }, closing()));
    for (const each of closed) {
      const answer = await make(each);
      expect([answer.status, await read(answer)], each.what).toMatchObject([
        409,
        {
          type: "/problems/job-closed",
          detail: expect.stringContaining("the job was closed on 4 December 2026 and its account is final"),
        },
      ]);
    }
    expect((await make({ stop: {} })).status).toBe(409);
    const page = await (await call(`/jobs/${TAPE_ECHO}/bench`, { headers: { accept: "text/html" } })).text();
    expect(page).toContain("The job was closed on 4 December 2026");
    expect(page).not.toContain('class="bench-form');
  });

  it("answers 404 for a job that is not there", async () => {
    const { call, make, send } = await opened();
    for (const path of ["timers", "tick-offs", "readings"]) expect((await call(`/api/jobs/nobody/${path}`)).status).toBe(404);
    const tick = { item: "w01", count: 1, person: "Ines" };
    expect((await send("POST", "/api/jobs/nobody/tick-offs", tick)).status).toBe(404);
    expect((await send("POST", "/api/jobs/nobody/timers", { person: "Ines" })).status).toBe(404);
    expect((await make({ tick: { item: "nothing", count: 1 } })).status).toBe(422);
  });
});
