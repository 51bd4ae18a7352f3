/** So many requests to demo shops, each of which lives for a while: open to all, with accounts, an owner's, empty, and over sockets. */
import { estimates } from "../../src/records/estimates.js";
import { startServer } from "../../src/server.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { migratedFile } from "../http/support/madeOnce.js";
import { browser, person, signedIn, tokenOf } from "../http/support/people.js";
import { openShop } from "../http/support/shop.js";
import { issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { type Answering, askedBy, BASE, counting, type Dice, dice, type Fuzzed } from "./fuzz.js";
import { fuzzOperation, idsOf, operationsOf } from "./fuzzApi.js";
import { fuzzRestore, fuzzSocket } from "./fuzzBytes.js";
import { formsFrom, fuzzForm } from "./fuzzForms.js";

type Shop = Awaited<ReturnType<typeof openShop>>;
interface Lot {
  readonly opened: Shop;
  readonly of: Dice;
  readonly into: Fuzzed;
  /** Pages that forms are looked for on. */
  readonly pages: number;
  /** Whether another request is to be sent. */
  readonly more: () => boolean;
}

/** What programs and pages of a shop take, by whoever asks. */
async function both({ opened, of, into, pages, more }: Lot, program: Answering, page: Answering, starts: readonly string[]) {
  const [operations, ids, forms] = [await operationsOf(program), await idsOf(program), await formsFrom(page, pages, starts)];
  // A second each: what is allowed so often in a minute is not used up.
  for (; more(); opened.pass(1000))
    if (of.next() < 0.5) await fuzzOperation(program, of.one(operations), ids, of, into);
    else await fuzzForm(page, of.one(forms), of, into);
}

const open = (lot: Lot) => both(lot, lot.opened.app, lot.opened.app, ["/", "/sign-in", "/sign-in/secret", "/set-up", "/o"]);

async function peopled(lot: Lot) {
  const { opened } = lot;
  const [manager] = [await person(opened, "Tamsin", "manager"), await person(opened, "Wilmot", "technician")];
  const authorization = `Bearer ${await tokenOf(opened, manager, "read", "write", "admin")}`;
  const cookie = cookies(await signedIn(opened, manager));
  const page = askedBy(opened.app, { cookie });
  await both(lot, askedBy(opened.app, { authorization }), page, [
    "/staff",
    "/tokens",
    "/account",
    "/sign-in",
    "/sign-in/invitation?secret=x",
    "/",
  ]);
}

/** Half of it by the owner of one job, half by the shop meanwhile. */
async function ownerIn(lot: Lot) {
  const { opened } = lot;
  const [draft] = (await estimates.ofJob(opened.db, TAPE_ECHO)).filter(({ issuedAt }) => issuedAt === undefined);
  const { secret } = await issued(opened.db, draft!.id);
  const visitor = browser(opened);
  await visitor.send("/o/entry", { link: secret.fragment });
  await both(lot, opened.app, askedBy(opened.app, { cookie: cookies(visitor) }), ["/o/estimate"]);
}

async function empty({ opened, of, into, more }: Lot) {
  const backup = new Uint8Array(await (await opened.app.request(`${BASE}/api/backup`)).arrayBuffer());
  const { path } = await migratedFile();
  let fresh = await openShop({}, path);
  try {
    for (let sent = 0; more() && sent < 60; sent += 1) {
      const taken = await fuzzRestore(fresh.app, backup, of, into);
      const { rows } = await fresh.db.run("SELECT count(*) AS jobs FROM jobs, settings");
      if (!taken && Number(rows[0]!.jobs) > 0) into.faults.push("POST /api/restore: refused, and yet a shop is there");
      if (!taken) continue;
      await notes(fresh, into);
      await fresh.close();
      fresh = await openShop({}, path);
    }
  } finally {
    await fresh.close();
  }
}

async function sockets({ opened, of, into, more }: Lot) {
  const [operations, ids] = [await operationsOf(opened.app), [...(await idsOf(opened.app)).values()].flat()];
  const { url, stop } = await startServer({
    db: opened.db,
    host: "127.0.0.1",
    port: 0,
    secret: undefined,
    write: () => undefined,
  });
  const sent = operations.filter(({ method, bytes }) => method !== "GET" && bytes === undefined);
  // At once, since what is cut off is waited for.
  for (let times = 0; more() && times < 20; times += 1)
    await Promise.all(Array.from({ length: 25 }, () => fuzzSocket(Number(new URL(url).port), of.one(sent), ids, of, into)));
  const still = await fetch(`${url}health`).then(({ status }) => status);
  if (still !== 200) into.faults.push(`GET /health after all that: ${still}`);
  await stop();
}

const cookies = ({ jar }: { readonly jar: ReadonlyMap<string, string> }) =>
  [...jar].map(([name, value]) => `${name}=${value}`).join("; ");

/** What was kept is as it was said: nothing of it is found altered or unfit. */
async function notes({ db }: Pick<Shop, "db">, into: Fuzzed) {
  const { mismatch, others = [] } = await verifyShop(db);
  for (const found of mismatch ? [{ what: mismatch }, ...others] : others) into.faults.push(`verify: ${JSON.stringify(found)}`);
}

const SORTS = [open, peopled, ownerIn, empty, sockets, open, peopled, open];

/** What the app says of its faults is one. */
export async function noting(into: Fuzzed, run: () => Promise<void>): Promise<void> {
  const { error } = console;
  console.error = (...told: unknown[]) => into.faults.push(`logged: ${told.map(String).join(" ")}`);
  await run().finally(() => {
    console.error = error;
  });
}

/** A shop is fuzzed at most so many times before another takes its place. */
const EACH = 400;

export async function fuzzed(requests: number, seed: number, into: Fuzzed = counting()): Promise<Fuzzed> {
  const each = Math.min(EACH, Math.ceil(requests / SORTS.length));
  let caller = 0;
  for (let lot = 0; into.requests < requests; lot += 1) {
    const of = dice(seed * 1_000_003 + lot);
    // Who guesses is another each time: none is kept out for it.
    const opened = await openShop({ addressOf: () => `192.0.${(caller >> 8) & 255}.${caller++ & 255}` });
    const until = Math.min(requests, into.requests + each);
    await noting(into, async () => {
      const more = () => into.requests < until;
      await SORTS[lot % SORTS.length]!({ opened, of, into, pages: each < EACH ? 25 : 120, more });
      await notes(opened, into);
    }).finally(opened.close);
  }
  return into;
}
