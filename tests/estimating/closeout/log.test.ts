import { describe, expect, it } from "vitest";
import { agreedLimit } from "../../../src/estimating/agreement/limit.js";
import { mayLog } from "../../../src/estimating/agreement/workLog.js";
import {
  checkAddition,
  checkForClosing,
  checkLog,
  type LogContext,
  withoutRefused,
} from "../../../src/estimating/closeout/log/checkLog.js";
import { milliOf, partAsLogged, readMoment, timeAsLogged } from "../../../src/estimating/closeout/log/spent.js";
import type { PartUsed, TimeEntry, WorkLog } from "../../../src/estimating/closeout/log/workLog.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { LogProblemName } from "../../../src/estimating/problems.js";
import { problemText } from "../../../src/wording/problem.js";
import { on } from "../cast/organ.js";
import { INPUT, ITEMS, minutes, sheetOf, timer, used } from "./done.js";

/** The back is worked on in a later revision that nobody answered yet; voice is counted up in it. */
const CURRENT: EstimateInput = {
  ...INPUT,
  items: [...ITEMS.map((item) => (item.id === "voice" ? { ...item, count: 2 } : item)), on("back", "burn")],
};
const CONTEXT: LogContext = { current: CURRENT, agreed: INPUT };
const log = (time: readonly TimeEntry[], parts: readonly PartUsed[] = []): WorkLog => ({ time, parts });
const plain = (text: string) => text.replaceAll("\u00a0", " ");
const day = (time: string) => `2026-11-25T${time}+00:00`;

/** One case for each name; a name without a case does not compile. */
const CASES: Readonly<Record<LogProblemName, [log: WorkLog, pointer: string, text: string][]>> = {
  "moment unreadable": [
    [
      log([timer("clean", "25 November, half past nine", day("10:00"))]),
      "/time/0/startedAt",
      "Ines, board 'Top', clean: '25 November, half past nine' is not a moment in time; write it as date, time and zone, such as 2026-11-25T09:30+00:00.",
    ],
    [
      log([timer("clean", day("10:00"), "2026-11-25T10:30")]),
      "/time/0/endedAt",
      "Ines, board 'Top', clean: '2026-11-25T10:30' is not a moment in time; write it as date, time and zone, such as 2026-11-25T09:30+00:00.",
    ],
  ],
  "time negative": [
    [
      log([timer("caps", day("10:00"), day("09:30"))]),
      "/time/0/endedAt",
      "Ines, board 'Top', replace capacitor: the time comes to -30 min, as if it had ended before it began; correct the start, the end or the minutes.",
    ],
    [
      log([minutes("clean", -5)]),
      "/time/0/minutes",
      "Ines, board 'Top', clean: the time comes to -5 min, as if it had ended before it began; correct the start, the end or the minutes.",
    ],
  ],
  "time too long": [
    [
      log([timer("clean", day("10:00"), "2026-11-27T09:30+00:00")]),
      "/time/0/endedAt",
      "Ines, board 'Top', clean: the timer ran for 47 h 30 min on end, above the limit of 24 h, so it was probably left running; enter when the work really ended.",
    ],
  ],
  "times overlap": [
    [
      log([timer("clean", day("09:00"), day("10:00")), timer("open lid", day("09:45"), day("10:15"))]),
      "/time/1/startedAt",
      "Ines, board 'Lid', opening and refitting: 15 min of this time are also logged for the same person on board 'Top', clean; correct one of the two.",
    ],
    [
      log([
        timer("clean", day("09:00"), day("10:00")),
        timer("caps", day("10:00"), day("11:00")),
        timer("open lid", day("10:30"), day("10:45")),
      ]),
      "/time/2/startedAt",
      "Ines, board 'Lid', opening and refitting: 15 min of this time are also logged for the same person on board 'Top', replace capacitor; correct one of the two.",
    ],
  ],
  "two timers": [
    [
      log([timer("clean", day("09:00")), timer("caps", day("09:05"))]),
      "/time/1/startedAt",
      "Ines, board 'Top', replace capacitor: a timer of the same person is running on board 'Top', clean already, and nobody works in two places; stop that one first.",
    ],
  ],
  "timer running": [
    [
      log([timer("clean", day("09:00"))]),
      "/time/0/endedAt",
      "Ines, board 'Top', clean: a timer is still running, so its time is not known yet; stop it before closing the job.",
    ],
  ],
  "job closed": [],
  "person missing": [
    [
      log([minutes("clean", 5, { person: " " })]),
      "/time/0/person",
      "Somebody, board 'Top', clean: nobody is named for this time; say who did the work.",
    ],
  ],
  "work unknown": [
    [
      log([minutes("polish", 5)]),
      "/time/0/work",
      "Ines, work item 'polish': the job has no 'polish'; choose work of the job, or add it in a new revision first.",
    ],
    [
      log([minutes("open attic", 5)]),
      "/time/0/work",
      "Ines, assembly 'attic', opening and refitting: the job has no 'attic'; choose work of the job, or add it in a new revision first.",
    ],
  ],
  "work not agreed": [
    [
      log([minutes("burn", 5)]),
      "/time/0/work",
      "Ines, board 'Back', clean: this work is not in the agreed revision, so it may not be worked on yet; send a revision and wait for the answer, or override with a reason and a name.",
    ],
    [
      log([minutes("oil", 5)]),
      "/time/0/work",
      "Ines, board 'Rail', clean: the owner did not choose this option, so it may not be worked on yet; send a revision and wait for the answer, or override with a reason and a name.",
    ],
    [
      log([minutes("voice", 5)]),
      "/time/0/work",
      "Ines, board 'Low', adjust: this is more than was agreed, so it may not be worked on yet; send a revision and wait for the answer, or override with a reason and a name.",
    ],
    [
      log([minutes("open back", 5)]),
      "/time/0/work",
      "Ines, board 'Back', opening and refitting: this work is not in the agreed revision, so it may not be worked on yet; send a revision and wait for the answer, or override with a reason and a name.",
    ],
  ],
  "part not agreed": [
    [
      log([], [used("caps", 1, 900, { part: { type: "dip-40" } })]),
      "/parts/0/part",
      "Part used, board 'Top', replace capacitor: 'dip-40' is not in the agreed revision for this work; use the part agreed, say that this one stands in for it, send a revision, or override with a reason and a name.",
    ],
  ],
  "override incomplete": [
    [
      log([minutes("burn", 5, { override: { reason: "smoke", by: "" } })]),
      "/time/0/override",
      "Ines, board 'Back', clean: the override has no name, and without one it is no record; give a reason and the name of who decided.",
    ],
    [
      log([minutes("burn", 5, { override: { reason: "smoke", by: "  " } })]),
      "/time/0/override",
      "Ines, board 'Back', clean: the override has no name, and without one it is no record; give a reason and the name of who decided.",
    ],
    [
      log([], [used("caps", 1, 900, { part: { type: "dip-40" }, override: { reason: " ", by: "Ines" } })]),
      "/parts/0/override",
      "Part used, board 'Top', replace capacitor: the override has no reason, and without one it is no record; give a reason and the name of who decided.",
    ],
  ],
};

