/** The clock of the machine goes back, ahead, through the change of summer time and over a leap day. Times by the IANA data of Node. */
import { describe, expect, it } from "vitest";
import { today } from "../../src/acts/today.js";
import { addDays, isDay } from "../../src/estimating/day.js";
import { newSession, sessions } from "../../src/records/sessions.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { moment } from "../../src/wording/time.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { person } from "../http/support/people.js";
import { TAPE_ECHO } from "../records/support/livedIn.js";

const HOUR = 3_600_000;
const NOW = "2026-11-25T09:00:00.000Z";

describe("a clock that goes", () => {
  it("an hour back, then a day ahead, then back: the trail keeps its order, keys their answers, and verify passes", async () => {
    const opened = await agreedShop();
    const log = (key: string) =>
      opened.send(
        ...(["POST", `/api/jobs/${TAPE_ECHO}/work-log`] as const),
        { person: "Ines", workedOn: "2026-11-25", minutes: 0.001, note: key },
        { "idempotency-key": key },
      );
    const moves = [0, -HOUR, 25 * HOUR, -24 * HOUR];
    for (const [n, by] of moves.entries()) {
      opened.pass(by);
      for (const replayed of [null, "true"]) {
        const answer = await log(`entry ${n}`);
        expect([answer.status, answer.headers.get("idempotency-replayed")]).toEqual([201, replayed]);
      }
    }
    const { items } = (await (await opened.call(`/api/jobs/${TAPE_ECHO}/events`)).json()) as {
      items: { number: number; at: string }[];
    };
    expect(items.map(({ number }) => number)).toEqual(items.map((_, at) => items[0]!.number + at));
    expect(items.slice(-4).map(({ at }) => at)).not.toEqual(
      items
        .slice(-4)
        .map(({ at }) => at)
        .sort(),
    );
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
  });

  it("back leaves a session alive, and one that was begun years ahead does not live till then", async () => {
    const opened = await agreedShop();
    const staffId = await person(opened, "Wilhelmina Stråhle", "manager");
    const begun = async (at: string) => {
      const { row, token } = await newSession({ staffId, how: "passkey", agent: "a test" }, at);
      await sessions.adding(opened.db, row);
      return (await sessions.byToken(opened.db, token, NOW))?.staff.id;
    };
    expect(await begun("2026-11-25T10:00:00.000Z")).toBe(staffId);
    expect(await begun("2026-11-26T09:00:00.000Z")).toBe(staffId);
    expect(await begun("2036-11-25T09:00:00.000Z")).toBeUndefined();
  });
});

describe("a day of the shop", () => {
  it.each([
    ["2026-10-24T22:59:00Z", "2026-10-24", "23:59 BST"],
    ["2026-10-24T23:30:00Z", "2026-10-25", "00:30 BST"],
    ["2026-10-25T00:30:00Z", "2026-10-25", "01:30 BST"],
    ["2026-10-25T01:30:00Z", "2026-10-25", "01:30 GMT"],
    ["2026-10-25T23:30:00Z", "2026-10-25", "23:30 GMT"],
    ["2026-03-29T00:59:00Z", "2026-03-29", "00:59 GMT"],
    ["2026-03-29T01:00:00Z", "2026-03-29", "02:00 BST"],
    ["2026-03-29T23:30:00Z", "2026-03-30", "00:30 BST"],
    ["2028-02-29T12:00:00Z", "2028-02-29", "12:00 GMT"],
  ])("at %s is %s, %s", (at, day, clock) => {
    expect(today(new Date(at), "Europe/London")).toBe(day);
    expect(moment(at, "en-GB", "Europe/London")).toContain(clock);
  });

  it("is counted over a leap day and the change of summer time in days, not in hours", () => {
    expect([addDays("2028-01-30", 30), addDays("2028-02-29", 365), addDays("2027-02-28", 1)]).toEqual([
      ...["2028-02-29", "2029-02-28", "2027-03-01"],
    ]);
    expect([addDays("2026-10-24", 2), addDays("2026-03-28", 2)]).toEqual(["2026-10-26", "2026-03-30"]);
    expect(["2028-02-29", "2027-02-29", "2100-02-29"].map(isDay)).toEqual([true, false, false]);
  });
});
