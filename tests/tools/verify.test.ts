import { spawnSync } from "node:child_process";
import { copyFile, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { mismatchText } from "../../src/acts/checked/mismatch.js";
import { replyToQuestion } from "../../src/acts/replyToQuestion.js";
import { canonical } from "../../src/estimating/agreement/canonical.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { Sheet } from "../../src/estimating/sheet.js";
import { connectFile, type FileDatabase } from "../../src/records/connectFile.js";
import type { Database } from "../../src/records/database.js";
import { estimateHash, estimates } from "../../src/records/estimates.js";
import { photoFolder } from "../../src/records/photoFolder.js";
import { sha256 } from "../../src/records/sha256.js";
import { eventsOf, shortHead } from "../../src/records/trail.js";
import { check } from "../../src/tools/verify/check.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { deskAt, done } from "../acts/support/desk.js";
import { TAPE_ECHO } from "../records/support/livedIn.js";
import { livedInFile } from "../records/support/livedInShop.js";

let folder: string;
let shop: FileDatabase;
/** Triggers by which other rows follow what is written to an estimate. */
let followers: readonly string[];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ohmwright-verify-"));
  await copyFile((await livedInFile()).path, join(folder, "ohmwright.db"));
  shop = await connectFile(`file:${folder}/ohmwright.db`);
  // Nobody who tampers is stopped by a trigger: whoever can write the file can drop it first.
  const { rows } = await shop.db.run("SELECT name, tbl_name, sql FROM sqlite_master WHERE type = 'trigger'");
  expect(rows.length).toBeGreaterThan(30);
  followers = rows.flatMap((row) => (row.tbl_name === "estimates" && /AFTER UPDATE/.test(`${row.sql}`) ? [`${row.sql}`] : []));
  for (const { name } of rows) await shop.db.run(`DROP TRIGGER "${name}"`);
  await shop.db.run("PRAGMA wal_checkpoint(TRUNCATE)");
}, 60_000);

afterAll(async () => {
  shop.close();
  await rm(folder, { recursive: true });
});

/** What is said of a copy in which these statements were run. */
async function after(...statements: readonly string[]): Promise<string> {
  const { mismatch } = await copied(statements, (db) => verifyShop(db));
  return mismatch ? `${mismatch.job ?? ""} ${mismatchText(mismatch.what)}`.trim() : "everything matches";
}

async function copied<T>(statements: readonly string[], look: (db: Database) => Promise<T>): Promise<T> {
  const path = join(folder, `${crypto.randomUUID()}.db`);
  await copyFile(join(folder, "ohmwright.db"), path);
  const { db, close } = await connectFile(`file:${path}`);
  try {
    await db.run("PRAGMA foreign_keys = OFF");
    for (const statement of statements) await db.run(statement);
    return await look(db);
  } finally {
    close();
  }
}

const ofJob = `job_id = '${TAPE_ECHO}'`;
const first = `SELECT id FROM estimates WHERE ${ofJob} AND revision = 1`;

describe("records that nobody touched", () => {
  it("match from end to end", async () => {
    const verdict = await verifyShop(shop.db);
    expect(verdict).toEqual({ jobs: 5, revisions: 5, events: expect.any(Number), erased: 0 });
    expect(verdict.events).toBeGreaterThan(15);
  });

  it("match by the command, which answers 0", async () => {
    const matches = expect.stringMatching(/^5 jobs, 5 revisions, \d+ events: everything matches\.$/);
    expect(await asked()).toEqual({ code: 0, said: matches });
  });
});

