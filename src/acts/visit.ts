/** Jobs: one visit of one unit each. The number is the next of the year it arrived in, and stays. */
import { z } from "zod";
import { type Job, type JobValue, jobs } from "../records/jobs.js";
import { owners } from "../records/owners.js";
import { units } from "../records/units.js";
import { day, lines, maybe, named, note } from "./field.js";
import { adding, type Recorded, replacing } from "./record.js";
import { keptKeys } from "./shapes/resources.js";

const fields = z.strictObject({
  ownerId: named("Owner"),
  unitId: named("Unit"),
  arrivedOn: day("Arrived on"),
  reported: maybe(note("What was reported")),
  condition: maybe(note("Condition on arrival")),
  accessories: maybe(lines("Accessories brought along", { most: 100 })),
  notes: maybe(note("Notes")),
});

export const visit = {
  one: "job",
  fields,
  kept: fields.extend({ ...keptKeys, number: z.string().meta({ example: "J-2026-0001" }) }).meta({ id: "Job" }),
  rows: jobs,
  links: { ownerId: owners.find, unitId: units.find },
} satisfies Recorded<JobValue, Job>;
export const addJob = adding(visit);
export const replaceJob = replacing(visit);
