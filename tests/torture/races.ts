/**
 * Everyone at once: the same thing sent by all, or things that exclude each other. What is to happen once happens once, and each of the
 * others hears by name why it did not.
 */
import type { Database } from "../../src/records/database.js";
import type { House } from "./houses.js";
import { opened } from "./shopFile.js";
import { faultsIn } from "./standing.js";
import { type Answered, isDone, MAKINGS, type Shop, sent, type Write } from "./writes.js";

type Send = Write["send"];
type Body = Readonly<Record<string, unknown>>;

interface Api {
  readonly shop: Shop;
  readonly url: string;
  readonly get: (path: string) => Promise<Body>;
  /** Carried out beforehand. */
  readonly make: (path: string, body: Body, version?: unknown) => Promise<Body>;
}

interface Race {
  /** What is sent: client n sends the n-th of them, over and over. */
  readonly sends: (api: Api, clients: number) => Promise<readonly Send[]>;
  /** How many hear that it was done; absent: any number from one. */
  readonly done?: 1 | "all";
  /** All who hear so hear the same. */
  readonly same?: true;
  /** What the others hear, by name of problem. */
  readonly lost?: readonly string[];
  /** What is half made by it, and is meant to. */
  readonly leaves?: string;
  /** What stands then: a query of one number, and what it is; `all`: as many as were told that it was done. */
  readonly stands: Readonly<Record<string, readonly [string, number | "all"]>>;
}

const BY = { by: "Tamsin Oakhollow" };
const MARK = "at once";
const today = () => new Date().toISOString().slice(0, 10);

const put =
  (path: string, body: Body, version: unknown): Send =>
  (url) =>
    sent(`${url}/api/${path}`, JSON.stringify(body), { ...JSON_BODY, "if-match": `"${version}"` }, "PUT");
const post =
  (path: string, body: Body, headers: Readonly<Record<string, string>> = {}): Send =>
  (url) =>
    sent(`${url}/api/${path}`, JSON.stringify(body), { ...JSON_BODY, ...headers });
const JSON_BODY = { "content-type": "application/json" };

const numbered = (clients: number, send: (n: number) => Send): readonly Send[] =>
  Array.from({ length: clients }, (_, n) => send(n));

const draftValue = ({ jobId, rateBookId, rateBookVersion, input }: Body, reported: string): Body => ({
  ...{ jobId, rateBookId, rateBookVersion },
  input: { ...(input as Body), unit: { ...((input as Body).unit as Body), reported } },
});
const draftOf = ({ get, shop }: Api) => get(`estimates/${shop.draft}`);
const issue = ({ id, version }: Body): Send => post(`estimates/${id}/issue`, BY, { "if-match": `"${version}"` });
const issued = async (api: Api): Promise<Body> => {
  const { version } = await draftOf(api);
  return api.make(`estimates/${api.shop.draft}/issue`, BY, version);
};
const answers = (estimate: string, answer: "agreed" | "declined"): Send =>
  post(`estimates/${estimate}/agreements`, {
    ...{ answer, by: "Orla Thistlewick", channel: "e-mail", recordedBy: BY.by, writing: "her e-mail of that morning" },
  });
const entry = (note: string): Body => ({ person: BY.by, workedOn: "2026-11-25", minutes: 0.001, note });
const closing = (): Body => ({
  ...{ ...BY, closedOn: today(), untouched: { all: "done, not timed" }, unlogged: "none used", payments: [] },
  ...{ warrantyDays: 90, oldParts: { is: "returned" } },
});
const goods = (note: string): Body => ({
  ...{ ...BY, receivedOn: "2026-11-25", kind: "el-1u-100", source: "Pindrake Components", state: "new" },
  ...{ pieces: 10, paid: 90, note },
});
const payment = (amount: unknown): Body => ({ ...BY, for: "balance", amount, on: "2026-11-25", how: "card", note: MARK });
const count = (from: string): string => `SELECT count(*) AS n FROM ${from}`;

const pressed = (making: keyof typeof MAKINGS, from: string): Race => ({
  sends: async ({ shop, url }) => [await MAKINGS[making](MARK, shop, url)],
  ...{ done: "all", same: true, stands: { once: [count(from), 1] } },
});

