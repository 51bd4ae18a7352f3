/**
 * What each act costs over a hosted database, where a round trip is some 20 ms: requests to it, and pricings by the engine.
 * `goal` is what an act shall cost; `now` what it costs today, and is only ever lowered: lower it when you save something.
 */
import { describe, expect, it } from "vitest";
import { agreedFile } from "../http/support/agreedShop.js";
import { type Filled, filledIn } from "../http/support/noScript.js";
import { person, signedIn, tokenOf } from "../http/support/people.js";
import { demo, demoFile } from "../http/support/shop.js";
import { worked } from "../records/support/closed.js";
import { TAPE_ECHO } from "../records/support/livedIn.js";
import { type Cost, hostedShop } from "./support/roundTrips.js";

interface Limit {
  readonly now: Cost;
  readonly goal?: Partial<Cost>;
}

const LIMITS = {
  "bench entry": { now: { trips: 4, pricings: 1 }, goal: { trips: 5, pricings: 1 } },
  "bench page": { now: { trips: 3, pricings: 1 }, goal: { trips: 4, pricings: 1 } },
  "job page": { now: { trips: 4, pricings: 2 }, goal: { trips: 4 } },
  "new job": { now: { trips: 5, pricings: 1 }, goal: { trips: 6 } },
  "draft saved": { now: { trips: 5, pricings: 1 }, goal: { trips: 6 } },
  "estimate issued": { now: { trips: 4, pricings: 1 }, goal: { trips: 6 } },
  "extra fault with its page": { now: { trips: 7, pricings: 2 }, goal: { trips: 10 } },
  "job closed": { now: { trips: 4, pricings: 2 }, goal: { trips: 8 } },
  "start page": { now: { trips: 3, pricings: 0 } },
  "goods in page": { now: { trips: 4, pricings: 0 } },
  "a part's page": { now: { trips: 4, pricings: 0 } },
  "goods in": { now: { trips: 9, pricings: 0 } },
  "page to issue from": { now: { trips: 3, pricings: 1 } },
  "an owner's whole file": { now: { trips: 4, pricings: 0 } },
  "a table of every line": { now: { trips: 3, pricings: 0 } },
  "bench entry by a program": { now: { trips: 5, pricings: 1 }, goal: { trips: 5, pricings: 1 } },
} satisfies Record<string, Limit>;

type Act = keyof typeof LIMITS;

const JOB = `/jobs/${TAPE_ECHO}`;
const NAME = "Wilhelmina Stråhle";
const FOUND = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
const NEW = { "owner.name": "Orla Fennimore", "unit.maker": "Thornwick", "unit.model": "TR-4", "unit.reported": "no sound" };
const GOODS = {
  kind: "Electrolytic 1 µF 100 V, 105 °C",
  source: "Pindrake Components",
  state: "new",
  pieces: "10",
  paid: "2.50",
};

/** Someone at work in a shop over HTTP, signed in. */
async function atWork(from: string, role: "technician" | "manager" = "technician") {
  const opened = await hostedShop(from);
  const staffId = await person(opened, NAME, role);
  const desk = await signedIn(opened, staffId, opened.secret);
  const seen = async (path: string) => {
    const answer = await desk.get(path);
    expect(answer.status, path).toBe(200);
    return { path, html: await answer.text() };
  };
  const press = async (path: string, button: string, filled: Filled = {}) => {
    const form = filledIn(await seen(path), button, filled);
    return () => desk.send(form.path, form.pairs);
  };
  /** The same with the page it leads to. */
  const followed = async (act: () => Promise<Response>) => desk.get((await act()).headers.get("location") ?? "nowhere");
  return { ...opened, staffId, desk, seen, press, followed };
}

