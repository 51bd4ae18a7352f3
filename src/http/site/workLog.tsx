/** A job's work log: what is agreed, what is used of it, and one more entry. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { today } from "../../acts/today.js";
import { isDay } from "../../estimating/day.js";
import { line, number, reading } from "../../pages/form/reading.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { WorkLogPage } from "../../pages/revise/workLogPage.js";
import { changedAfterClosing, closedOn } from "../../records/closed.js";
import { type Logging, logWork } from "../../records/logWork.js";
import { overridesOf } from "../../records/overrides.js";
import { type Standing, standingOf } from "../../records/standing.js";
import { everyEntryOf } from "../../records/workLog.js";
import { unagreedText } from "../../wording/agreement.js";
import { workTitle } from "../../wording/line.js";
import type { AppEnv } from "../bindings.js";
import { limitRefused } from "../limits.js";
import { refuse } from "../problems/refuse.js";
import { fieldErrors } from "./fieldErrors.js";
import { frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { asTaken, fieldsAnew, partAnew, partsToName, workNamed } from "./logAnew.js";
import { logRow, workedOnTitle } from "./logRows.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";
import { agreedProps } from "./standing.js";
import { tokenOf } from "./token.js";

export const workLog = new Hono<AppEnv>();

const SAID = [
  ["logged", "Logged."],
  ["withdrawn", "The entry is withdrawn. It stays on record, and counts nowhere."],
] as const;

workLog.get("/jobs/:id/work-log", async (c) => {
  const found = await openLog(c, c.req.param("id"));
  if (!found) return refuse(c, "not found", NO_JOB);
  const entries = await everyEntryOf(c.var.db, found.subject.job.id);
  const wrong = entries.find(({ id, withdrawal }) => withdrawal && id === c.req.query("anew"));
  if (wrong) {
    const filled = fieldsAnew(await asTaken(c.var.db, wrong), found.standing.input, found.subject.tongue).set("token", uuidv7());
    return show(c, found, filled, { say: "The entry is withdrawn. Put it right below, and log it anew." });
  }
  const fields = new Map([
    ["token", uuidv7()],
    ["person", found.subject.hand ?? entries.at(-1)?.person ?? lastHand(found.subject)],
    ["workedOn", today(c.var.clock(), found.subject.settings.timeZone)],
  ]);
  return show(c, found, fields, { say: SAID.find(([done]) => c.req.query(done) !== undefined)?.[1] });
});

workLog.post("/jobs/:id/work-log", async (c) => {
  const found = await openLog(c, c.req.param("id"));
  if (!found) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields, intent } = sent;
  const { subject, standing } = found;
  const { id: jobId } = subject.job;
  const done = () => c.redirect(`/jobs/${jobId}/work-log?logged`, 303);

  const at = reading(plainContext(standing.input.asOf, subject.tongue, standing.input.rateBook));
  const minutes = number(at, "minutes", fields.get("minutes"), 3);
  const person = line(at, "person", fields.get("person"), 200);
  const part = partAnew(at, fields);
  const workedOn = fields.get("workedOn")?.trim() ?? "";
  const note = line(at, "note", fields.get("note"));
  const by = line(at, "override.by", fields.get("override.by"), 200);
  const reason = line(at, "override.reason", fields.get("override.reason"));
  const errors = errorsIn(at);
  const wrong = (field: string, is: boolean, text: string) => {
    if (is && !errors.has(field)) errors.set(field, text);
  };
  wrong("minutes", minutes === undefined && !part, "Minutes: give the time.");
  wrong("minutes", minutes !== undefined && (minutes < 0 || minutes > 100_000), "Minutes: give a number from 0 up.");
  wrong("person", !person, "Who did it: type the name.");
  wrong("workedOn", !isDay(workedOn), "Day: write it as year, month, day, such as 2026-11-25.");
  const overriding = intent === "override";
  wrong("override.by", overriding && !by, "Who decides: an override needs a name.");
  wrong("override.reason", overriding && !reason, "Why: an override needs a reason.");
  const refusal = overriding ? fields.get("refusal") : undefined;
  if (errors.size > 0 || !person) return show(c, found, fields, { errors, ...(refusal && { refusal }) });

  const labourClass = fields.get("labourClass");
  const logging: Logging = {
    id: tokenOf(fields),
    overrideId: uuidv7(),
    entry: {
      person,
      workedOn,
      ...workNamed(fields.get("item") ?? "", standing.input),
      ...part,
      ...(labourClass && { labourClass }),
      ...(minutes !== undefined && { minutes }),
      ...(note && { note }),
    },
    ...(overriding && by && reason && { override: { by, reason } }),
  };
  const outcome = await logWork(c.var.db, jobId, logging, c.var.clock().toISOString());
  switch (outcome.is) {
    case "logged":
      return done();
    case "missing":
      return refuse(c, "not found", NO_JOB);
    case "refused":
      return show(c, found, fields, {
        errors: fieldErrors(outcome, FIELDS),
      });
    default: {
      const [, { detail }] = limitRefused(outcome, subject.tongue);
      return show(c, found, fields, { refusal: detail, status: 409 });
    }
  }
});

interface OpenLog {
  readonly subject: JobSubject;
  readonly standing: Standing & { readonly input: NonNullable<Standing["input"]> };
}

async function openLog(c: Context<AppEnv>, id: string): Promise<OpenLog | undefined> {
  const subject = await jobSubject(c, id);
  const standing = subject && (await standingOf(c.var.db, id));
  return subject && standing?.input ? { subject, standing: { ...standing, input: standing.input } } : undefined;
}

const FIELDS = {
  ...{ minutes: "minutes", person: "person", labourClass: "labourClass" },
  ...{ item: "item", assembly: "item", offer: "item" },
  ...{ partKind: "part", partType: "part", partCount: "pieces", paidPrice: "paid", insteadOf: "instead" },
};

interface Shown {
  readonly errors?: ReadonlyMap<string, string>;
  readonly refusal?: string;
  readonly say?: string | undefined;
  readonly status?: 200 | 409 | 422;
}

async function show(
  c: Context<AppEnv>,
  { subject, standing }: OpenLog,
  fields: ReadonlyMap<string, string>,
  { errors = new Map(), refusal, say, status = errors.size > 0 ? 422 : 200 }: Shown,
) {
  const { job, head, settings, tongue, when } = subject;
  const { input, agreed, unagreed } = standing;
  const { db } = c.var;
  const [entries, overrides, changed, closed] = await Promise.all([
    everyEntryOf(db, job.id),
    overridesOf(db, job.id),
    changedAfterClosing(db, job.id),
    closedOn(db, job.id),
  ]);
  const worked = workNamed(fields.get("item") ?? "", input);
  const why = new Map(unagreed.map((one) => [one.id, unagreedText(one.why)]));
  const items = input.items.filter(({ count }) => count > 0);
  return pageAnswer(
    c,
    <WorkLogPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      entries={entries.map((entry) => logRow(entry, input, overrides, when))}
      items={items.map((item) => ({
        id: item.id,
        title: workTitle(item, input),
        ...(why.has(item.id) && { unagreed: why.get(item.id)! }),
      }))}
      labourClasses={input.rateBook.labourClasses}
      fields={fields}
      errors={errors}
      say={say}
      parts={await partsToName(db, input, fields.get("part"))}
      changed={changed}
      {...(closed !== undefined && { closedOn: closed })}
      {...("item" in worked || !fields.get("item")
        ? {}
        : { otherWork: [fields.get("item")!, workedOnTitle(worked, input)] as const })}
      {...(agreed && { agreed: agreedProps(agreed) })}
      {...(refusal && { refusal })}
    />,
    status,
  );
}
