import { createHash } from "node:crypto";
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from "vitest";
import { mismatchText } from "../../src/acts/checked/mismatch.js";
import { verifyJob } from "../../src/acts/checked/verifyJob.js";
import { takePayment, withdrawPayment } from "../../src/acts/takePayment.js";
import { type Agreement, answersOf } from "../../src/records/agreements.js";
import { connectFile } from "../../src/records/connectFile.js";
import type { Database } from "../../src/records/database.js";
import { estimates } from "../../src/records/estimates.js";
import { issues } from "../../src/records/issues.js";
import { RECORD_TABLES } from "../../src/records/onRecord.js";
import { ownerLinks } from "../../src/records/ownerLinks.js";
import { eventsOf, shortHead } from "../../src/records/trail.js";
import { answerOf } from "../acts/support/bench.js";
import { deskAt, done } from "../acts/support/desk.js";
import { demoFile, shop } from "../http/support/shop.js";
import { runs } from "../setup/runs.js";
import { answer, asks, links } from "./support/answer.js";
import { draftSaved, issue, nextDraft, outgoing } from "./support/drafts.js";
import { at, draftOf, given, issued, TAPE_ECHO } from "./support/livedIn.js";
import { livedInShop } from "./support/livedInShop.js";
import { requestsOf } from "./support/requests.js";

/** Sorted keys, written down again without the engine's own function. */
const sorted = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(sorted)
    : value !== null && typeof value === "object"
      ? Object.fromEntries(
          Object.entries(value)
            .filter(([, inner]) => inner !== undefined)
            .sort(([a], [b]) => (a < b ? -1 : 1))
            .map(([key, inner]) => [key, sorted(inner)]),
        )
      : value;
const hashOf = (data: string | Uint8Array) => createHash("sha256").update(data).digest("hex");

describe("an issued revision", () => {
  // Judge: Node's own SHA-256 over JSON with its keys in order.
  it("carries the hash of its whole input and its sheet, and of the very bytes of its PDF", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const kept = (await issues.find(db, record.id))!;
    const input = await estimates.inputOf(db, (await estimates.find(db, record.id))!);
    expect(kept.contentHash).toBe(hashOf(JSON.stringify(sorted({ input, sheet: record.sheet }))));
    const pdf = (await issues.pdf(db, record.id))!;
    expect(new TextDecoder().decode(pdf.slice(0, 5))).toBe("%PDF-");
    expect(kept.pdfHash).toBe(hashOf(pdf));
    expect(await estimates.find(db, record.id)).toEqual(record);
  });

  it("names on paper the head of the chain as it stood before", async () => {
    const { db } = await shop();
    const { record, issue: kept } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const [begun, done, link] = await eventsOf(db, TAPE_ECHO);
    expect([begun!.is, done!.is, link!.is]).toEqual(["draft begun", "issued", "link made"]);
    expect(kept).toMatchObject({ headNumber: 1, headHash: begun!.hash });
    expect(record.input.paperwork?.chainHead).toBe(shortHead(begun!));
    expect(record.input.paperwork?.chainHead).toMatch(/^1-[0-9a-f]{16}$/);
  });

  it("leaves the link's secret and the code nowhere in the records but on the paper itself", async () => {
    const { db } = await shop();
    const { secret } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const [id, hidden] = secret.fragment.split(".") as [string, string];
    expect([hidden.length * 6, secret.code]).toEqual([
      144,
      expect.stringMatching(/^[0-9A-HJKMNP-TV-Z]{5}-[0-9A-HJKMNP-TV-Z]{5}$/),
    ]);
    const { rows: tables } = await db.run("SELECT name FROM sqlite_master WHERE type = 'table'");
    let text = "";
    for (const { name } of tables) text += JSON.stringify((await db.run(`SELECT * FROM "${name}"`)).rows);
    expect(text).toContain(id);
    expect(text).not.toContain(hidden);
    expect(text).not.toContain(secret.code);
    expect(text).not.toContain(secret.code.replace("-", ""));
    expect(await ownerLinks.byFragment(db, secret.fragment)).toMatchObject({ id, deliveredTo: "on paper" });
    expect(await ownerLinks.byFragment(db, `${id}.${hidden.slice(0, -1)}`)).toBeUndefined();
    expect(await ownerLinks.byCode(db, "J-2026-0002", secret.code.toLowerCase().replace("-", " "))).toMatchObject({ id });
    expect(await ownerLinks.byCode(db, "J-2026-0001", secret.code)).toBeUndefined();
  });

  it("never leaves where its profile asks for what it lacks", async () => {
    const { db } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    const input = { ...draft.input, policy: { ...draft.input.policy, profile: "us-ca" } };
    await draftSaved(db, draft.id, 1, { ...draft, input }, at(1));
    const answer = await issue(db, draft.id, 2, outgoing(), at(2));
    expect(answer.is).toBe("profile unmet");
    expect(answer).toMatchObject({
      errors: expect.arrayContaining([
        expect.objectContaining({ name: "field missing", detail: expect.stringContaining("registration") }),
      ]),
    });
    expect((await estimates.find(db, draft.id))?.issuedAt).toBeUndefined();
    expect(await eventsOf(db, TAPE_ECHO)).toHaveLength(1);
  });

  it("is copied for the next draft without the paperwork it went out with", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const next = await nextDraft(db, TAPE_ECHO, "next", at(2));
    const { paperwork: _, ...input } = record.input;
    expect(next).toMatchObject({ is: "done", record: { revision: 2, input } });
    expect((next as { record: { input: object } }).record.input).not.toHaveProperty("paperwork");
    expect(await nextDraft(db, TAPE_ECHO, "more", at(3))).toMatchObject({ is: "draft open", current: { id: "next" } });
    expect(await nextDraft(db, "no job", "none", at(3))).toMatchObject({ is: "not found" });
  });
});