describe("a sheet from before minimum orders were told", () => {
  /** A draft whose part is bought five packs at least, where two pieces are used; its sheet as `was` makes it, under its own hash. */
  const kept = (was: (sheet: Sheet) => Sheet) =>
    copied(followers, async (db) => {
      const { rows } = await db.run(`SELECT id, job_id FROM estimates WHERE NOT ${ofJob} LIMIT 1`);
      const { id, job_id: job } = rows[0] as unknown as { id: string; job_id: string };
      const offer = { id: "five", kind: "rare", source: "Wrendale Surplus", on: "2026-11-25", currency: "GBP", price: 40 };
      const put = {
        kinds: { id: "rare", type: "film", name: "Film 100n", scarcity: "scarce" },
        offers: { ...offer, packSize: 1, minimumPacks: 5, leadDays: 3, state: "new", shareGood: 1 },
        items: { id: "rare", operation: "replace", count: 2, part: { kind: "rare" }, certainty: { is: "planned" } },
      };
      for (const [list, one] of Object.entries(put))
        await db.run(
          `UPDATE estimates SET input = json_insert(input, '$.${list}[#]', json('${JSON.stringify(one)}')) WHERE id = '${id}'`,
        );
      const input = async () => estimates.inputOf(db, (await estimates.asWritten(db, job))[0]!);
      const outcome = estimate(await input());
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
      expect(outcome.sheet.warnings.some(({ is }) => is === "minimum order")).toBe(true);
      const sheet = was(outcome.sheet);
      const hash = await estimateHash(await input(), sheet);
      await db.run(
        `UPDATE estimates SET sheet = '${canonical(sheet).replaceAll("'", "''")}', content_hash = '${hash}' WHERE id = '${id}'`,
      );
      const { mismatch } = await verifyShop(db);
      return mismatch ? mismatchText(mismatch.what) : "everything matches";
    });
  const untold = ({ lines, warnings, ...rest }: Sheet): Sheet => ({
    ...rest,
    lines: lines.map((line) => ({ ...line, from: line.from.filter(({ is }) => is !== "minimum order") })),
    warnings: warnings.filter(({ is }) => is !== "minimum order"),
  });

  it("is not called tampered with, and one with another figure is", async () => {
    expect(await kept((sheet) => sheet)).toBe("everything matches");
    expect(await kept(untold)).toBe("everything matches");
    const dearer = (sheet: Sheet): Sheet => ({ ...sheet, totals: { ...sheet.totals, total: sheet.totals.total + 1 } });
    expect(await kept((sheet) => dearer(untold(sheet)))).toMatch(/^The sheet of revision 1 is not what its input comes to/);
  });
});