export const RACES: Readonly<Record<string, Race>> = {
  "one form of a new job": pressed("new job", `owners WHERE name = '${MARK}'`),
  "one form of goods": pressed("goods by page", `goods_in WHERE note = '${MARK}'`),
  "one form of time": pressed("entry by page", `work_log WHERE note = '${MARK}'`),
  "one request under its key": pressed("goods by API", `goods_in WHERE note = '${MARK}'`),
  "one key for other bodies": {
    sends: async (_, clients) => numbered(clients, (n) => post("goods-in", goods(`${MARK} ${n}`), { "idempotency-key": MARK })),
    ...{ done: 1, lost: ["idempotency-key-reused"] },
    stands: { once: [count(`goods_in WHERE note LIKE '${MARK}%'`), 1] },
  },
  "one draft saved": {
    sends: async (api, clients) => {
      const draft = await draftOf(api);
      return numbered(clients, (n) => put(`estimates/${draft.id}`, draftValue(draft, `${MARK} ${n}`), draft.version));
    },
    ...{ done: 1, lost: ["version-moved"] },
    stands: { once: [count(`estimates WHERE input ->> '$.unit.reported' LIKE '${MARK}%'`), 1] },
  },
  "one draft issued": {
    sends: async (api) => [issue(await draftOf(api))],
    ...{ done: 1, lost: ["version-moved", "estimate-issued"] },
    stands: { once: [count("issues JOIN jobs ON jobs.id = job_id WHERE issues.at > jobs.created_at AND revision = 1"), 2] },
  },
  "a draft saved, and issued": {
    sends: async (api) => {
      const draft = await draftOf(api);
      return [put(`estimates/${draft.id}`, draftValue(draft, MARK), draft.version), issue(draft)];
    },
    ...{ done: 1, lost: ["version-moved", "estimate-issued"] },
    stands: {
      "never both": [count(`estimates WHERE issued_at IS NOT NULL AND input ->> '$.unit.reported' = '${MARK}'`), 0],
    },
  },
  "a draft withdrawn, and issued": {
    sends: async (api) => {
      const draft = await draftOf(api);
      return [post(`estimates/${draft.id}/withdrawal`, { ...BY, reason: MARK }), issue(draft)];
    },
    ...{ done: 1, lost: ["version-moved", "estimate-issued", "not-found"] },
    leaves: "job without an estimate",
    stands: {},
  },
  "the next draft begun": {
    sends: async ({ shop }) => [post(`jobs/${shop.agreed}/estimates`, {})],
    ...{ done: 1, lost: ["draft-open"] },
    stands: { once: [count("estimates WHERE revision = 2"), 1] },
  },
  "two answers to one revision": {
    sends: async (api) => {
      const { id } = await issued(api);
      return [answers(`${id}`, "agreed"), answers(`${id}`, "declined")];
    },
    ...{ same: true, lost: ["answered-already"] },
    stands: { once: [count("agreements JOIN estimates ON estimates.id = estimate_id WHERE writing IS NOT NULL"), 1] },
  },
  "an answer, and the revision after it": {
    sends: async (api) => {
      const { id } = await issued(api);
      const next = await api.make(`jobs/${api.shop.draftJob}/estimates`, {});
      return [answers(`${id}`, "agreed"), issue(next)];
    },
    lost: ["revision-superseded", "owner-answered", "estimate-issued", "version-moved"],
    stands: {
      "none to what was superseded": [
        count(
          `events a JOIN events i ON i.job_id = a.job_id WHERE a.what = 'answered' AND i.what = 'issued' AND i.number < a.number AND i.content ->> '$.revision' = 2`,
        ),
        0,
      ],
    },
  },
  "a job closed": {
    sends: async ({ shop }) => [post(`jobs/${shop.agreed}/close-outs`, closing())],
    ...{ done: 1, lost: ["closed-already"] },
    stands: { once: [count("close_outs"), 1] },
  },
  "a job closed, and time logged": {
    sends: async ({ shop }, clients) =>
      numbered(clients, (n) =>
        n % 3 === 1 ? post(`jobs/${shop.agreed}/close-outs`, closing()) : post(`jobs/${shop.agreed}/work-log`, entry(MARK)),
      ),
    lost: ["closed-already", "job-closed"],
    stands: {
      once: [count("close_outs"), 1],
      "nothing after it": [
        count(
          `events c JOIN events l ON l.job_id = c.job_id WHERE c.what = 'closed' AND l.what = 'work logged' AND l.number > c.number`,
        ),
        0,
      ],
      "its basis has what was logged": [
        "SELECT (SELECT count(*) FROM work_log) - (SELECT json_array_length(basis, '$.log.time') FROM close_outs) AS n",
        0,
      ],
    },
  },
  "a unit handed back": {
    sends: async (api) => {
      const { id } = await issued(api);
      await api.make(`estimates/${id}/agreements`, {
        ...{ answer: "declined", by: "Orla Thistlewick", channel: "e-mail", recordedBy: BY.by, writing: "her e-mail" },
      });
      const body = { ...BY, closedOn: today(), to: "Orla Thistlewick", accessories: [], oldParts: { is: "returned" } };
      return [post(`jobs/${api.shop.draftJob}/hand-backs`, body)];
    },
    ...{ done: 1, lost: ["closed-already"] },
    stands: { once: [count("close_outs"), 1] },
  },
  "all that is owed, paid": {
    sends: async ({ shop, get }) => {
      const { owed } = await get(`jobs/${shop.agreed}/standing`);
      return [post(`jobs/${shop.agreed}/payments`, payment((owed as Body).due ?? (owed as Body).total))];
    },
    ...{ done: 1, lost: ["more-than-owed"] },
    stands: { once: [count("payments"), 1] },
  },
  "a payment withdrawn": {
    sends: async ({ shop, make }) => {
      const { id } = await make(`jobs/${shop.agreed}/payments`, payment(100));
      return [post(`jobs/${shop.agreed}/payments/${id}/withdrawal`, { ...BY, reason: MARK })];
    },
    ...{ done: 1, lost: ["withdrawn-already"] },
    stands: { once: [count("payment_withdrawals"), 1] },
  },
  "a timer stopped": {
    sends: async ({ shop, make }) => {
      await make(`jobs/${shop.agreed}/timers`, { item: "w02", person: BY.by });
      return [post(`jobs/${shop.agreed}/timers/stop`, { person: BY.by, note: MARK })];
    },
    ...{ done: 1, lost: ["no-timer-running"] },
    stands: { once: [count(`work_log WHERE note = '${MARK}'`), 1] },
  },
  "an entry withdrawn": {
    sends: async ({ shop, make }) => {
      const { id } = await make(`jobs/${shop.agreed}/work-log`, entry(MARK));
      return [post(`jobs/${shop.agreed}/work-log/${id}/withdrawal`, { ...BY, reason: MARK })];
    },
    ...{ done: 1, lost: ["entry-withdrawn-already"] },
    stands: { once: [count("log_withdrawals"), 1] },
  },
  "the last piece of the shelf, used": {
    sends: async ({ shop, make }) => {
      await make("stock/counts", { ...BY, kind: "drive-belt", counted: 1, reason: MARK });
      const used = { item: "w02", partKind: "drive-belt", partCount: 1, person: BY.by, workedOn: "2026-11-25", beyond: true };
      return [post(`jobs/${shop.agreed}/work-log`, { ...used, override: { ...BY, reason: MARK } })];
    },
    done: "all",
    stands: {
      "the shelf gave one": [
        "SELECT -sum(change) AS n FROM stock_movements WHERE kind = 'drive-belt' AND why = 'used on job'",
        1,
      ],
      "and none is left": ["SELECT stock AS n FROM part_kinds WHERE id = 'drive-belt'", 0],
      "each is told of": [
        "SELECT sum(beyond - change) AS n FROM stock_movements WHERE kind = 'drive-belt' AND why = 'used on job'",
        "all",
      ],
    },
  },
  "the last piece of a donor unit, pulled": {
    sends: async ({ make }) => {
      const { id } = await make("donors", {
        ...{ maker: "Hallorin", model: "Skep 3", boughtOn: "2026-11-20", currency: "GBP", cost: 6000 },
        parts: [{ kind: "pinch-roller", pieces: 1, price: 1800 }],
      });
      return [post(`donors/${id}/pulls`, { ...BY, kind: "pinch-roller", pieces: 1 })];
    },
    ...{ done: 1, lost: ["number-out-of-range"] },
    stands: { once: [count("goods_in WHERE kind = 'pinch-roller'"), 1] },
  },
  "the same goods tested": {
    sends: async ({ make }) => {
      const { id } = await make("goods-in", goods(MARK));
      return [post(`goods-in/${id}/tests`, { ...BY, good: 9, bad: 1 })];
    },
    ...{ done: 1, lost: ["number-out-of-range"] },
    stands: { once: [count("goods_in_tests"), 1] },
  },
  "new jobs of one unit": {
    sends: async (_, clients) =>
      numbered(clients, (n) =>
        post("jobs", {
          ...{ ownerId: "01a19b7c-a680-772a-a2a0-9fcf3f132fa2", unitId: "01a1e3cc-9d00-7f4b-a612-df82a8e3dbe4" },
          ...{ arrivedOn: "2026-11-24", reported: `${MARK} ${n}` },
        }),
      ),
    ...{ done: "all", leaves: "job without an estimate" },
    stands: {
      "each under its own number": [
        `SELECT count(DISTINCT year || '-' || sequence) AS n FROM jobs WHERE reported LIKE '${MARK}%'`,
        "all",
      ],
    },
  },
  "the shelf counted": {
    sends: async (_, clients) =>
      numbered(clients, (n) => post("stock/counts", { ...BY, kind: "drive-belt", counted: n + 1, reason: MARK })),
    done: "all",
    stands: { "each is told of": [count(`stock_movements WHERE reason = '${MARK}'`), "all"] },
  },
};

