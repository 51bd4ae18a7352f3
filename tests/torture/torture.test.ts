/** The short version of `npm run torture`, and 30 entries at once over two servers. */
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { copiesOtherwise } from "../../src/acts/checked/rowCopies.js";
import { triggersOf } from "../../src/records/backup/guards.js";
import { copiedTables } from "../../src/records/backup/tables.js";
import { workLogTable } from "../../src/records/workLog.js";
import { freshDatabase } from "../http/support/shop.js";
import { livedInFile } from "../records/support/livedInShop.js";
import { byteByByte, unseenIn } from "./bytes.js";
import { failedCallByCall } from "./disk.js";
import { noDisk } from "./failing.js";
import { hosted } from "./hosted.js";
import { brokenHouse, HOUSES } from "./houses.js";
import { counting, killed } from "./kills.js";
import { bare, mishapped } from "./mishaps.js";
import { RACES, raced } from "./races.js";
import { bundle, served } from "./server.js";
import { freshShop, opened } from "./shopFile.js";
import { faultsIn } from "./standing.js";
import { failedOneByOne } from "./statements.js";
import { tornLog } from "./torn.js";
import { isDone, write } from "./writes.js";

// Processes that start take as long as the rest of the machine lets them.
vi.setConfig({ testTimeout: 600_000 });

describe("a byte changed behind the program's back", () => {
  const spoilt = async () => {
    const { path } = await livedInFile();
    const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
    await copyFile(path, join(folder, "ohmwright.db"));
    const { db, close } = await opened({ folder });
    onTestFinished(async () => {
      close();
      await rm(folder, { recursive: true });
    });
    return db;
  };
  const CHANGED = {
    ...{ issues: "pdf", close_outs: "pdf", agreements: "amount", work_log: "minutes", events: "content", estimates: "sheet" },
    ...{ job_states: "state", search_entries: "who", part_kinds: "stock", units: "owner_id" },
  } as Readonly<Record<string, string>>;
  const isChanged = (table: string, column: string) => CHANGED[table] === column;

  it("is found where it is: in a row of the trail, in a PDF, in what is worked out from others", async () => {
    const flips = await byteByByte(await spoilt(), isChanged);
    expect(flips.length).toBe(Object.keys(CHANGED).length);
    expect(flips.filter(({ near }) => near !== "field" && near !== "row")).toEqual([]);
    expect(flips.find(({ table }) => table === "issues")!.said).toMatch(
      /^J-2026-0002: The PDF of revision 1 does not match its hash/,
    );
    expect(flips.find(({ table }) => table === "search_entries")!.said).toMatch(/Row '.*' of search_entries: 'who' is not what/);
  });

  it("would be missed by a check that sees nothing, and that would be told", async () => {
    const blind = await byteByByte(await spoilt(), isChanged, async () => ({}));
    expect(unseenIn(blind)).toContain("a changed byte in 'amount' of agreements is not seen");
  });

  it("is found by its row's copy in every column of every table that no event tells of, a row in each", async () => {
    const db = await freshDatabase();
    const copied = await copiedTables(db);
    for (const setting of ["foreign_keys = OFF", "ignore_check_constraints = ON"]) await db.run(`PRAGMA ${setting}`);
    for (const { name } of await triggersOf(db)) if (!name.endsWith("_row_copied")) await db.run(`DROP TRIGGER "${name}"`);
    const made = { TEXT: "'made up'", INTEGER: "4", REAL: "0.1 + 0.2", BLOB: "x'0a0b'" } as Readonly<Record<string, string>>;
    for (const { table } of copied) {
      const { rows } = await db.run(`SELECT name, type FROM pragma_table_info('${table}')`);
      const all = rows.map(({ name, type }) => ({ name: `"${name}"`, value: made[`${type}`.toUpperCase()]! }));
      await db.run(`DELETE FROM ${table}`);
      await db.run(
        `INSERT INTO ${table} (${all.map(({ name }) => name).join()}) VALUES (${all.map(({ value }) => value).join()})`,
      );
    }
    await db.run(
      "DELETE FROM row_copies WHERE EXISTS (SELECT 1 FROM row_copies r WHERE r.of = row_copies.of AND r.rowid > row_copies.rowid)",
    );
    const columns = new Map(
      copied.map(({ table, keys, columns }) => [
        table,
        { keys: keys.map(({ name }) => name), columns: columns.map(({ name }) => name) },
      ]),
    );
    const flips = await byteByByte(
      db,
      (table, column) => [columns.get(table)].some((of) => of?.keys.includes(column) || of?.columns.includes(column)),
      async () => {
        const [mismatch, ...others] = (await copiesOtherwise(db)).map((what) => ({ what }));
        return { ...(mismatch && { mismatch, others }) };
      },
    );
    expect(flips.length).toBeGreaterThan(280);
    expect(
      flips.filter(({ table, column, near }) => near !== (columns.get(table)!.keys.includes(column) ? "row" : "field")),
    ).toEqual([]);
  });
});

describe("a server that is killed while a whole shop writes", () => {
  it("has done everything it acknowledged, once, and nothing by halves", async () => {
    const counted = counting();
    const program = await bundle();
    await Promise.all(["a", "b"].map((name) => killed({ name, kills: 1, program, answers: 12 }, counted)));
    expect(counted.faults).toEqual([]);
    expect(counted.kills).toBe(2);
    expect(Object.values(counted.done).filter((times) => times > 0).length).toBeGreaterThan(3);
  });

  it("would be caught writing statement by statement", async () => {
    const counted = counting();
    await killed({ name: "control ", kills: 10, program: await bundle("by statement") }, counted);
    expect(counted.faults.join("\n")).toMatch(/without|not on the shelf|not the sum|verify|stands/);
  });
});