describe.each(Object.entries(CASES).flatMap(([name, cases]) => cases.map((each) => [name, ...each] as const)))(
  "%s",
  (name, wrong, pointer, text) => {
    const problems = checkForClosing(wrong, CONTEXT).filter(
      (problem) => name === "timer running" || problem.name !== "timer running",
    );

    it("is named, at its place, in words that say what to do", () => {
      expect(problems.map((problem) => [problem.name, problem.pointer, plain(problemText(problem))])).toEqual([
        [name, pointer, text],
      ]);
    });
    it("leaves everything else of the log", () => {
      const more = { time: [...wrong.time, minutes("clean", 7)], parts: [...wrong.parts, used("caps", 1, 10)] };
      const left = withoutRefused(more, checkForClosing(more, CONTEXT));
      expect([left.time.at(-1), left.parts.at(-1)]).toEqual([more.time.at(-1), more.parts.at(-1)]);
      expect(checkForClosing(left, CONTEXT)).toEqual([]);
    });
  },
);

describe("what is logged after the job was closed", () => {
  it("is refused by name, time and parts alike, and nothing already there is lost", () => {
    const before = log([minutes("clean", 20)]);
    const context = { ...CONTEXT, closedOn: "2026-11-20" };
    const late = checkAddition(before, { time: minutes("caps", 5) }, context);
    expect(late.map(problemText)).toEqual([
      "Ines, board 'Top', replace capacitor: the job was closed on 2026-11-20 and its account is final; log this on a new job, or by override with a reason and a name, and correct the close-out.",
    ]);
    expect(late[0]!.pointer).toBe("/time/1");
    expect(checkAddition(before, { part: used("caps", 1, 10) }, context).map(({ name }) => name)).toEqual(["job closed"]);
    expect(checkLog(before, context)).toEqual([]);
  });
});

describe("one more entry", () => {
  it("is held to the entries before it, and not blamed for what was wrong with them", () => {
    const before = log([timer("clean", day("09:00"), day("10:00")), minutes("burn", 5)]);
    expect(checkAddition(before, { time: timer("caps", day("09:30"), day("09:40")) }, CONTEXT).map(({ name }) => name)).toEqual([
      "times overlap",
    ]);
    expect(checkAddition(before, { time: timer("caps", day("10:00"), day("10:40")) }, CONTEXT)).toEqual([]);
    expect(checkAddition(log([]), { part: used("caps", -1, 10) }, CONTEXT).map(({ name, pointer }) => [name, pointer])).toEqual([
      ["count negative", "/parts/0/count"],
    ]);
  });
  it("may start inside an older stretch that is put in later, and then the overlap is still its own", () => {
    const before = log([timer("clean", day("09:30"), day("10:00"))]);
    const names = checkAddition(before, { time: timer("caps", day("09:00"), day("09:45")) }, CONTEXT).map(({ name }) => name);
    expect(names).toEqual(["times overlap"]);
  });
});