interface Raced {
  /** A sentence for each thing that was not as it must be. */
  readonly faults: readonly string[];
  /** Milliseconds from the first that was sent to the last answer. */
  readonly took: number;
  /** How many heard that it was done, and how often the others heard what. */
  readonly done: number;
  readonly heard: Readonly<Record<string, number>>;
}

export async function raced(name: string, house: House, clients: number): Promise<Raced> {
  const race = RACES[name]!;
  const [url] = house.urls as [string];
  const read = async (answer: Response): Promise<Body> => {
    const body = await answer.text();
    if (!answer.ok) throw new Error(`${name}, before it: ${answer.status} ${body}`);
    return JSON.parse(body);
  };
  const api: Api = {
    ...{ shop: house.shop, url },
    get: async (path) => read(await fetch(`${url}/api/${path}`)),
    make: async (path, body, version) => {
      const headers = { ...JSON_BODY, ...(version !== undefined && { "if-match": `"${version}"` }) };
      return read(await fetch(`${url}/api/${path}`, { method: "POST", body: JSON.stringify(body), headers }));
    },
  };
  const sends = await race.sends(api, clients);
  const from = performance.now();
  const told = await Promise.all(
    Array.from({ length: clients }, (_, n) => sends[n % sends.length]!(house.urls[n % house.urls.length]!)),
  );
  const took = performance.now() - from;
  await house.shut();
  const { db, close } = await opened(house);
  const faults = [...wrongly(race, told), ...(await standing(db, race, told).finally(close))];
  const halves = await faultsIn(house.folder, house.shop, { done: [], open: [] }, house.before);
  faults.push(...halves.filter((half) => race.leaves === undefined || !half.startsWith(race.leaves)));
  const heard: Record<string, number> = {};
  for (const each of told) {
    if (isDone(each)) continue;
    const why = `${each.status} ${namesIn(each).at(-1) ?? "nothing"}`;
    heard[why] = (heard[why] ?? 0) + 1;
  }
  return { faults: [...new Set(faults)].map((fault) => `${name}: ${fault}`), took, done: told.filter(isDone).length, heard };
}

