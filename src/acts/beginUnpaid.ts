/** Work waits for the deposit the owner promised, unless somebody decides that it may begin, by name and with a reason. Nothing else is refused for it. */
import { z } from "zod";
import { tellingOf } from "../records/keptOnce.js";
import { type Override, overridesTable } from "../records/overrides.js";
import { money } from "../wording/figures.js";
import { act, refused } from "./act.js";
import { hand, line } from "./field.js";
import { handOf } from "./hand.js";
import type { JobAsItStands } from "./job.js";
import type { OnJob } from "./logWork.js";
import { NO_JOB } from "./mayLog.js";
import { owed } from "./owed.js";
import { keptOnce } from "./shapes/primitives.js";

const WHO = "Who decides";
const REFUSAL = "deposit awaited";
const reason = line("Why");

export const beginUnpaid = act({
  name: "beginUnpaid",
  title: "Let work begin before the deposit is paid",
  fields: z.strictObject({ by: hand(WHO), reason }).meta({ id: "BeginningUnpaid" }),
  answer: z
    .strictObject({ ...keptOnce, of: z.literal("work"), by: z.string(), reason, refusal: z.string() })
    .meta({ id: "BegunUnpaid" }),
  decide: async (desk, { by: named, reason: why }, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job) return NO_JOB;
    const { deposit } = owed(job);
    const before = begunUnpaid(job);
    if (deposit === 0 || before)
      return refused("nothing awaited", {
        detail: before ? `${before.by} let it begin already: ${before.reason}` : "No deposit is awaited on this job.",
      });
    const who = handOf(desk, named, WHO);
    if ("refused" in who) return who;
    const record = {
      id: desk.newId(),
      jobId: job.id,
      at: desk.at,
      of: "work",
      by: who.by,
      reason: why,
      refusal: REFUSAL,
    } as const;
    const content = { by: who.by, deposit: money(deposit, job.tongue), record: await tellingOf("overrides", record) };
    return {
      answer: record,
      writes: [desk.db.insert(overridesTable).values(record)],
      trail: { job: job.id, head: job.head, events: [{ is: "begun unpaid", content }] },
    };
  },
});

/** Who let it begin. */
export const begunUnpaid = ({ overrides }: Pick<JobAsItStands, "overrides">): Override | undefined =>
  overrides.find(({ refusal }) => refusal === REFUSAL);
