/** What was measured on the bench. */
import { z } from "zod";
import { unknown } from "../estimating/check/figures.js";
import { inside, spot } from "../estimating/check/spot.js";
import { at } from "../estimating/closeout/log/checkEntry.js";
import { tellingOf } from "../records/keptOnce.js";
import { type Reading, readingsTable } from "../records/readings.js";
import { act } from "./act.js";
import { decimal, hand, line, maybe } from "./field.js";
import { handOf } from "./hand.js";
import { type OnJob, person, WHO } from "./logWork.js";
import { NO_JOB, refusedFor } from "./mayLog.js";
import { keptOnce } from "./shapes/primitives.js";

const unit = line("Unit", { most: 20, hint: "V, if left empty." }).meta({ example: "V" });
const readingKeys = {
  label: line("What was measured", { most: 200 }).meta({ example: "supply +12 V" }),
  expected: maybe(decimal("Expected", { decimals: 3 })),
  found: decimal("Found", { decimals: 3 }),
  assembly: maybe(line("On", { most: 100 })),
};
export const keptReading = z.strictObject({ ...keptOnce, ...readingKeys, unit, person }).meta({ id: "ReadingRecord" });

export const takeReading = act({
  name: "addReading",
  title: "Put a reading on record",
  fields: z
    .strictObject({ ...readingKeys, unit: maybe(unit.meta({ description: "V when absent" })), person: hand(WHO) })
    .meta({ id: "Reading" }),
  answer: keptReading,
  decide: async (desk, { person: named, unit = "V", ...value }, on: OnJob) => {
    const job = await desk.job(on.job);
    const input = job?.input();
    if (!job || !input) return NO_JOB;
    const who = handOf(desk, named, WHO, "/person");
    if ("refused" in who) return who;
    const here = spot(() => `${who.by}, ${value.label}`);
    const known = new Set((input.map?.assemblies ?? []).map(({ id }) => id));
    const { assembly } = value;
    const problems = [
      ...(job.closedOn === undefined ? [] : [at(here, { name: "job closed", on: job.closedOn })]),
      ...(assembly === undefined ? [] : unknown("assembly unknown", assembly, known, inside(here, ["assembly"]))),
    ];
    if (problems.length > 0) return refusedFor(problems, job);
    const record: Reading = { ...value, unit, person: who.by, id: desk.newId(), jobId: job.id, at: desk.at };
    const event = { person: who.by, record: await tellingOf("readings", record) };
    return {
      answer: record,
      writes: [desk.db.insert(readingsTable).values(record)],
      trail: { job: job.id, head: job.head, events: [{ is: "reading taken", content: event }] },
    };
  },
});
