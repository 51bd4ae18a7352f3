import { Hono } from "hono";
import { type Mismatch, mismatchText } from "../../acts/checked/mismatch.js";
import { copiesOtherwise } from "../../acts/checked/rowCopies.js";
import { type Checked, verifyJob } from "../../acts/checked/verifyJob.js";
import { same } from "../../estimating/agreement/canonical.js";
import { verifyChain } from "../../estimating/agreement/chain.js";
import { answerText, eventText, TrailPage } from "../../pages/revise/trailPage.js";
import type { Agreement } from "../../records/agreements.js";
import type { Database } from "../../records/database.js";
import { issues } from "../../records/issues.js";
import { sha256 } from "../../records/sha256.js";
import { eventsOf, shortHead } from "../../records/trail.js";
import { chainFaultText, givenText } from "../../wording/agreement.js";
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { type JobSubject, jobSubject, NO_JOB } from "./jobSubject.js";

export const trail = new Hono<AppEnv>();

/** The chain is reckoned again each time it is shown, against the heads that went out on paper; all that it tells of, where that is asked. */
trail.get("/jobs/:id/trail", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { job, head, settings, when } = subject;
  const [events, issued] = await Promise.all([eventsOf(c.var.db, job.id), issues.ofJob(c.var.db, job.id)]);
  const heads = issued.map(({ headNumber, headHash }) => ({ number: headNumber, hash: headHash }));
  const verdict = await verifyChain(events, sha256, heads);
  const checked = c.req.query("check") === undefined ? undefined : await verifyJob(c.var.db, job.id, []);
  const otherwise = checked && (checked.mismatch ?? (await besides(c.var.db, subject)));
  const fault = otherwise ? mismatchText(otherwise) : verdict.ok || checked ? undefined : chainFaultText(verdict.fault);
  return pageAnswer(
    c,
    <TrailPage
      frame={frameFor(c, settings.name)}
      job={head}
      rows={events.map(({ number, at, is, content, hash }) => ({
        ...{ number, at: when(at), hash },
        text: eventText(
          is,
          is === "answer corrected" ? { ...(content as object), corrected: correctedText(subject, content) } : content,
        ),
      }))}
      head={shortHead(events.at(-1) ?? { number: 0, hash: "" })}
      {...(fault === undefined ? {} : { fault })}
      {...(checked && fault === undefined && { sound: soundText(checked, when(c.var.clock().toISOString())) })}
    />,
  );
});

/** Rows that belong to the job and are told of by no event. */
async function besides(db: Database, { job, revisions }: JobSubject): Promise<Mismatch | undefined> {
  const own = { jobs: [job.id], units: [job.unitId], owners: [job.ownerId], estimates: revisions.map(({ id }) => id) };
  return (await copiesOtherwise(db, own))[0];
}

const soundText = ({ events, rows, revisions, erased }: Checked, at: string): string =>
  `Checked ${at}: ${counted(events, "event")}, ${counted(rows, "entry", "entries")} and ${counted(revisions, "revision")} with their papers are as they were written, as are owner, unit and job, and every price was worked out again to the same amount.${erased ? " What told of the owner was erased, as the record says." : ""}`;

/** What was corrected, from the records that the event and the correction name; undefined where they were erased. */
function correctedText({ stands: { answers }, tongue }: JobSubject, content: unknown): string | undefined {
  const { record: told } = content as { readonly record?: { readonly id?: string } };
  const record = answers.find(({ id }) => id === told?.id);
  const before = answers.find(({ id }) => id === record?.corrects);
  if (!record || !before) return undefined;
  const said = ({ answer, amount, by, spoken, ...record }: Agreement) =>
    `${answerText(answer)}${amount === undefined ? "" : ` for ${money(amount, tongue)}`} by ${by}${spoken ? `, said ${givenText({ ...record, spoken }, tongue.locale)}` : ""}`;
  const otherWork =
    before.answer !== "declined" &&
    record.answer !== "declined" &&
    !same([before.chosen, before.struck], [record.chosen, record.struck]);
  const work = otherWork ? ", with other work ticked" : "";
  const who = record.recordedBy ? `, put on record by ${record.recordedBy}` : "";
  return `${said(before)} became ${said(record)}${work}${who}${record.reason ? `, because: ${record.reason.replace(/[.]+$/, "")}` : ""}`;
}
