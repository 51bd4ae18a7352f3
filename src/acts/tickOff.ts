/** How much of a work item is done, in all. Refused for work that is not agreed, unless an override let some of it be logged, or less is done of it than was ticked off. */
import { z } from "zod";
import { count as countInRange } from "../estimating/check/figures.js";
import { inside, spot } from "../estimating/check/spot.js";
import { at, wordingFor } from "../estimating/closeout/log/checkEntry.js";
import { coverage } from "../estimating/closeout/log/covered.js";
import { tellingOf } from "../records/keptOnce.js";
import { type TickOff, tickOffsTable } from "../records/tickOffs.js";
import { capital } from "../wording/list.js";
import { act, refused, wrongField } from "./act.js";
import { draftFinding } from "./draftFinding.js";
import { count, hand, line } from "./field.js";
import { handOf } from "./hand.js";
import { type OnJob, person, WHO } from "./logWork.js";
import { NO_JOB, refusedFor, unagreedWork } from "./mayLog.js";
import { keptOnce } from "./shapes/primitives.js";

const tickKeys = {
  item: line("Work", { most: 100 }),
  count: count("Done").meta({ description: "Done in all, not since the last one" }),
};
export const keptTickOff = z.strictObject({ ...keptOnce, ...tickKeys, person }).meta({ id: "TickOffRecord" });

/** More of it is more work: it is agreed to first, and then stands in the count. */
const moreThanCounted = (where: string, done: number, counted: number): string =>
  `${where}: ${counted} ${counted === 1 ? "is" : "are"} counted, so ${done} cannot be ticked off. Tick off ${counted}, and add the other ${done - counted} under Extra fault, on this page or the job's; once the owner agrees, they are ticked off here too.`;

export const tickOff = act({
  name: "addTickOff",
  title: "Say how much of a work item is done",
  fields: z.strictObject({ ...tickKeys, person: hand(WHO) }).meta({ id: "TickOff" }),
  answer: keptTickOff,
  decide: async (desk, { person: named, ...value }, on: OnJob) => {
    const job = await desk.job(on.job);
    const input = job?.input();
    if (!job || !input) return NO_JOB;
    const who = handOf(desk, named, WHO, "/person");
    if ("refused" in who) return who;
    const work = { is: "item", id: value.item } as const;
    const item = input.items.find(({ id }) => id === value.item);
    const here = spot(() => capital(wordingFor(input).work(work)));
    const problems = [
      ...(job.closedOn === undefined ? [] : [at(here, { name: "job closed", on: job.closedOn })]),
      ...(item
        ? countInRange(value.count, inside(here, ["count"]), item.count)
        : [at(inside(here, ["item"]), { name: "work unknown", id: value.item })]),
    ];
    if (item && problems.some(({ name }) => name === "count too large"))
      return wrongField(
        "/count",
        "count too large",
        moreThanCounted(capital(wordingFor(input).work(work)), value.count, item.count),
      );
    if (problems.length > 0) return refusedFor(problems, job);
    const why = coverage(input, job.agreed()?.input).workNot(work);
    if (
      why &&
      value.count >= (job.done[value.item] ?? 0) &&
      !job.entries.some((entry) => entry.item === value.item && entry.overrideId)
    ) {
      const { is, detail } = unagreedWork(job, why);
      return refused(is, { detail });
    }
    const record: TickOff = { ...value, person: who.by, id: desk.newId(), jobId: job.id, at: desk.at };
    const event = { person: who.by, record: await tellingOf("tick_offs", record) };
    return {
      answer: record,
      writes: [desk.db.insert(tickOffsTable).values(record), ...(await draftFinding(desk, job, job.ticked(record).found()))],
      trail: { job: job.id, head: job.head, events: [{ is: "ticked off", content: event }] },
    };
  },
});