describe("the database itself", () => {
  const refused = (db: Database, statement: string) => expect(db.run(statement), statement).rejects.toThrow();

  it("refuses to change, delete or replace any row on record, and any event", async () => {
    const { db } = await livedInShop();
    const { id } = answerOf(
      await done(
        takePayment,
        deskAt(db, at(700)),
        { for: "other", amount: 100, on: "2026-11-25", how: "cash", by: "Ines", beyond: true },
        { job: TAPE_ECHO },
      ),
    );
    answerOf(
      await done(withdrawPayment, deskAt(db, at(701)), { by: "Ines", reason: "wrong job" }, { job: TAPE_ECHO, payment: id }),
    );
    for (const table of [...Object.keys(RECORD_TABLES), "events"]) {
      const before = (await db.run(`SELECT * FROM ${table}`)).rows;
      expect(before.length, table).toBeGreaterThan(0);
      await refused(db, `UPDATE ${table} SET at = '2020-01-01T00:00:00.000Z'`);
      await refused(db, `UPDATE OR REPLACE ${table} SET job_id = job_id`);
      await refused(db, `DELETE FROM ${table}`);
      await refused(db, `INSERT OR REPLACE INTO ${table} SELECT * FROM ${table} LIMIT 1`);
      expect(JSON.stringify((await db.run(`SELECT * FROM ${table}`)).rows), table).toBe(JSON.stringify(before));
    }
  });

  it.each([
    "UPDATE estimates SET input = '{}' WHERE issued_at IS NOT NULL",
    "UPDATE estimates SET issued_at = NULL, issued_by = NULL WHERE issued_at IS NOT NULL",
    "DELETE FROM estimates",
    "INSERT OR REPLACE INTO estimates SELECT * FROM estimates WHERE issued_at IS NOT NULL LIMIT 1",
    `UPDATE OR REPLACE estimates SET id = 'draft-2' WHERE issued_at IS NULL`,
    `UPDATE OR REPLACE estimates SET job_id = '${TAPE_ECHO}', revision = 1 WHERE issued_at IS NULL`,
    "INSERT OR REPLACE INTO rate_books SELECT * FROM rate_books",
    "INSERT OR REPLACE INTO jobs SELECT * FROM jobs",
    "UPDATE OR REPLACE jobs SET sequence = 1",
    // An event that does not follow the last one, an issue of a draft, an answer to nothing, an answer to what is superseded.
    `INSERT INTO events SELECT job_id, 99, at, what, content, hash FROM events WHERE number = 1 AND job_id = '${TAPE_ECHO}'`,
    "INSERT INTO issues SELECT id, job_id, '2026-11-25', revision, 'x', content_hash, 'x', 0, '', x'00' FROM estimates WHERE issued_at IS NULL",
    `INSERT INTO agreements SELECT 'x', job_id, at, estimate_id, revision, 'other', pdf_hash, answer, answered_by, channel, wording, zone, currency, chosen, struck, amount, ceiling, link_id, delivered_to, address, agent, recorded_by, spoken, writing, 'answer-3', reason FROM agreements WHERE id = 'answer-3'`,
    `INSERT INTO agreements SELECT 'x', job_id, at, estimate_id, revision, content_hash, pdf_hash, answer, answered_by, channel, wording, zone, currency, chosen, struck, amount, ceiling, link_id, delivered_to, address, agent, recorded_by, spoken, writing, 'answer-1', reason FROM agreements WHERE id = 'answer-1'`,
  ])("refuses: %s", async (statement) => {
    const { db } = await livedInShop();
    await refused(db, statement);
  });
});