describe("a statement that fails", () => {
  it("leaves nothing of its act, whichever of a story it is, and the act sent again is done", async () => {
    const { statements, faults } = await failedOneByOne("written", ["draft saved", "estimate issued", "goods in"]);
    expect(faults).toEqual([]);
    expect(Object.keys(statements)).toHaveLength(3);
    for (const times of Object.values(statements)) expect(times).toBeGreaterThan(1);
  });
});

// Its compiler is installed with the other tools of `npm test`.
describe.skipIf(noDisk() !== undefined)("a disk that fails", () => {
  it("leaves nothing of an act or all of it, whichever write or sync it is, says which, and sent again it is done", async () => {
    const wanted = { acts: ["goods by API"], ways: ["fails once", "full", "killed after"], step: 12, stepOfKills: 20 } as const;
    const { told, faults } = await failedCallByCall({ ...wanted, program: await bundle() });
    expect(faults).toEqual([]);
    const heard = told["goods by API"]!;
    for (const way of ["fails once", "full"]) expect(heard[way]!.heard["not done"]).toBeGreaterThan(1);
    expect(heard["killed after"]!.heard).toEqual({ killed: 2 });
  });

  it("is caught where a server writes statement by statement", async () => {
    const wanted = { acts: ["goods by API"], ways: ["fails once"], step: 30 } as const;
    const { faults } = await failedCallByCall({ ...wanted, program: await bundle("by statement") });
    expect(faults.join("\n")).toContain("something between stands");
  });
});

describe("a log that was cut, or has a byte changed", () => {
  const few = { sorts: ["goods by API"], step: 30 } as const;
  it("gives back all that was acknowledged before, and no half of what came after", async () => {
    const { told, faults } = await tornLog(few);
    expect(faults).toEqual([]);
    expect(told["log left whole"]).toEqual({ "1 of 1 answers stand": 1 });
    expect(told["log cut between frames"]).toEqual({ "0 of 1 answers stand": 1 });
  });

  it("would be told where more was lost", async () => {
    const { faults } = await tornLog({ ...few, wholeTo: () => Number.POSITIVE_INFINITY });
    expect(faults.join("\n")).toContain("acknowledged, and stands 0 times");
  });
});

describe("two servers on one file", () => {
  it("take 30 entries sent at once to one job, and all of them stand", async () => {
    const shop = await freshShop();
    const program = await bundle();
    const servers = await Promise.all([served(shop.folder, program), served(shop.folder, program)]);
    onTestFinished(async () => {
      await Promise.all(servers.map(({ kill }) => kill()));
      await shop.gone();
    });
    const entries = await Promise.all(
      Array.from({ length: 30 }, async (_, n) => {
        const { url } = servers[n % 2]!;
        return { url, entry: await write(n % 3 === 0 ? "entry by page" : "entry by API", `at once ${n}`, shop.shop, url) };
      }),
    );
    const answers = await Promise.all(entries.map(({ url, entry }) => entry.send(url)));
    expect(answers.filter((answer) => !isDone(answer))).toEqual([]);
    const { db, close } = await opened(shop);
    const logged = await db.select().from(workLogTable).finally(close);
    expect(logged.filter(({ note }) => note?.startsWith("at once ")).length).toBe(30);
    const done = entries.map(({ entry }) => entry);
    expect(await faultsIn(shop.folder, shop.shop, { done, open: [] }, shop.before)).toEqual([]);
  });
});

/** Those that go wrong most easily; `npm run torture` runs all, with 50 at once, in each house. */
const SHORT = {
  "a file": ["a draft saved, and issued", "a job closed, and time logged", "all that is owed, paid"],
  "libSQL over HTTP": ["one form of goods", "an answer, and the revision after it", "the last piece of a donor unit, pulled"],
} as const;

describe.each(["a file", "libSQL over HTTP"] as const)("everyone at once, over %s", (over) => {
  it.each(SHORT[over])("%s: done once, and each of the others hears why not", async (name) => {
    const house = await HOUSES[over]();
    onTestFinished(house.gone);
    expect((await raced(name, house, 4)).faults).toEqual([]);
  });
});

describe("a race", () => {
  it("is caught where statements commit one by one", async () => {
    const house = await brokenHouse();
    onTestFinished(house.gone);
    expect((await raced("one form of goods", house, 4)).faults.join("\n")).toMatch(/in place of 1|not the sum|not on the shelf/);
  });

  it("is of names that there are", () => {
    for (const name of Object.values(SHORT).flat()) expect(Object.keys(RACES)).toContain(name);
  });
});

describe("a hosted database that answers by halves, elsewhere or not at all", () => {
  it("has an act once or not, says which by 503, and sent again it stands once", async () => {
    const { faults, heard } = await mishapped(
      ["goods by API"],
      ["cut off once it is done", "half of the answer, as if it were whole", "a 401", "sent elsewhere by 302"],
    );
    expect(faults).toEqual([]);
    for (const tally of Object.values(heard)) expect(tally["503"]).toBeGreaterThan(0);
  });

  it("is caught where the driver stands by itself", async () => {
    const { faults } = await mishapped(["goods by API"], ["half of the answer, as if it were whole"], bare);
    expect(faults.join("\n")).toContain("not 503 but 500");
  });
});

describe("a hosted shop, 20 ms away", () => {
  it("is migrated from an earlier one, and lives a job from the counter to the last penny in few round trips", async () => {
    const { taken, faults } = await hosted();
    expect(faults).toEqual([]);
    // The start page reads lists, figures and reminders one after another.
    const most = (what: string) => (what === "GET /" ? 16 : 9);
    expect(taken.slice(2).filter(({ what, trips }) => trips > most(what) && !what.includes("migrated"))).toEqual([]);
    expect(taken.length).toBeGreaterThan(25);
  });
});