describe("records that someone touched", () => {
  it.each([
    [
      "an event's content",
      `UPDATE events SET content = json_set(content, '$.by', 'Someone') WHERE ${ofJob} AND number = 2`,
      /Event 2 does not match its hash/,
    ],
    [
      "an event's time",
      `UPDATE events SET at = '2026-11-24T09:00:00.000Z' WHERE ${ofJob} AND number = 3`,
      /Event 3 does not match its hash/,
    ],
    ["what an event was", `UPDATE events SET what = 'issued' WHERE ${ofJob} AND number = 1`, /Event 1 does not match its hash/],
    ["an event taken away", `DELETE FROM events WHERE ${ofJob} AND number = 4`, /Event 5 stands where event 4 should/],
    [
      "the last event taken away",
      `DELETE FROM events WHERE ${ofJob} AND number = (SELECT max(number) FROM events WHERE ${ofJob})`,
      /link_withdrawals is told of by no event/,
    ],
    [
      "an answer's amount",
      "UPDATE agreements SET amount = amount + 1 WHERE id = 'answer-1'",
      /'answer-1' of agreements is not as the event of its writing tells/,
    ],
    [
      "an answer's name",
      "UPDATE agreements SET answered_by = 'Someone' WHERE id = 'answer-3'",
      /'answer-3' of agreements .* changed/,
    ],
    [
      "an answer put in",
      "INSERT INTO agreements SELECT 'forged', job_id, at, estimate_id, revision, content_hash, pdf_hash, answer, answered_by, channel, wording, zone, currency, chosen, struck, amount, ceiling, link_id, delivered_to, address, agent, recorded_by, spoken, writing, 'answer-3', reason, deposit FROM agreements WHERE id = 'answer-1'",
      /'forged' of agreements is told of by no event/,
    ],
    ["an answer taken away", "DELETE FROM agreements WHERE id = 'answer-3'", /'answer-3' of agreements is gone/],
    [
      "an issue's name",
      `UPDATE issues SET issued_by = 'Someone' WHERE ${ofJob} AND revision = 1`,
      /of issues is not as the event/,
    ],
    [
      "an issue's hash of its PDF",
      `UPDATE issues SET pdf_hash = content_hash WHERE ${ofJob} AND revision = 2`,
      /of issues is not as the event/,
    ],
    [
      "a PDF",
      `UPDATE issues SET pdf = zeroblob(length(pdf)) WHERE ${ofJob} AND revision = 2`,
      /The PDF of revision 2 does not match its hash/,
    ],
    [
      "a final account",
      "UPDATE close_outs SET result = json_set(result, '$.account.totals.due', 1)",
      /'closed' of close_outs is not as the event of its writing tells/,
    ],
    [
      "a final account's PDF",
      "UPDATE close_outs SET pdf = zeroblob(9)",
      /Close-out 'closed': the PDF of the final account does not/,
    ],
    ["what boards read", "UPDATE outcomes SET actual = 1", /Close-out 'closed': the row that boards read is not what it came to/],
    [
      "an issued input",
      `UPDATE estimates SET input = json_set(input, '$.items[0].count', 99) WHERE id = (${first})`,
      /revision 1 does not match its content hash/,
    ],
    [
      "an issued sheet",
      `UPDATE estimates SET sheet = json_set(sheet, '$.totals.total', 1) WHERE id = (${first})`,
      /revision 1 does not match its content hash/,
    ],
    [
      "who issued",
      `UPDATE estimates SET issued_by = 'Someone' WHERE id = (${first})`,
      /Revision 1 was issued but stands as a draft, or with another date or name/,
    ],
    [
      "an issued revision made a draft again",
      `UPDATE estimates SET issued_at = NULL, issued_by = NULL WHERE id = 'draft-2'`,
      /Revision 2 was issued but stands as a draft/,
    ],
    [
      "a draft made an issued revision",
      `UPDATE estimates SET issued_at = '2026-11-25T09:00:00.000Z', issued_by = 'Someone' WHERE job_id <> '${TAPE_ECHO}'`,
      /Revision 1 stands as issued, but there is no record of its issue/,
    ],
    ["a revision's number", `UPDATE estimates SET revision = 3 WHERE id = 'draft-2'`, /numbered 1, 3, not 1, 2, 3/],
    [
      "a rate book",
      "UPDATE rate_books SET book = json_set(book, '$.labourClasses[0].ratePerHour', 1)",
      /rate book or sheet of revision 1 does not match its content hash/,
    ],
    ["a rate book taken away", "DELETE FROM rate_books", /Rate book .* is gone/],
    [
      "a link's expiry",
      "UPDATE owner_links SET expires_at = '2099-01-01T00:00:00.000Z' WHERE delivered_to LIKE '%@%'",
      /of owner_links is not as the event/,
    ],
    [
      "a link's secret",
      "UPDATE owner_links SET secret_hash = '00' WHERE delivered_to LIKE '%@%'",
      /of owner_links is not as the event/,
    ],
    ["a withdrawal taken away", "DELETE FROM link_withdrawals", /'withdrawal-1' of link_withdrawals is gone/],
    ["a withdrawal's reason", "UPDATE link_withdrawals SET reason = 'none'", /'withdrawal-1' of link_withdrawals is not as/],
    ["a question", "UPDATE questions SET text = 'Is it cheap?'", /'question-1' of questions is not as/],
    ["a reply", "UPDATE question_replies SET text = 'Yes.'", /'reply-1' of question_replies is not as/],
    ["a log entry's minutes", "UPDATE work_log SET minutes = 29 WHERE id = 'log-1'", /'log-1' of work_log is not as/],
    ["a log entry taken away", "DELETE FROM work_log WHERE id = 'log-2'", /'log-2' of work_log is gone/],
    ["an entry's withdrawal taken away", "DELETE FROM log_withdrawals", /'taken-back-1' of log_withdrawals is gone/],
    [
      "an entry withdrawn by hand",
      "INSERT INTO log_withdrawals SELECT 'forged', job_id, at, 'log-1', withdrawn_by, reason FROM log_withdrawals",
      /'forged' of log_withdrawals is told of by no event/,
    ],
    ["an override's reason", "UPDATE overrides SET reason = 'the owner knew'", /'log-2-2' of overrides is not as/],
    ["a job", `DELETE FROM jobs WHERE id = '${TAPE_ECHO}'`, /^There is no job J-2026-0002/],
  ])("%s: it is found", async (_, statement, said) => {
    expect(await after(statement)).toMatch(said);
  });

  it("names the job", async () => {
    expect(await after("UPDATE work_log SET minutes = 29 WHERE id = 'log-1'")).toMatch(/^J-2026-\d{4} Row/);
  });

  it("a close-out, its hash and every event made to fit: the figures are still not what the log comes to", async () => {
    const { forgedCloseOut } = await import("./support/rewrite.js");
    expect(await after(...(await forgedCloseOut(shop.db, TAPE_ECHO)))).toMatch(
      /Close-out 'closed': the figures are not what the work log and the agreed revision come to/,
    );
  });

  // Whoever rewrites rows and their events in full still has to rewrite every later event, and cannot rewrite paper.
  it("with every later hash made to fit: the head on record with a later issue is not there any more", async () => {
    const { rewritten } = await import("./support/rewrite.js");
    const statements = await rewritten(shop.db, TAPE_ECHO, 2, (content) => ({ ...content, by: "Someone" }));
    expect(await after(...statements)).toMatch(/is not the one whose hash left the shop on a document; the list was rewritten/);
  });

  it("with the issue made to fit too: the head on paper, held against the chain, is not there", async () => {
    const head = shortHead((await eventsOf(shop.db, TAPE_ECHO)).at(-1)!);
    const cut = ["DELETE FROM link_withdrawals", `DELETE FROM events WHERE ${ofJob} AND what = 'link withdrawn'`];
    expect(await after(...cut)).toBe("everything matches");
    const { mismatch } = await copied(cut, (db) => verifyShop(db, new Map([["J-2026-0002", [head]]])));
    expect(mismatch?.what).toEqual({ is: "head given", head });
  });

  it("a sheet, its hash, its issue and every event made to fit: the sheet is still not what its input comes to", async () => {
    const { forgedSheet } = await import("./support/rewrite.js");
    expect(await after(...(await forgedSheet(shop.db, TAPE_ECHO)))).toMatch(
      /^J-2026-0002 The sheet of revision 2 is not what its input comes to/,
    );
  });
});

