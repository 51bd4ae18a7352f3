/** Ticking work off, and putting readings on record. */
import { count as countInRange, unknown } from "../estimating/check/figures.js";
import { inside, type Spot, spot } from "../estimating/check/spot.js";
import { at as problemAt, wordingFor } from "../estimating/closeout/log/checkEntry.js";
import { coverage } from "../estimating/closeout/log/covered.js";
import type { LogProblem, Problem } from "../estimating/problems.js";
import { closedOn } from "./closed.js";
import type { Database, Instant } from "./database.js";
import { tellingOf } from "./keptOnce.js";
import type { EntryRefused, LimitRefusal } from "./logRefusal.js";
import { type Reading, type ReadingValue, readingsOf, readingsTable } from "./readings.js";
import { standingOf } from "./standing.js";
import { type TickOff, type TickOffValue, tickOffsOf, tickOffsTable } from "./tickOffs.js";
import { type Decided, recorded } from "./trail.js";
import { entriesOf } from "./workLog.js";

type Kept<Record> = { readonly is: "kept"; readonly record: Record } | { readonly is: "missing" } | EntryRefused;
export type TickOffOutcome = Kept<TickOff> | Extract<LimitRefusal, { is: "not agreed" }>;
export type ReadingOutcome = Kept<Reading>;

/** Refused for work that is not agreed, unless an override let some of it be logged. */
export function tickOff(db: Database, jobId: string, id: string, value: TickOffValue, at: Instant): Promise<TickOffOutcome> {
  return recorded(db, jobId, at, async (): Promise<Decided<TickOffOutcome>> => {
    const before = (await tickOffsOf(db, jobId)).find((each) => each.id === id);
    if (before) return { answer: { is: "kept", record: before } };
    const standing = await standingOf(db, jobId);
    if (!standing?.input) return { answer: { is: "missing" } };
    const { input, agreed } = standing;
    const item = input.items.find((each) => each.id === value.item);
    const here = spot(() => `${value.person}, ${wordingFor(input).work({ is: "item", id: value.item })}`);
    const problems: (Problem | LogProblem)[] = [
      ...(await closedProblem(db, jobId, here)),
      ...(item
        ? countInRange(value.count, inside(here, ["count"]), item.count)
        : [problemAt(inside(here, ["item"]), { name: "work unknown", id: value.item })]),
    ];
    if (problems.length > 0) return { answer: { is: "refused", problems } };
    const why = coverage(input, agreed?.input).workNot({ is: "item", id: value.item });
    const overridden = why && (await entriesOf(db, jobId)).some((each) => each.item === value.item && each.overrideId);
    if (why && !overridden) return { answer: { is: "not agreed", why } };
    const record: TickOff = { ...value, id, jobId, at };
    return {
      answer: { is: "kept", record },
      writes: [db.insert(tickOffsTable).values(record)],
      events: [{ is: "ticked off", content: { person: value.person, record: await tellingOf("tick_offs", record) } }],
    };
  });
}

export function takeReading(db: Database, jobId: string, id: string, value: ReadingValue, at: Instant): Promise<ReadingOutcome> {
  return recorded(db, jobId, at, async (): Promise<Decided<ReadingOutcome>> => {
    const before = (await readingsOf(db, jobId)).find((each) => each.id === id);
    if (before) return { answer: { is: "kept", record: before } };
    const standing = await standingOf(db, jobId);
    if (!standing?.input) return { answer: { is: "missing" } };
    const here = spot(() => `${value.person}, ${value.label}`);
    const known = new Set((standing.input.map?.assemblies ?? []).map((each) => each.id));
    const { assembly } = value;
    const problems: (Problem | LogProblem)[] = [
      ...(await closedProblem(db, jobId, here)),
      ...(assembly === undefined ? [] : unknown("assembly unknown", assembly, known, inside(here, ["assembly"]))),
    ];
    if (problems.length > 0) return { answer: { is: "refused", problems } };
    const record: Reading = { ...value, id, jobId, at };
    return {
      answer: { is: "kept", record },
      writes: [db.insert(readingsTable).values(record)],
      events: [{ is: "reading taken", content: { person: value.person, record: await tellingOf("readings", record) } }],
    };
  });
}

async function closedProblem(db: Database, jobId: string, here: Spot): Promise<LogProblem[]> {
  const on = await closedOn(db, jobId);
  return on === undefined ? [] : [problemAt(here, { name: "job closed", on })];
}