describe("a log", () => {
  it("without problems has none: touching stretches, other people, a soak beside other work", () => {
    const soaking: EstimateInput = { ...INPUT, items: [...ITEMS, on("top", "soak", { operation: "soak" })] };
    const good = log(
      [
        timer("clean", day("09:00"), day("10:00")),
        timer("caps", day("10:00"), day("10:20")),
        timer("clean", day("09:10"), day("09:20"), { person: "Oskar" }),
        timer("soak", "2026-11-23T08:00+00:00", day("20:00")),
        timer("valve", day("11:00"), day("11:00")),
        minutes("open", 30),
        minutes("open low", 3),
      ],
      [used("caps", 4, 10), used("valve", 1, 10, { part: { type: "valve" } })],
    );
    expect(checkForClosing(good, { current: soaking, agreed: soaking })).toEqual([]);
  });

  it("reads a shift over the change of the clocks, and zones, as the time that passed", () => {
    const passed = (from: string, to: string) => milliOf(readMoment(to)! - readMoment(from)!) / 1000;
    expect(passed("2026-10-25T00:30+01:00", "2026-10-25T02:30+00:00")).toBe(180);
    expect(passed("2026-11-25T09:00-05:00", "2026-11-25T14:10:30Z")).toBe(10.5);
    expect(["2026-02-30T10:00Z", "2026-11-25T24:00Z", "2026-11-25 10:00Z", "2026-11-25T10:00"].map(readMoment)).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });

  it("knows work that a later draft dropped, as it was agreed", () => {
    const dropped = { ...INPUT, items: ITEMS.filter(({ id }) => id !== "clean") };
    expect(checkLog(log([minutes("clean", 5)]), { current: dropped, agreed: INPUT })).toEqual([]);
  });

  it("has nothing agreed to before the owner answers", () => {
    const names = checkLog(log([minutes("clean", 5)]), { current: INPUT, agreed: undefined }).map(problemText);
    expect(names).toEqual([
      "Ines, board 'Top', clean: nothing is agreed on this job, so it may not be worked on yet; send a revision and wait for the answer, or override with a reason and a name.",
    ]);
  });

  it("refuses an id that stands twice, a person at no known class, a part with no price", () => {
    const twice = minutes("clean", 5, { labourClass: "night" });
    const wrong = log([twice, { ...twice }], [used("caps", 1, 10.5, { paid: { price: 10.5, per: 0 } })]);
    expect(checkLog(wrong, CONTEXT).map(({ name, pointer }) => [name, pointer])).toEqual([
      ["labour class unknown", "/time/0/labourClass"],
      ["labour class unknown", "/time/1/labourClass"],
      ["amount fractional", "/parts/0/paid/price"],
      ["count missing", "/parts/0/paid/per"],
      ["id repeated", "/time/1/id"],
    ]);
  });
});

describe("a log held against the limit", () => {
  it("comes to what the agreement reckons: minutes at the rate, parts with mark-up", () => {
    const entry = timer("voice", day("09:00"), day("09:12:30"));
    expect(timeAsLogged(entry)).toEqual({ item: "voice", minutes: 12.5 });
    expect(timeAsLogged(minutes("open lid", 4, { labourClass: "soak" }))).toEqual({ minutes: 4, labourClass: "soak" });
    const book = { ...INPUT.rateBook, parts: { ...INPUT.rateBook.parts, markUp: [{ percent: 50 }] } };
    const pack = used("caps", 3, 50, { paid: { price: 50, per: 10 } });
    expect(partAsLogged(pack, { rateBook: book })).toEqual({ item: "caps", parts: 23 });
  });
  it("stops where the limit is passed", () => {
    const agreed = { input: INPUT, sheet: sheetOf(INPUT), limit: agreedLimit(INPUT)!, unagreed: [] };
    const before = [timeAsLogged(minutes("voice", 40)), partAsLogged(used("caps", 4, 10), INPUT)];
    expect(agreed.limit.upTo).toBe(9944);
    expect(mayLog(INPUT, agreed, before, timeAsLogged(minutes("clean", 19))).is).toBe("within");
    expect(mayLog(INPUT, agreed, before, timeAsLogged(minutes("clean", 19.05)))).toMatchObject({ is: "above limit", by: 1 });
  });
});
