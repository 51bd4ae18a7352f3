/** Revisions, links, answers, questions and the work log through the API; every answer is held to its OpenAPI entry. */
import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import type { Database } from "../../../src/records/database.js";
import { TAPE_ECHO } from "../../records/support/livedIn.js";
import { byTime } from "../support/agreedShop.js";
import { shop } from "../support/shop.js";

// biome-ignore lint/suspicious/noExplicitAny: a JSON body, read field by field
const read = async (response: Response): Promise<any> => response.json();

async function opened(first: (db: Database) => Promise<void> = async () => {}) {
  const at = await shop();
  await first(at.db);
  const { items } = await read(await at.call(`/api/estimates?job=${TAPE_ECHO}`));
  const draft = items[0];
  const issue = (
    id = draft.id,
    version = draft.version,
    body: object = { by: "Wilhelmina" },
    headers: Record<string, string> = {},
  ) => at.send("POST", `/api/estimates/${id}/issue`, body, { "if-match": `"${version}"`, ...headers });
  const agree = (id = draft.id, changed: object = {}) =>
    at.send("POST", `/api/estimates/${id}/agreements`, {
      answer: "agreed",
      by: "Ottilie Vantongeren",
      channel: "e-mail",
      writing: "message of 25 November",
      recordedBy: "Wilhelmina",
      chosen: [],
      ...changed,
    });
  return { ...at, draft, issue, agree };
}

