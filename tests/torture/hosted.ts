/** The migration of an earlier shop, then a whole life of a job, over libSQL by HTTP with a delay on each call; what each act takes. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { connectWeb, UNHURRIED } from "../../src/records/connectWeb.js";
import { startServer } from "../../src/server.js";
import { migrateDatabase } from "../../src/tools/migrateDatabase.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { throughWire } from "../records/support/wire.js";
import { freshShop } from "./shopFile.js";
import { faultsIn } from "./standing.js";
import { isDone, MAKINGS, sent } from "./writes.js";

interface Taken {
  readonly what: string;
  readonly trips: number;
  readonly milliseconds: number;
}

export interface Hosted {
  readonly taken: readonly Taken[];
  readonly faults: readonly string[];
}

type Body = Readonly<Record<string, unknown>>;
const BY = { by: "Tamsin Oakhollow" };
const LATER = "the day's mark";

/** `delay`: milliseconds of each call. */
export async function hosted(delay = 20): Promise<Hosted> {
  const migration = await migrated(delay);
  const story = await told(delay);
  return { taken: [...migration.taken, ...story.taken], faults: [...migration.faults, ...story.faults] };
}

/** Counts what a piece of work asks of the database, one at a time. */
function taking(wire: { arrived: number }) {
  const taken: Taken[] = [];
  const take = async <T>(what: string, work: () => Promise<T>): Promise<T> => {
    wire.arrived = 0;
    const from = performance.now();
    const answer = await work();
    taken.push({ what, trips: wire.arrived, milliseconds: performance.now() - from });
    return answer;
  };
  return { taken, take };
}

async function migrated(delay: number): Promise<Hosted> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-torture-"));
  const path = join(folder, "shop.db");
  await writeFile(path, gunzipSync(await readFile("fixtures/earlier/schema-12.db.gz")));
  const { wire, url, stop } = await throughWire(path);
  try {
    wire.delay = delay;
    const db = connectWeb(url, undefined, UNHURRIED);
    const { taken, take } = taking(wire);
    await take("a shop of schema 12, migrated", () => migrateDatabase(db));
    wire.delay = 0;
    const { mismatch } = await verifyShop(db);
    return { taken, faults: mismatch ? [`migrated: ${JSON.stringify(mismatch)}`] : [] };
  } finally {
    await stop();
    await rm(folder, { recursive: true });
  }
}

async function told(delay: number): Promise<Hosted> {
  const fresh = await freshShop();
  const { wire, url: database, stop } = await throughWire(join(fresh.folder, "ohmwright.db"));
  const server = await startServer({
    ...{ db: connectWeb(database), host: "127.0.0.1", port: 0, secret: undefined },
    write: () => undefined,
  });
  const url = server.url.slice(0, -1);
  const { taken, take } = taking(wire);
  const faults: string[] = [];
  const { shop } = fresh;
  const job = `jobs/${shop.draftJob}`;

  const get = (path: string) =>
    take(`GET ${path.replace(shop.draftJob, "…")}`, async () => {
      const answer = await fetch(url + path, {
        headers: { accept: path.startsWith("/api/") ? "application/json" : "text/html" },
      });
      const text = await answer.text();
      if (answer.status !== 200) faults.push(`${path}: ${answer.status} ${text.slice(0, 200)}`);
      return text;
    });
  const post = (what: string, path: string, body: Body, version?: unknown): Promise<Body> =>
    take(what, async () => {
      const headers = { "content-type": "application/json", ...(version !== undefined && { "if-match": `"${version}"` }) };
      const answer = await sent(`${url}/api/${path}`, JSON.stringify(body), headers);
      if (!isDone(answer)) faults.push(`${what}: ${answer.status} ${answer.text.slice(0, 300)}`);
      return JSON.parse(answer.text) as Body;
    });
  const press = async (making: keyof typeof MAKINGS) => {
    const send = await MAKINGS[making](LATER, shop, url);
    const answer = await take(making, () => send(url));
    if (!isDone(answer)) faults.push(`${making}: ${answer.status} ${answer.text.slice(0, 200)}`);
  };
  const today = new Date().toISOString().slice(0, 10);
  const answer = (estimate: unknown): Promise<Body> =>
    post("answer recorded", `estimates/${estimate}/agreements`, {
      ...{ answer: "agreed", by: "Orla Thistlewick", channel: "e-mail", recordedBy: BY.by, writing: "her e-mail" },
    });
  const pays = (what: string, amount: unknown): Promise<Body> =>
    post(what, `${job}/payments`, { ...BY, for: "balance", amount, on: today, how: "card" });

  try {
    wire.delay = delay;
    await get("/");
    await get("/");
    await press("new job");
    await press("draft saved");
    const { version } = JSON.parse(await get(`/api/estimates/${shop.draft}`)) as Body;
    await post("estimate issued", `estimates/${shop.draft}/issue`, BY, version);
    await answer(shop.draft);
    await get(`/${job}`);
    const { deposit } = (JSON.parse(await get(`/api/${job}/standing`)) as { owed: Body }).owed;
    await pays("deposit taken", deposit);
    await get(`/${job}/bench`);
    await press("entry by page");
    await press("entry by API");
    await press("goods by page");
    await press("goods by API");
    const found = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
    const second = await post("extra fault", `${job}/extra-fault`, found);
    const draft = JSON.parse(await get(`/api/estimates/${second.id ?? second.estimateId}`)) as Body;
    await post("revision 2 issued", `estimates/${draft.id}/issue`, BY, draft.version);
    await answer(draft.id);
    const entry = { person: BY.by, workedOn: today, minutes: 12, note: LATER };
    await post("time logged", `${job}/work-log`, entry);
    const closing = { ...BY, closedOn: today, untouched: { all: "done, not timed" }, unlogged: "none used", payments: [] };
    await post("job closed", `${job}/close-outs`, { ...closing, warrantyDays: 90, oldParts: { is: "returned" } });
    const { due } = (JSON.parse(await get(`/api/${job}/standing`)) as { owed: Body }).owed;
    await pays("balance paid", due);
    await get(`/${job}/close-out`);
    await get("/api/search?q=tape");
    await get("/looking-back");
    const { owed } = JSON.parse(await get(`/api/${job}/standing`)) as { owed: Body };
    if (owed.due !== 0 || owed.paid !== owed.total) faults.push(`in the end ${JSON.stringify(owed)} is owed`);
  } finally {
    await server.stop();
    await stop();
  }
  faults.push(...(await faultsIn(fresh.folder, shop, { done: [], open: [] }, fresh.before)));
  await fresh.gone();
  return { taken, faults };
}