/** A shop's file, copied for each run, and opened twice as by two processes. */
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ohmwright-revisions-"));
});
afterAll(() => rm(folder, { recursive: true }));

async function twice() {
  const path = join(folder, `${crypto.randomUUID()}.db`);
  await copyFile((await demoFile()).path, path);
  const [one, other] = [await connectFile(`file:${path}`), await connectFile(`file:${path}`)];
  return { one: one.db, other: other.db, close: () => [one, other].map(({ close }) => close()) };
}

/** Bytes instead of a page: what is printed does not matter here, that it is kept does. */
const plain = (text: string) => outgoing({ print: async () => ({ bytes: new TextEncoder().encode(text) }) });

describe("two at once", () => {
  const opened = async () => {
    const both = await twice();
    onTestFinished(() => {
      both.close();
    });
    return both;
  };

  it("issuing the same draft: one does, the others hear that it is issued or has moved", async () => {
    const { one, other } = await opened();
    const { id } = await draftOf(one, TAPE_ECHO);
    const answers = await Promise.all([one, other, one, other].map((db, n) => issue(db, id, 1, plain(`paper ${n}`), at(n))));
    expect(answers.map(({ is }) => is).sort()).toEqual(["estimate issued", "estimate issued", "estimate issued", "issued"]);
    expect(await issues.ofJob(one, TAPE_ECHO)).toHaveLength(1);
    expect(await eventsOf(one, TAPE_ECHO)).toHaveLength(3);
  });

  /** Every moment at which `first` makes a request, the start and the end among them. */
  const momentsOf = async (first: (db: Database) => Promise<unknown>): Promise<readonly number[]> => {
    const { one } = await opened();
    const requests = requestsOf(one);
    await first(one);
    expect(requests.made()).toBeGreaterThan(2);
    return Array.from({ length: requests.made() + 1 }, (_, moment) => moment);
  };

  it("saving and issuing: one wins, the other hears that it moved, whenever the saving begins", async () => {
    const issuing = async (db: Database) => issue(db, (await draftOf(db, TAPE_ECHO)).id, 1, plain("paper"), at(1));
    const ways = new Set<string>();
    for (const moment of await momentsOf(issuing)) {
      const { one, other } = await opened();
      const requests = requestsOf(one);
      const draft = await draftOf(other, TAPE_ECHO);
      const input = { ...draft.input, asOf: "2026-11-24" };
      const save = async () => {
        await requests.reached(moment);
        return draftSaved(other, draft.id, 1, { ...draft, input }, at(2));
      };
      const [saved, done] = await Promise.all([save(), issuing(one)]);
      const won = { issue: done.is === "issued", save: saved.is === "done" };
      ways.add(won.issue ? "issued" : "saved");
      expect(won.issue).not.toBe(won.save);
      expect(won.issue ? ["version moved", "estimate issued"] : ["version moved"]).toContain(won.issue ? saved.is : done.is);
      const now = (await estimates.find(one, draft.id))!;
      expect([now.input.asOf, now.issuedAt !== undefined]).toEqual([won.save ? "2026-11-24" : draft.input.asOf, won.issue]);
      expect((await verifyJob(one, TAPE_ECHO, [])).mismatch).toBeUndefined();
    }
    expect([...ways].sort()).toEqual(["issued", "saved"]);
  });

  it("agreeing and superseding: one wins, the other is refused, or the answer was there before the new revision", async () => {
    const ready = async (db: Database) => {
      const first = await issued(db, (await draftOf(db, TAPE_ECHO)).id, at(1), plain("first"));
      await nextDraft(db, TAPE_ECHO, "second", at(2));
      return given(db, first.record.id);
    };
    const superseding = (db: Database) => issue(db, "second", 1, plain("second"), at(3));
    const ways = new Set<string>();
    for (const moments of ["of superseding", "of agreeing"]) {
      const alone = async (db: Database) => {
        const words = await ready(db);
        const requests = requestsOf(db);
        await (moments === "of superseding" ? superseding(db) : answer(db, "answer", words, at(4)));
        return requests.made();
      };
      const { one: tried } = await opened();
      for (let moment = 0, all = await alone(tried); moment <= all; moment += 1) {
        const { one, other } = await opened();
        const words = await ready(one);
        const requests = requestsOf(one);
        const agreeing = (db: Database) => answer(db, "answer", words, at(4));
        const [agreed, superseded] =
          moments === "of superseding"
            ? await Promise.all([requests.reached(moment).then(() => agreeing(other)), superseding(one)])
            : await Promise.all([agreeing(one), requests.reached(moment).then(() => superseding(other))]);
        ways.add(`${agreed.is}, ${superseded.is}`);
        const events = (await eventsOf(one, TAPE_ECHO)).map(({ is }) => is);
        if (agreed.is === "recorded" && superseded.is === "issued")
          expect(events.indexOf("answered")).toBeLessThan(events.lastIndexOf("issued"));
        expect((await verifyJob(one, TAPE_ECHO, [])).mismatch).toBeUndefined();
      }
    }
    // Issuing reads the job in one moment: an answer is there by then, or it is not.
    ways.delete("recorded, issued");
    expect([...ways].sort()).toEqual(["recorded, owner answered", "revision superseded, issued"]);
  });

  it("an answer that comes in while the next revision is being printed wins: nothing is issued until someone read it", async () => {
    const { one, other } = await opened();
    const first = await issued(one, (await draftOf(one, TAPE_ECHO)).id, at(1), plain("first"));
    await nextDraft(one, TAPE_ECHO, "second", at(2));
    let agreed: string | undefined;
    const print = async () => {
      agreed ??= (await answer(other, "answer", await given(other, first.record.id), at(3))).is;
      return { bytes: new TextEncoder().encode("second") };
    };
    expect(await issue(one, "second", 1, outgoing({ print }), at(4))).toMatchObject({ is: "owner answered" });
    expect(agreed).toBe("recorded");
    // The draft has taken the answer meanwhile.
    expect(await issue(one, "second", 2, plain("second"), at(5))).toMatchObject({ is: "issued" });
    expect(await answer(other, "late", await given(other, first.record.id, { answer: "declined" }), at(6))).toMatchObject({
      is: "answered already",
    });
  });

  it("an answer to a revision that was superseded meanwhile is refused, and names the current one", async () => {
    const { one, other } = await opened();
    const first = await issued(one, (await draftOf(one, TAPE_ECHO)).id, at(1), plain("first"));
    const words = await given(other, first.record.id);
    await nextDraft(one, TAPE_ECHO, "second", at(2));
    await issued(one, "second", at(3), plain("second"));
    for (const said of ["agreed", "declined"] as const)
      expect(await answer(other, said, { ...words, answer: said }, at(4))).toMatchObject({
        is: "revision superseded",
        current: { id: "second" },
      });
    expect(await answersOf(one, TAPE_ECHO)).toEqual([]);
  });

  it("answering differently: one answer stands, and the same answer again is the same record", async () => {
    const { one, other } = await opened();
    const { record } = await issued(one, (await draftOf(one, TAPE_ECHO)).id, at(1), plain("first"));
    const agree = await given(one, record.id);
    const decline = await given(one, record.id, { answer: "declined" });
    const answers = await Promise.all(
      [agree, decline, agree, decline].map((words, n) => answer(n % 2 ? other : one, `answer-${n}`, words, at(2))),
    );
    expect(answers.map(({ is }) => is).sort()).toEqual(["answered already", "answered already", "recorded", "recorded"]);
    const records = answers.flatMap((each) => ("record" in each ? each.record.id : []));
    expect(new Set(records).size).toBe(1);
    expect(await answersOf(one, TAPE_ECHO)).toHaveLength(1);
  });
});