async function held(name: Act, { costOf }: Awaited<ReturnType<typeof hostedShop>>, act: () => Promise<Response>, status: number) {
  const { cost, answer } = await costOf(act);
  const { now, goal }: Limit = LIMITS[name];
  expect(answer.status, answer.status === status ? "" : await answer.text()).toBe(status);
  if (process.env.ROUND_TRIPS) process.stderr.write(`${name}: ${cost.trips} round trips, ${cost.pricings} pricings\n`);
  expect(cost.trips, `round trips of '${name}'; the goal is ${goal?.trips}`).toBeLessThanOrEqual(now.trips);
  expect(cost.pricings, `pricings of '${name}'; the goal is ${goal?.pricings}`).toBeLessThanOrEqual(now.pricings);
  return answer;
}

describe("an act over a hosted database costs no more than it did", () => {
  it("at the bench, by page and by program", async () => {
    const shop = await atWork((await agreedFile()).path);
    const tick = await shop.press(`${JOB}/bench`, "Tick off Tape transport: Exchange, Drive belt, flat, 242 mm round");
    const done = await held("bench entry", shop, tick, 303);
    await held("bench page", shop, () => shop.desk.get(done.headers.get("location")!), 200);
    // Who looks first after an answer has the parts that it wants put down.
    await shop.desk.get("/");
    await held("job page", shop, () => shop.desk.get(JOB), 200);
    const token = await tokenOf(shop, shop.staffId, "write");
    const entry = { person: NAME, workedOn: "2026-11-25", item: "w01", minutes: 5 };
    const headers = { authorization: `Bearer ${token}`, "idempotency-key": '"five minutes"' };
    const post = () => shop.send("POST", `/api/jobs/${TAPE_ECHO}/work-log`, entry, headers);
    await held("bench entry by a program", shop, post, 201);
  });

  it("at the counter: a new job, a draft saved, issued, an extra fault", async () => {
    const shop = await atWork((await demoFile()).path);
    await held("new job", shop, await shop.press("/estimates/new?open=intake", "Save the estimate", NEW), 303);
    const draft = `/estimates/${(await demo()).jobs.find(({ id }) => id === TAPE_ECHO)!.estimates[0]!.id}`;
    await held(
      "draft saved",
      shop,
      await shop.press(`${draft}?open=intake`, "Save", { "unit.reported": "hums and eats tape" }),
      303,
    );
    await held("page to issue from", shop, () => shop.desk.get(`${JOB}/issue`), 200);
    await held("estimate issued", shop, await shop.press(`${JOB}/issue`, "Issue revision 1", { by: NAME }), 200);
    const add = await shop.press(`${JOB}/extra-fault`, "Add it to a draft of revision 2", FOUND);
    await held("extra fault with its page", shop, () => shop.followed(add), 200);
  });

  it("when a job is closed", async () => {
    const shop = await atWork((await agreedFile()).path);
    await worked(shop.db, TAPE_ECHO, 1.2);
    await held("job closed", shop, await shop.press(`${JOB}/close-out`, "Close the job", { by: NAME }), 303);
    const start = await held("start page", shop, () => shop.desk.get("/"), 200);
    expect(await start.text()).toContain("Closed and not settled");
  });

  it("when parts come in", async () => {
    const shop = await atWork((await demoFile()).path);
    await held("goods in page", shop, () => shop.desk.get("/parts/goods-in"), 200);
    await held("a part's page", shop, () => shop.desk.get("/parts/kinds/el-100u-50"), 200);
    await held("goods in", shop, await shop.press("/parts/goods-in", "Book in", GOODS), 303);
  });

  it("when a table of all jobs is taken away, which asks for twenty jobs at once, or all about an owner", async () => {
    const shop = await atWork((await demoFile()).path, "manager");
    const read = async () => {
      const answer = await shop.desk.get("/api/csv/estimate-lines");
      return new Response(await answer.text(), answer);
    };
    await held("a table of every line", shop, read, 200);
    const { ownerId } = (await demo()).jobs.find(({ id }) => id === TAPE_ECHO)!;
    await held("an owner's whole file", shop, () => shop.desk.get(`/api/owners/${ownerId}/file`), 200);
  });
});
