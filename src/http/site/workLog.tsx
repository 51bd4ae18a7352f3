/** A job's work log: what is agreed, what is used of it, and one more entry. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { wordingFor } from "../../estimating/closeout/log/where.js";
import { isDay } from "../../estimating/day.js";
import { line, number, reading } from "../../pages/form/reading.js";
import { capital, errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { type LogRow, WorkLogPage } from "../../pages/revise/workLogPage.js";
import { asLogged, partOf, workOf } from "../../records/asWork.js";
import { type Logging, logWork } from "../../records/logWork.js";
import { overridesOf } from "../../records/overrides.js";
import { type Standing, standingOf } from "../../records/standing.js";
import { entriesOf } from "../../records/workLog.js";
import { unagreedText, workTitle } from "../../wording/index.js";
import type { AppEnv } from "../bindings.js";
import { limitRefused } from "../limits.js";
import { refuse } from "../problems/refuse.js";
import { today } from "../today.js";
import { fieldErrors } from "./fieldErrors.js";
import { frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";
import { agreedProps } from "./standing.js";

export const workLog = new Hono<AppEnv>();

workLog.get("/jobs/:id/work-log", async (c) => {
  const found = await openLog(c, c.req.param("id"));
  if (!found) return refuse(c, "not found", NO_JOB);
  const entries = await entriesOf(c.var.db, found.subject.job.id);
  const fields = new Map([
    ["token", uuidv7()],
    ["person", found.subject.hand ?? entries.at(-1)?.person ?? lastHand(found.subject)],
    ["workedOn", today(c.var.clock(), found.subject.settings.timeZone)],
  ]);
  return show(c, found, fields, { say: c.req.query("logged") === undefined ? undefined : "Logged." });
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
  const workedOn = fields.get("workedOn")?.trim() ?? "";
  const note = line(at, "note", fields.get("note"));
  const by = line(at, "override.by", fields.get("override.by"), 200);
  const reason = line(at, "override.reason", fields.get("override.reason"));
  const errors = errorsIn(at);
  const wrong = (field: string, is: boolean, text: string) => {
    if (is && !errors.has(field)) errors.set(field, text);
  };
  wrong("minutes", minutes === undefined, "Minutes: give the time.");
  wrong("minutes", minutes !== undefined && (minutes < 0 || minutes > 100_000), "Minutes: give a number from 0 up.");
  wrong("person", !person, "Who did it: type the name.");
  wrong("workedOn", !isDay(workedOn), "Day: write it as year, month, day, such as 2026-11-25.");
  const overriding = intent === "override";
  wrong("override.by", overriding && !by, "Who decides: an override needs a name.");
  wrong("override.reason", overriding && !reason, "Why: an override needs a reason.");
  const refusal = overriding ? fields.get("refusal") : undefined;
  if (errors.size > 0 || !person) return show(c, found, fields, { errors, ...(refusal && { refusal }) });

  const item = fields.get("item");
  const labourClass = fields.get("labourClass");
  const logging: Logging = {
    id: tokenOf(fields),
    overrideId: uuidv7(),
    entry: {
      person,
      workedOn,
      ...(item && { item }),
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
        errors: fieldErrors(outcome, { minutes: "minutes", person: "person", item: "item", labourClass: "labourClass" }),
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

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const tokenOf = (fields: ReadonlyMap<string, string>): string =>
  UUID.test(fields.get("token") ?? "") ? fields.get("token")! : uuidv7();

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
  const { job, head, settings, tongue } = subject;
  const { input, agreed, unagreed } = standing;
  const why = new Map(unagreed.map((one) => [one.id, unagreedText(one.why)]));
  const items = input.items.filter(({ count }) => count > 0);
  return pageAnswer(
    c,
    <WorkLogPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      entries={await rows(c, job.id, standing)}
      items={items.map((item) => ({
        id: item.id,
        title: workTitle(item, input),
        ...(why.has(item.id) && { unagreed: why.get(item.id)! }),
      }))}
      labourClasses={input.rateBook.labourClasses}
      fields={fields}
      errors={errors}
      say={say}
      {...(agreed && { agreed: agreedProps(agreed) })}
      {...(refusal && { refusal })}
    />,
    status,
  );
}

async function rows(c: Context<AppEnv>, jobId: string, { input }: OpenLog["standing"]): Promise<readonly LogRow[]> {
  const [entries, overrides] = await Promise.all([entriesOf(c.var.db, jobId), overridesOf(c.var.db, jobId)]);
  const { work, part } = wordingFor(input);
  return entries.map((entry) => {
    const { item, overrideId, person, workedOn, note } = entry;
    const found = input.items.find(({ id }) => id === item);
    const override = overrides.find(({ id }) => id === overrideId);
    const used = partOf(entry);
    const { minutes, parts } = asLogged(entry, input);
    return {
      person,
      workedOn,
      what: found ? workTitle(found, input) : item === undefined ? capital(work(workOf(entry))) : item,
      ...(used && { part: `${used.count} × ${part(used.part)}` }),
      ...(minutes !== undefined && { minutes }),
      ...(parts !== undefined && { parts }),
      ...(note && { note }),
      ...(override && { override: `${override.by}: ${override.reason}` }),
    };
  });
}