const OPERATIONS = [
  "issue",
  "issue by the other",
  "save",
  "next",
  "agree",
  "agree to the first",
  "decline",
  "ask",
  "link",
] as const;

describe("whatever two people do at once", () => {
  it("numbers have no gap, one draft is open at most, nothing issued changes, nothing superseded is agreed to, and everything matches", async () => {
    const steps = fc.array(fc.array(fc.constantFrom(...OPERATIONS), { minLength: 1, maxLength: 4 }), {
      minLength: 1,
      maxLength: 6,
    });
    await fc.assert(
      fc.asyncProperty(steps, async (turns) => {
        const { one, other, close } = await twice();
        try {
          const frozen = new Map<string, string>();
          let n = 0;
          for (const turn of turns) {
            n += 1;
            await Promise.all(
              turn.map((operation, index) => carryOut(index % 2 ? other : one, operation, `${n}-${index}`, at(n))),
            );
            for (const estimate of await estimates.ofJob(one, TAPE_ECHO)) {
              if (!estimate.issuedAt) continue;
              const now = JSON.stringify([
                estimate,
                await issues.find(one, estimate.id),
                [...(await issues.pdf(one, estimate.id))!],
              ]);
              expect(frozen.get(estimate.id) ?? now).toBe(now);
              frozen.set(estimate.id, now);
            }
          }
          await hold(one);
        } finally {
          close();
        }
      }),
      runs(25),
    );
  }, 300_000);

  async function carryOut(db: Database, operation: (typeof OPERATIONS)[number], name: string, when: string): Promise<void> {
    const all = await estimates.ofJob(db, TAPE_ECHO);
    const [latest, done] = [all.at(-1)!, all.filter(({ issuedAt }) => issuedAt)];
    const target = operation === "agree to the first" ? done[0] : done.at(-1);
    switch (operation) {
      case "issue":
      case "issue by the other":
        await issue(db, latest.id, latest.version, plain(name), when);
        return;
      case "save":
        await draftSaved(db, latest.id, latest.version, { ...latest, input: { ...latest.input, asOf: "2026-11-24" } }, when);
        return;
      case "next":
        await nextDraft(db, TAPE_ECHO, `draft-${name}`, when);
        return;
      case "ask": {
        const [link] = await ownerLinks.ofJob(db, TAPE_ECHO);
        if (link) await asks(db, `question-${name}`, link, `${name}?`, when);
        return;
      }
      case "link":
        if (target) await links(db, target.id, { by: "W", deliveredTo: "a@b.example" }, when);
        return;
      default:
        if (target)
          await answer(
            db,
            `answer-${name}`,
            await given(db, target.id, { answer: operation === "decline" ? "declined" : "agreed" }),
            when,
          );
    }
  }

  async function hold(db: Database): Promise<void> {
    const kept = await estimates.ofJob(db, TAPE_ECHO);
    expect(kept.map(({ revision }) => revision)).toEqual(kept.map((_, index) => index + 1));
    expect(kept.filter(({ issuedAt }) => !issuedAt).length).toBeLessThanOrEqual(1);
    const hashes = new Map(
      (await issues.ofJob(db, TAPE_ECHO)).map(({ id, contentHash, pdfHash }) => [id, `${contentHash} ${pdfHash}`]),
    );
    const answers = await answersOf(db, TAPE_ECHO);
    for (const each of answers) expect(hashes.get(each.estimateId)).toBe(`${each.contentHash} ${each.pdfHash}`);
    let newest = 0;
    for (const { is, content } of await eventsOf(db, TAPE_ECHO)) {
      const { revision, answer: said } = content as Partial<Agreement>;
      if (is === "issued") newest = revision!;
      if (is === "answered" && said !== "declined") expect(revision).toBe(newest);
    }
    const { mismatch } = await verifyJob(db, TAPE_ECHO, []);
    expect(mismatch && mismatchText(mismatch)).toBeUndefined();
  }
});