describe("issuing", () => {
  it("keeps the PDF that was printed, and prints it again byte for byte", async () => {
    const { draft, issue, call, pass, db } = await opened();
    expect((await issue()).status).toBe(200);
    const first = new Uint8Array(await (await call(`/api/estimates/${draft.id}/estimate.pdf`)).arrayBuffer());
    const kept = await read(await call(`/api/estimates/${draft.id}/issue`));
    expect(kept).toMatchObject({ by: "Wilhelmina", revision: 1, superseded: false, headNumber: 1 });
    expect(kept.pdfHash).toBe(createHash("sha256").update(first).digest("hex"));
    await db.run("UPDATE settings SET name = 'Another name', paper = 'Letter'");
    pass(40 * 24 * 3_600_000);
    expect(new Uint8Array(await (await call(`/api/estimates/${draft.id}/estimate.pdf`)).arrayBuffer())).toEqual(first);
  });

  it("repeated with its key answers the same, and neither answer nor reply on record holds the link's secret", async () => {
    const { issue, db } = await opened();
    const key = { "idempotency-key": '"once"' };
    const [first, again] = [await issue(undefined, 1, undefined, key), await issue(undefined, 1, undefined, key)];
    expect(again.headers.get("idempotency-replayed")).toBe("true");
    const text = await first.text();
    expect(await again.text()).toBe(text);
    expect(JSON.parse(text).input.paperwork).not.toHaveProperty("link");
    expect(JSON.parse(text).input.paperwork).not.toHaveProperty("code");
    expect(JSON.stringify((await db.run("SELECT body FROM idempotent_replies")).rows)).not.toMatch(/\/o#/);
  });

  it("names every field that the agreement profile misses, and changes nothing", async () => {
    const { draft, issue, send, call } = await opened();
    const { jobId, rateBookId, rateBookVersion } = draft;
    const input = {
      ...draft.input,
      policy: { ...draft.input.policy, profile: "us-ca" },
      unit: { ...draft.input.unit, found: "This estimate is a minimum." },
    };
    await send("PUT", `/api/estimates/${draft.id}`, { jobId, rateBookId, rateBookVersion, input }, { "if-match": '"1"' });
    const refused = await issue(draft.id, 2);
    expect(refused.status).toBe(422);
    const { type, errors } = await read(refused);
    expect(type).toBe("/problems/profile-unmet");
    // 16 CCR 2721 and 2722 (SEEN, CHECKS 3.1): registration number; never called a minimum.
    expect(errors).toContainEqual(
      expect.objectContaining({ name: "field missing", detail: expect.stringContaining("registration number") }),
    );
    expect(errors).toContainEqual(expect.objectContaining({ name: "word not allowed", pointer: "/input/unit/found" }));
    expect((await read(await call(`/api/estimates/${draft.id}`))).issuedAt).toBeUndefined();
    expect((await call(`/api/estimates/${draft.id}/issue`)).status).toBe(404);
  });

  it("of one draft by several at once is done once", async () => {
    const { issue } = await opened();
    const answers = await Promise.all([issue(), issue(), issue(), issue()]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409]);
  });

  it("against saving: one wins, and the other is answered 409 or 412 with the record as it stands", async () => {
    const { draft, issue, send } = await opened();
    const { jobId, rateBookId, rateBookVersion, input } = draft;
    const save = () =>
      send(
        "PUT",
        `/api/estimates/${draft.id}`,
        { jobId, rateBookId, rateBookVersion, input: { ...input, asOf: "2026-11-24" } },
        { "if-match": '"1"' },
      );
    const [issued, saved] = await Promise.all([issue(), save()]);
    const statuses = [issued.status, saved.status];
    expect(statuses.filter((status) => status === 200)).toHaveLength(1);
    const lost = issued.status === 200 ? saved : issued;
    expect([409, 412]).toContain(lost.status);
    if (lost.status === 412) expect((await read(lost)).current).toMatchObject({ id: draft.id, version: 2 });
  });

  it("is followed by one open draft, a copy; a second is refused with the one there is", async () => {
    const { draft, issue, send } = await opened();
    const next = () => send("POST", `/api/jobs/${TAPE_ECHO}/estimates`, {});
    const open = await next();
    expect([open.status, (await read(open)).current.id]).toEqual([409, draft.id]);
    await issue();
    const answers = await Promise.all([next(), next(), next()]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    const added = await read(answers.find(({ status }) => status === 201)!);
    expect(added).toMatchObject({ revision: 2, version: 1 });
    for (const refused of answers.filter(({ status }) => status === 409)) {
      expect(refused.headers.get("location")).toBe(`/api/estimates/${added.id}`);
      expect(await read(refused)).toMatchObject({ type: "/problems/draft-open", current: { id: added.id } });
    }
    expect((await send("POST", "/api/jobs/nobody/estimates", {})).status).toBe(404);
  });
});

describe("a save that meets another", () => {
  it("is told the other version whole, so that nothing is lost", async () => {
    const { draft, send } = await opened();
    const { jobId, rateBookId, rateBookVersion, input } = draft;
    const save = (asOf: string) =>
      send(
        "PUT",
        `/api/estimates/${draft.id}`,
        { jobId, rateBookId, rateBookVersion, input: { ...input, asOf } },
        { "if-match": '"1"' },
      );
    expect((await save("2026-11-24")).status).toBe(200);
    const lost = await save("2026-11-23");
    expect(lost.status).toBe(412);
    expect((await read(lost)).current).toMatchObject({ version: 2, input: { asOf: "2026-11-24" } });
  });
});

describe("links", () => {
  it("are made for issued estimates, told once, listed without what proves them, and withdrawn for good", async () => {
    const { draft, issue, send, call } = await opened();
    const make = () =>
      send("POST", `/api/estimates/${draft.id}/owner-links`, {
        by: "Wilhelmina",
        deliveredTo: "ottilie@larkholt.example",
        days: 14,
      });
    expect((await read(await make())).type).toBe("/problems/estimate-not-issued");
    await issue();
    const made = await make();
    expect([made.status, made.headers.get("cache-control")]).toEqual([201, "no-store"]);
    const link = await read(made);
    expect(link).toMatchObject({
      address: expect.stringMatching(/^http:\/\/localhost:4700\/o#[\w-]{12}\.[\w-]{24}$/),
      expiresAt: "2026-12-09T09:00:00.000Z",
    });
    const listed = await (await call(`/api/estimates/${draft.id}/owner-links`)).text();
    expect(JSON.parse(listed).items).toHaveLength(2);
    expect(listed).not.toContain(link.address.split(".").at(-1));
    expect(listed).not.toContain(link.code);
    const withdraw = () => send("POST", `/api/owner-links/${link.id}/withdrawal`, { by: "Wilhelmina", reason: "wrong address" });
    const first = await read(await withdraw());
    expect(first.withdrawal).toMatchObject({ by: "Wilhelmina", reason: "wrong address" });
    expect(await read(await withdraw())).toEqual(first);
    expect((await send("POST", "/api/owner-links/nothing/withdrawal", { by: "W" })).status).toBe(404);
  });

  it("begin with the address owners reach the shop at, where one is set", async () => {
    const at = await shop({ originOf: () => "https://estimates.example" });
    const { items } = await read(await at.call(`/api/estimates?job=${TAPE_ECHO}`));
    await at.send("POST", `/api/estimates/${items[0].id}/issue`, { by: "W" }, { "if-match": '"1"' });
    const made = await at.send("POST", `/api/estimates/${items[0].id}/owner-links`, { by: "W", deliveredTo: "x" });
    expect((await read(made)).address).toMatch(/^https:\/\/estimates\.example\/o#/);
  });
});

describe("an answer before it is given", () => {
  it("is told in the words and the amount that stand on record after it, and nothing is kept of it", async () => {
    const { draft, issue, agree, send, call } = await opened();
    const preview = (body: object, id = draft.id) => send("POST", `/api/estimates/${id}/agreements/preview`, body);
    const asked = { answer: "part agreed", chosen: [], struck: ["w05"] };
    expect((await read(await preview(asked))).type).toBe("/problems/estimate-not-issued");
    await issue();
    const told = await read(await preview(asked));
    const whole = await read(await preview({ answer: "agreed" }));
    expect(told.amount).toBeLessThan(whole.amount);
    expect(told.contentHash).toBe((await read(await call(`/api/estimates/${draft.id}/issue`))).contentHash);
    const declined = await read(await preview({ answer: "declined", struck: ["w05"] }));
    expect(declined).toMatchObject({ answer: "declined", chosen: [], struck: [] });
    expect(declined.amount).toBeUndefined();
    expect((await read(await call(`/api/jobs/${TAPE_ECHO}/agreements`))).items).toEqual([]);
    expect(await read(await agree(draft.id, asked))).toMatchObject(told);
    // As it would be for a correction too.
    expect(await read(await preview({ answer: "agreed" }))).toEqual(whole);
  });

  it("is refused as it would be when given: of a set that differs, of work that is not there, of other content", async () => {
    const { draft, issue, send } = await opened();
    await issue();
    const refusal = async (body: object, id = draft.id) => {
      const answer = await send("POST", `/api/estimates/${id}/agreements/preview`, body);
      const { type, errors } = await read(answer);
      return [answer.status, errors?.[0].pointer ?? type];
    };
    expect(await refusal({ answer: "agreed", struck: ["w05"] })).toEqual([422, "/answer"]);
    expect(await refusal({ answer: "part agreed", struck: ["nothing"] })).toEqual([422, "/struck"]);
    expect(await refusal({ answer: "agreed", contentHash: "another" })).toEqual([409, "/problems/content-differs"]);
    expect(await refusal({ answer: "agreed" }, "nothing")).toEqual([404, "/problems/not-found"]);
  });
});

describe("lists of a job", () => {
  it("come page by page, each event once, and nothing after one that is not there", async () => {
    const { issue, agree, call } = await opened();
    await issue();
    await agree();
    const path = `/api/jobs/${TAPE_ECHO}/events`;
    const { items } = await read(await call(path));
    expect(items.length).toBeGreaterThan(1);
    const seen: unknown[] = [];
    let next: string | undefined = `${path}?limit=1`;
    while (next) {
      const page: Response = await call(next);
      seen.push(...(await read(page)).items);
      next = /<([^>]+)>; rel="next"/.exec(page.headers.get("link") ?? "")?.[1];
    }
    expect(seen).toEqual(items);
    expect(await read(await call(`${path}?after=1000`))).toEqual({ items: [] });
    expect((await call(`${path}?limit=0`)).status).toBe(400);
    expect((await call("/api/jobs/nobody/events")).status).toBe(404);
  });
});

describe("answers taken by the shop", () => {
  it("given by telephone are taken on the day it is, also where the clock was put back since the revision was issued", async () => {
    const { draft, issue, agree, pass } = await opened();
    await issue();
    pass(-24 * 3_600_000);
    const said = { date: "2026-11-24", time: "08:15" };
    expect((await agree(draft.id, { answer: "declined", channel: "telephone", writing: undefined, spoken: said })).status).toBe(
      201,
    );
  });

  it("given by telephone, keeps when it was said, of a refusal too, and refuses a day on which it cannot have been", async () => {
    const { draft, issue, agree, pass } = await opened();
    await issue();
    pass(30 * 60_000);
    const said = (spoken: object) => agree(draft.id, { answer: "declined", channel: "telephone", writing: undefined, spoken });
    const wrong = async (spoken: object) =>
      (await read(await said(spoken))).errors?.map(({ pointer }: { pointer: string }) => pointer);
    expect(await wrong({ date: "yesterday" })).toEqual(["/spoken/date"]);
    expect(await wrong({ date: "2026-11-24", time: "14:30" })).toEqual(["/spoken/date"]);
    expect(await wrong({ date: "2026-11-25", time: "noon" })).toEqual(["/spoken/time"]);
    expect(await wrong({ date: "2026-11-25", time: "08:15" })).toEqual(["/spoken/time"]);
    const answered = await said({ date: "2026-11-25", time: "09:15", numberCalled: "020 7946 0101" });
    expect(answered.status).toBe(201);
    expect(await read(answered)).toMatchObject({
      ...{ answer: "declined", channel: "telephone" },
      spoken: {
        ...{ date: "2026-11-25", time: "09:15", numberCalled: "020 7946 0101" },
        ...{ authoriser: "Ottilie Vantongeren", receiver: "Wilhelmina" },
      },
    });
  });

  it("are put on record once, and the standing of the job follows", async () => {
    const { draft, issue, agree, call } = await opened();
    expect((await read(await agree())).type).toBe("/problems/estimate-not-issued");
    await issue();
    const answered = await agree();
    expect(answered.status).toBe(201);
    const record = await read(answered);
    expect(record.wording).toMatch(/^I agree to estimate J-2026-0002, revision 1, of 25 November 2026: do the work listed\./);
    expect([(await agree()).status, await read(await agree())]).toEqual([200, record]);
    expect((await read(await agree(draft.id, { answer: "declined" }))).type).toBe("/problems/answered-already");
    const standing = await read(await call(`/api/jobs/${TAPE_ECHO}/standing`));
    expect(standing).toMatchObject({
      current: { id: draft.id },
      agreed: { agreementId: record.id, revision: 1, limit: { agreed: record.amount } },
    });
    expect(standing.unagreed).toEqual([{ id: "w20", why: "option not chosen" }]);
  });

  it("by telephone name each particular that is missing", async () => {
    const { draft, issue, agree } = await opened();
    await issue();
    const refused = await agree(draft.id, { channel: "telephone", spoken: { date: "2026-11-25" } });
    expect(refused.status).toBe(422);
    const { errors } = await read(refused);
    expect(errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(["/spoken/time"]);
    expect(errors.every(({ name }: { name: string }) => name === "spoken item missing")).toBe(true);
    const said = { date: "2026-11-25", time: "10:30" };
    const mute = await read(await agree(draft.id, { channel: "telephone", spoken: said }));
    expect(mute.errors).toEqual([expect.objectContaining({ pointer: "/amount", name: "key missing" })]);
    const other = await read(await agree(draft.id, { channel: "telephone", spoken: said, amount: 1 }));
    expect(other.errors).toEqual([expect.objectContaining({ pointer: "/amount", name: "price differs" })]);
  });

  it("in person name both ways, where neither what was said nor what was written is given", async () => {
    const { draft, issue, agree } = await opened();
    await issue();
    const { errors } = await read(await agree(draft.id, { channel: "in person", writing: undefined }));
    expect(errors[0]).toMatchObject({
      pointer: "/spoken/date",
      detail: expect.stringContaining("a spoken agreement is recorded with it, and one in writing with the writing it rests on."),
    });
  });

  it("to a superseded revision are refused and name the current one", async () => {
    const { draft, issue, agree, send } = await opened();
    await issue();
    const next = await read(await send("POST", `/api/jobs/${TAPE_ECHO}/estimates`, {}));
    await issue(next.id);
    const refused = await agree(draft.id);
    expect([refused.status, await read(refused)]).toEqual([
      409,
      expect.objectContaining({ type: "/problems/revision-superseded", detail: expect.stringContaining("Revision 2") }),
    ]);
  });

  it("against a newer revision issued at the same moment: never both unless the answer came first", async () => {
    for (let run = 0; run < 4; run++) {
      const { draft, issue, agree, send, call } = await opened();
      await issue();
      const next = await read(await send("POST", `/api/jobs/${TAPE_ECHO}/estimates`, {}));
      const [issued, agreed] = await Promise.all([issue(next.id), agree(draft.id)]);
      expect(["200 201", "409 201", "200 409"]).toContain(`${issued.status} ${agreed.status}`);
      const { items } = await read(await call(`/api/jobs/${TAPE_ECHO}/events`));
      const names = items.map(({ is }: { is: string }) => is);
      if (issued.status === 200 && agreed.status === 201)
        expect(names.indexOf("answered")).toBeLessThan(names.lastIndexOf("issued"));
      if (issued.status === 409) expect((await read(issued)).type).toBe("/problems/owner-answered");
    }
  });
});

describe("the work log", () => {
  it("refuses what is not agreed and what passes the limit, by name, unless somebody says why", async () => {
    const { issue, agree, send, call } = await opened(byTime);
    await issue();
    const log = (entry: object) =>
      send("POST", `/api/jobs/${TAPE_ECHO}/work-log`, { person: "Wilhelmina", workedOn: "2026-11-25", ...entry });
    expect(await read(await log({ item: "w02", minutes: 5 }))).toMatchObject({ status: 409, type: "/problems/work-unagreed" });
    await agree();
    expect((await log({ item: "w01", minutes: 5 })).status).toBe(201);
    expect((await read(await log({ item: "w20", minutes: 5 }))).type).toBe("/problems/work-unagreed");
    const passing = await read(await log({ item: "w02", minutes: 6000 }));
    expect(passing).toMatchObject({
      status: 409,
      type: "/problems/limit-passed",
      detail: expect.stringMatching(/pass what the owner agreed to by £/),
    });
    const override = { by: "Wilhelmina", reason: "our own fault" };
    const overridden = await read(await log({ item: "w02", minutes: 6000, override }));
    expect(overridden.overrideId).toBeTruthy();
    expect((await log({ item: "w02", minutes: 6000, override: { by: "", reason: "x" } })).status).toBe(422);
    expect((await log({ item: "nothing", minutes: 5 })).status).toBe(422);
    expect((await read(await call(`/api/jobs/${TAPE_ECHO}/work-log`))).items).toHaveLength(2);
    expect((await send("POST", "/api/jobs/nobody/work-log", { person: "W", workedOn: "2026-11-25", minutes: 1 })).status).toBe(
      404,
    );
  });
});

describe("an estimate as a UBL quotation", () => {
  it("names the revision before, and is served as XML", async () => {
    const { draft, issue, send, call } = await opened();
    await issue();
    const next = await read(await send("POST", `/api/jobs/${TAPE_ECHO}/estimates`, {}));
    await issue(next.id);
    const response = await call(`/api/estimates/${next.id}/quotation.xml`);
    expect([response.status, response.headers.get("content-type")]).toEqual([200, "application/xml; charset=utf-8"]);
    const xml = await response.text();
    expect(xml).toContain("<cbc:ID>J-2026-0002/2</cbc:ID>");
    expect(xml).toMatch(/<cac:AdditionalDocumentReference>\s*<cbc:ID>J-2026-0002\/1<\/cbc:ID>/);
    expect(await (await call(`/api/estimates/${draft.id}/quotation.xml`)).text()).not.toContain("AdditionalDocumentReference");
    expect((await call("/api/estimates/nobody/quotation.xml")).status).toBe(404);
  });
});

describe("questions", () => {
  it("are listed by job and replied to", async () => {
    const { send, call } = await opened();
    expect((await read(await call(`/api/jobs/${TAPE_ECHO}/questions`))).items).toEqual([]);
    expect((await call("/api/jobs/nobody/questions")).status).toBe(404);
    expect((await send("POST", "/api/questions/nothing/replies", { by: "W", text: "Yes." })).status).toBe(404);
  });
});
