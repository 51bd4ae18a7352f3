import { Hono } from "hono";
import { same } from "../../estimating/agreement/canonical.js";
import { verifyChain } from "../../estimating/agreement/chain.js";
import { answerText, eventText, TrailPage } from "../../pages/revise/trailPage.js";
import type { Agreement } from "../../records/agreements.js";
import { issues } from "../../records/issues.js";
import { sha256 } from "../../records/sha256.js";
import { eventsOf, shortHead } from "../../records/trail.js";
import { chainFaultText } from "../../wording/agreement.js";
import { money } from "../../wording/figures.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { type JobSubject, jobSubject, NO_JOB } from "./jobSubject.js";

export const trail = new Hono<AppEnv>();

/** The chain is reckoned again each time it is shown, against the heads that went out on paper. */
trail.get("/jobs/:id/trail", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { job, head, settings, when } = subject;
  const [events, issued] = await Promise.all([eventsOf(c.var.db, job.id), issues.ofJob(c.var.db, job.id)]);
  const heads = issued.map(({ headNumber, headHash }) => ({ number: headNumber, hash: headHash }));
  const verdict = await verifyChain(events, sha256, heads);
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
      {...(verdict.ok ? {} : { fault: chainFaultText(verdict.fault) })}
    />,
  );
});

/** What was corrected, from the records that the event and the correction name; undefined where they were erased. */
function correctedText({ stands: { answers }, tongue }: JobSubject, content: unknown): string | undefined {
  const { record: told } = content as { readonly record?: { readonly id?: string } };
  const record = answers.find(({ id }) => id === told?.id);
  const before = answers.find(({ id }) => id === record?.corrects);
  if (!record || !before) return undefined;
  const said = ({ answer, amount, by }: Agreement) =>
    `${answerText(answer)}${amount === undefined ? "" : ` for ${money(amount, tongue)}`} by ${by}`;
  const otherWork =
    before.answer !== "declined" &&
    record.answer !== "declined" &&
    !same([before.chosen, before.struck], [record.chosen, record.struck]);
  const work = otherWork ? ", with other work ticked" : "";
  const who = record.recordedBy ? `, put on record by ${record.recordedBy}` : "";
  return `${said(before)} became ${said(record)}${work}${who}${record.reason ? `, because: ${record.reason.replace(/[.]+$/, "")}` : ""}`;
}
