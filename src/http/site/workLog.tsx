/** A job's work log: what is agreed, what is used of it, and one more entry. */
import { type Context, Hono } from "hono";
import { logWork } from "../../acts/logWork.js";
import { declinedIn, promisedIn } from "../../acts/reckoning.js";
import { today } from "../../acts/today.js";
import { correctEntry } from "../../acts/withdrawEntry.js";
import { lookingLimit } from "../../estimating/agreement/workLog.js";
import type { EstimateInput } from "../../estimating/input.js";
import { WorkLogPage } from "../../pages/revise/workLogPage.js";
import type { EntryKept } from "../../records/workLog.js";
import { unagreedText } from "../../wording/agreement.js";
import { workTitle } from "../../wording/line.js";
import { offered } from "../../wording/rateBookParts.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { type Again, fresh, NOT_A_FORM, pageDoor, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { asTaken, fieldsAnew, logSaid, partsToName, workNamed } from "./logAnew.js";
import { logRow, workedOnTitle } from "./logRows.js";
import { agreedProps } from "./standing.js";

export const workLog = new Hono<AppEnv>();

const SAID = [
  ["logged", "Logged."],
  ["withdrawn", "The entry is withdrawn. It stays on record and no longer counts."],
] as const;

workLog.get("/jobs/:id/work-log", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const input = subject?.stands.input();
  if (!subject || !input) return refuse(c, "not found", NO_JOB);
  const { stands, settings } = subject;
  const form = fresh(logWork, {
    person: subject.hand ?? stands.everyEntry.at(-1)?.person ?? lastHand(subject),
    workedOn: today(c.var.clock(), settings.timeZone),
  });
  return show(c, subject, input, { ...form, say: SAID.find(([done]) => c.req.query(done) !== undefined)?.[1] });
});

workLog.post("/jobs/:id/work-log", async (c) => {
  const desk = deskOf(c);
  const typed = await sentForm(c);
  if (!typed) return refuse(c, "media type unsupported", NOT_A_FORM);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  const input = subject?.stands.input();
  if (!subject || !input) return refuse(c, "not found", NO_JOB);
  const door = {
    tongue: subject.tongue,
    desk,
    said: logSaid(typed, input),
    done: () => `/jobs/${subject.job.id}/work-log?logged`,
    show: (again: Again) => show(c, subject, input, again),
  } as const;
  const [job, entry] = [subject.job.id, typed.get("corrects")];
  return entry ? pageDoor(c, correctEntry, { ...door, on: { job, entry } }) : pageDoor(c, logWork, { ...door, on: { job } });
});

/** The form filled with a wrong entry, which is withdrawn when it is sent. */
export async function showAnew(
  c: Context<AppEnv>,
  subject: JobSubject,
  wrong: EntryKept,
  { by = "", reason }: { readonly by?: string | undefined; readonly reason: string },
) {
  const { stands, tongue } = subject;
  const input = stands.input()!;
  const filled = fieldsAnew(await asTaken(c.var.db, stands, wrong), input, tongue);
  const withdrawal = { corrects: wrong.id, "withdrawal.by": by, "withdrawal.reason": reason };
  const say = "Correct it below and log it: the wrong entry is then withdrawn.";
  return show(c, subject, input, { ...fresh(logWork, { ...Object.fromEntries(filled), ...withdrawal }), say });
}

type Shown = Pick<Again, "fields" | "errors" | "says"> & Partial<Again> & { readonly say?: string | undefined };

async function show(
  c: Context<AppEnv>,
  { stands, head, settings, tongue, when }: JobSubject,
  input: EstimateInput,
  { typed, fields, errors, says, refusal, status, say }: Shown,
) {
  const { closedOn } = stands;
  const agreed = agreedProps(stands);
  const worked = workNamed(fields.get("item") ?? "", input);
  const declined = declinedIn(stands);
  const why = new Map(stands.unagreed().map((one) => [one.id, unagreedText(one.why)]));
  const items = input.items.filter(({ count }) => count > 0);
  // An override that lacks something is still asked for.
  const kept = fields.get("intent") === "override" ? fields.get("refusal") : undefined;
  const refused = refusal?.overridable ? errors.get("") : kept;
  return pageAnswer(
    c,
    <WorkLogPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      entries={stands.everyEntry.map((entry) => logRow(entry, input, stands.overrides, when))}
      items={items.map((item) => ({
        id: item.id,
        title: workTitle(item, input),
        ...(why.has(item.id) && { unagreed: why.get(item.id)! }),
      }))}
      labourClasses={offered(input.rateBook.labourClasses, ({ id }) => id === fields.get("labourClass"))}
      says={says}
      fields={fields}
      errors={refusal?.overridable ? new Map() : errors}
      say={say}
      parts={await partsToName(c.var.db, input, fields.get("part"))}
      dangers={typed?.all("ownHazards") ?? (fields.get("ownHazards") ?? "").split("\n")}
      changed={stands.changedAfterClosing}
      timers={stands.timers.map((timer) => ({
        person: timer.person,
        what: workedOnTitle(timer, input),
        since: when(timer.startedAt),
      }))}
      {...(closedOn !== undefined && { closedOn })}
      {...("item" in worked || !fields.get("item")
        ? {}
        : { otherWork: [fields.get("item")!, workedOnTitle(worked, input)] as const })}
      declined={declined !== undefined}
      looking={declined ? promisedIn(stands, declined.issue) : lookingLimit(input)}
      {...(agreed && { agreed })}
      {...(refused && { refusal: refused })}
    />,
    status,
  );
}
