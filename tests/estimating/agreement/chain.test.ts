import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  CHAIN_START,
  type ChainEvent,
  type ChainedEvent,
  chainText,
  type Hash,
  verifyChain,
} from "../../../src/estimating/agreement/chain.js";
import { runs } from "../../setup/runs.js";

const sha256: Hash = async (text) => createHash("sha256").update(text, "utf8").digest("hex");

async function chained(events: readonly Omit<ChainEvent, "number" | "job">[], job = "J-1"): Promise<ChainedEvent[]> {
  const list: ChainedEvent[] = [];
  for (const [at, event] of events.entries()) {
    const full = { ...event, job, number: at + 1 };
    list.push({ ...full, hash: await sha256(chainText(full, list.at(-1)?.hash ?? CHAIN_START)) });
  }
  return list;
}

const EVENTS = [
  { at: "2026-11-25T09:00:00Z", is: "issued", content: { revision: 1, total: 36000 } },
  { at: "2026-11-25T10:30:00Z", is: "agreed", content: { revision: 1, who: "Žofie Kapradinová", options: ["b", "a"] } },
  { at: "2026-11-26T08:15:00Z", is: "issued", content: { revision: 2, total: 41200 } },
  { at: "2026-11-26T08:20:00Z", is: "overridden", content: { reason: "fuse blew", by: "Bench two" } },
];

const anyEvents = fc.array(
  fc.record({ at: fc.constantFrom("2026-11-25T09:00:00Z", "2026-12-01T00:00:00Z"), is: fc.string(), content: fc.jsonValue() }),
  { minLength: 1, maxLength: 6 },
);

describe("the chain of a job's events", () => {
  it("verifies as written, also when read back from JSON with keys in another order", async () => {
    const events = await chained(EVENTS);
    const head = { number: 4, hash: events[3]!.hash };
    expect(await verifyChain(events, sha256, [head])).toEqual({ ok: true, head });
    const turned = events.map((event) => Object.fromEntries(Object.entries(event).reverse()) as unknown as ChainedEvent);
    expect(await verifyChain(JSON.parse(JSON.stringify(turned)), sha256)).toEqual({ ok: true, head });
  });

  it("of no events has the start as its head", async () => {
    expect(await verifyChain([], sha256)).toEqual({ ok: true, head: { number: 0, hash: CHAIN_START } });
  });

  it("hashes a text anyone can write down: keys in order, the hash before it at its name", () => {
    const event = { content: { b: 1, a: 2 }, number: 2, job: "J-1", is: "agreed", at: "2026-11-25T10:30:00Z" };
    expect(chainText(event, "abc")).toBe(
      '{"at":"2026-11-25T10:30:00Z","chain":1,"content":{"a":2,"b":1},"is":"agreed","job":"J-1","number":2,"previous":"abc"}',
    );
  });

  it("agrees with SHA-256 of that text worked out by another program", async () => {
    // printf '%s' TEXT | sha256sum, of the text above with previous "" and number 1.
    const [event] = await chained([{ at: "2026-11-25T10:30:00Z", is: "agreed", content: { b: 1, a: 2 } }]);
    expect(event!.hash).toBe("d9feaa30250a72e9f0fbe6601a46dcb2c3b9d3aa050a1f174638c0d5954f826d");
  });
});

describe("tampering", () => {
  const spoil = (change: (events: ChainedEvent[]) => ChainedEvent[]) =>
    chained(EVENTS).then((events) => verifyChain(change(events), sha256, [{ number: 4, hash: events[3]!.hash }]));

  it("with any field of any event is found at that event", async () => {
    await fc.assert(
      fc.asyncProperty(anyEvents, fc.nat(5), fc.constantFrom("at", "is", "content"), async (given, pick, field) => {
        const events = await chained(given);
        const place = pick % events.length;
        const spoilt = events.map((event, at) =>
          at === place ? { ...event, [field]: `${JSON.stringify(event[field as "is"])}!` } : event,
        );
        expect(await verifyChain(spoilt, sha256)).toMatchObject({ ok: false, fault: { is: "hash", number: place + 1 } });
      }),
      runs(60),
    );
  });

  it("with a hash is found at its event", async () => {
    expect(
      await spoil((events) => events.map((event, at) => (at === 1 ? { ...event, hash: "0".repeat(64) } : event))),
    ).toMatchObject({
      fault: { is: "hash", number: 2 },
    });
  });

  it("and mending that event's own hash is found at the next", async () => {
    const mended = async () => {
      const events = await chained(EVENTS);
      const changed = { ...events[1]!, content: { revision: 1, who: "someone else" } };
      const hash = await sha256(chainText(changed, events[0]!.hash));
      return verifyChain([events[0]!, { ...changed, hash }, ...events.slice(2)], sha256);
    };
    expect(await mended()).toMatchObject({ fault: { is: "hash", number: 3 } });
  });

  it("by taking an event out, putting one in twice or changing their order is found there", async () => {
    expect(await spoil((events) => events.filter((_, at) => at !== 1))).toMatchObject({
      fault: { is: "number", number: 3, expected: 2 },
    });
    expect(await spoil((events) => [events[0]!, ...events])).toMatchObject({ fault: { is: "number", number: 1, expected: 2 } });
    expect(await spoil(([a, b, c, d]) => [a!, c!, b!, d!])).toMatchObject({ fault: { is: "number", number: 3, expected: 2 } });
  });

  it("by cutting off the end is found against a head that left the shop", async () => {
    expect(await spoil((events) => events.slice(0, 2))).toMatchObject({ ok: false, fault: { is: "head", number: 4 } });
  });

  it("by rewriting the whole list is found against a head that left the shop", async () => {
    const [honest, rewritten] = [await chained(EVENTS), await chained([...EVENTS.slice(0, 3), { ...EVENTS[3]!, content: {} }])];
    const heads = [
      { number: 2, hash: honest[1]!.hash },
      { number: 4, hash: honest[3]!.hash },
    ];
    expect(await verifyChain(rewritten, sha256)).toMatchObject({ ok: true });
    expect(await verifyChain(rewritten, sha256, heads)).toEqual({
      ok: false,
      fault: { is: "head", number: 4, hash: honest[3]!.hash, found: rewritten[3]!.hash },
    });
  });

  it("by moving an event to another job is found, even with the number it had", async () => {
    const [here, there] = [await chained(EVENTS), await chained(EVENTS, "J-2")];
    expect(await verifyChain([here[0]!, there[1]!], sha256)).toMatchObject({
      fault: { is: "job", number: 2, job: "J-2", expected: "J-1" },
    });
    expect(await verifyChain([here[0]!, { ...there[1]!, job: "J-1" }], sha256)).toMatchObject({
      fault: { is: "hash", number: 2 },
    });
  });
});