/** What `npm run verify` answers, in this process and as one of its own. */
const asked = (...words: string[]) => check(["--data", folder, ...words], {});
const run = (...words: string[]) =>
  spawnSync(process.execPath, ["--import", "tsx", "src/tools/verify.ts", "--data", folder, ...words], { encoding: "utf8" });

describe("npm run verify", () => {
  it("answers 1 and names the first thing that does not match", async () => {
    await shop.db.run("UPDATE questions SET text = text || '?'");
    const { status, stdout, stderr } = run();
    await shop.db.run("UPDATE questions SET text = substr(text, 1, length(text) - 1)");
    expect([status, stdout, stderr]).toEqual([
      1,
      "J-2026-0002: Row 'question-1' of questions is not as the event of its writing tells; it was changed.\n",
      "",
    ]);
  });

  it("holds a head read off paper against the chain", async () => {
    const head = shortHead((await eventsOf(shop.db, TAPE_ECHO))[2]!);
    expect((await asked("--head", `J-2026-0002=${head}`)).code).toBe(0);
    expect(await asked("--head", "J-2026-0002=3-0000000000000000")).toEqual({
      code: 1,
      said: expect.stringContaining("The head 3-0000000000000000 that was given is not in the chain"),
    });
    expect((await asked("--head", "J-2027-0001=3-0000000000000000")).said).toContain("There is no job J-2027-0001");
  });

  it("names every stored text that cannot be read, where it stands, and checks what is left", async () => {
    const { rows } = await shop.db.run(`SELECT id FROM estimates WHERE ${ofJob} LIMIT 1`);
    const [id] = [String(rows[0]!.id)];
    const { mismatch, others } = await copied(
      [
        `UPDATE estimates SET sheet = substr(sheet, 1, 40) WHERE id = '${id}'`,
        "UPDATE owners SET address = '[' WHERE id = (SELECT min(id) FROM owners)",
        "UPDATE questions SET text = text || '?'",
        "UPDATE settings SET paper = 'A5'",
        "UPDATE units SET owner_id = 'nobody' WHERE id = (SELECT min(id) FROM units)",
      ],
      (db) => verifyShop(db, new Map(), { file: true }),
    );
    const said = [mismatch!, ...others!].map(({ job, what }) => `${job ?? ""} ${mismatchText(what)}`.trim());
    expect(said).toEqual(
      expect.arrayContaining([
        `Row '${id}' of estimates: the JSON of 'sheet' cannot be read; it was changed or is damaged.`,
        expect.stringMatching(/^Row '.+' of owners: the JSON of 'address' cannot be read/),
        "Row 'shop' of settings: 'paper' cannot be read; it was changed or is damaged.",
        expect.stringMatching(/^The database file is damaged: row \d+ of units names one of owners that is not there\.$/),
        expect.stringMatching(/^J-2026-\d{4} It could not be checked: /),
      ]),
    );
    expect(said.length).toBeLessThan(9);
  });

  it("is not alarmed by what others write meanwhile", async () => {
    const path = join(folder, `${crypto.randomUUID()}.db`);
    await copyFile(join(folder, "ohmwright.db"), path);
    const [reader, writer] = [await connectFile(`file:${path}`), await connectFile(`file:${path}`)];
    let going = true;
    const writing = (async () => {
      for (let at = 0; going; at += 1) {
        const said = { text: `Reply ${at}`, by: "Tamsin Oakhollow" };
        await new Promise((resolve) => setTimeout(resolve, 5));
        await done(replyToQuestion, deskAt(writer.db, "2026-12-01T09:00:00.000Z"), said, { question: "question-1" });
      }
    })();
    const verdicts = [];
    for (let times = 0; times < 6; times += 1) verdicts.push((await verifyShop(reader.db)).mismatch);
    going = false;
    await writing;
    reader.close();
    writer.close();
    expect(verdicts).toEqual(Array(6).fill(undefined));
  });

  it("reads the photos beside the database", async () => {
    const away = await mkdtemp(join(folder, "photos-"));
    const store = photoFolder(away);
    const bytes = new Uint8Array([1, 2, 3]);
    const photo = `INSERT INTO photos (id, job_id, at, of, mime, width, height, turn, size, sha256) VALUES ('pic', '${TAPE_ECHO}', '2026-11-25T09:00:00.000Z', 'unit', 'image/png', 1, 1, 1, 3, '${await sha256(bytes)}')`;
    const told = () =>
      copied([photo], async (db) => {
        const { mismatch, others = [] } = await verifyShop(db, new Map(), { photos: store });
        return [mismatch!, ...others].map(({ what }) => mismatchText(what)).filter((text) => text.includes("photo pic"));
      });
    expect(await told()).toEqual(["The file of photo pic is not beside the database."]);
    await store.put("pic", bytes, "image/png");
    expect(await told()).toEqual([]);
    await store.put("pic", new Uint8Array([1, 2, 4]), "image/png");
    expect(await told()).toEqual([expect.stringContaining("is not the picture that was taken in")]);
  });

  it("says in a sentence what is wrong with a file that was cut short or is no database", async () => {
    const cut = await mkdtemp(join(folder, "cut-"));
    const whole = await readFile(join(folder, "ohmwright.db"));
    for (const [bytes, says] of [
      [whole.subarray(0, whole.length / 2), /damaged, such as cut short|could not be read|is damaged/],
      [whole.subarray(0, 0), /damaged, such as cut short/],
      [whole.subarray(0, 1), /damaged, such as cut short/],
      [Buffer.from("not a database at all, whatever its name"), /it is no database/],
    ] as const) {
      await writeFile(join(cut, "ohmwright.db"), bytes);
      const { code, said } = await asked("--data", cut);
      expect([1, 2]).toContain(code);
      expect(said).toMatch(says);
      expect(said).not.toMatch(/\n\s+at /);
      // Looked at, not touched: a start after it must not find a database where there was none.
      expect((await readFile(join(cut, "ohmwright.db"))).equals(bytes)).toBe(true);
    }
  });

  it("answers 2 when it cannot check, and says why", async () => {
    const { status, stdout, stderr } = run("--head", "nonsense");
    expect([status, stdout, stderr]).toEqual([2, "", expect.stringContaining("--head is 'nonsense'")]);
    const away = await asked("--data", join(folder, "nowhere"));
    expect(away).toEqual({ code: 2, said: expect.stringContaining("There is no database at") });
    expect((await asked("--what")).code).toBe(2);
    const bare = await mkdtemp(join(folder, "bare-"));
    (await connectFile(`file:${bare}/ohmwright.db`)).close();
    expect(await asked("--data", bare)).toEqual({ code: 2, said: expect.stringContaining("The records could not be read") });
    expect(await asked("--help")).toEqual({ code: 0, said: expect.stringContaining("npm run verify") });
  });
});