/** Of the whole request, then of its fields. */
const namesIn = ({ text }: Answered): readonly string[] =>
  [...text.matchAll(/"type":"\/problems\/([^"]+)"/g)].map(([, each]) => each!);

function wrongly({ done, same, lost = [] }: Race, told: readonly Answered[]): readonly string[] {
  const [won, others] = [told.filter(isDone), told.filter((each) => !isDone(each))];
  const faults: string[] = [];
  if (won.length === 0 || (done !== undefined && won.length !== (done === "all" ? told.length : done)))
    faults.push(`${won.length} of ${told.length} heard that it was done`);
  const heard = new Set(won.map(({ location, text }) => location ?? [...text].sort().join("")));
  if (same && heard.size > 1) faults.push(`they heard ${heard.size} different things: ${[...heard].slice(0, 2).join(" | ")}`);
  for (const answer of others) {
    const [{ status, text }, names] = [answer, namesIn(answer)];
    const why = /"detail":"[^"]{12,}|"title":"[^"]{12,}/.test(text);
    if (status < 400 || status >= 500 || !why || !names.some((each) => lost.includes(each)))
      faults.push(`one heard ${status} ${names.join(", ")}: ${text.slice(0, 300)}`);
  }
  return faults;
}

async function standing(db: Database, { stands }: Race, told: readonly Answered[]): Promise<readonly string[]> {
  const faults: string[] = [];
  for (const [what, [query, wanted]] of Object.entries(stands)) {
    const { n } = (await db.run(query)).rows[0] as unknown as { readonly n: number };
    const want = wanted === "all" ? told.filter(isDone).length : wanted;
    if (n !== want) faults.push(`'${what}' does not hold: ${n} in place of ${want}`);
  }
  return faults;
}
