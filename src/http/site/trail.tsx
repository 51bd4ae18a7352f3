import { Hono } from "hono";
import { verifyChain } from "../../estimating/agreement/chain.js";
import { eventText, TrailPage } from "../../pages/revise/trailPage.js";
import { issues } from "../../records/issues.js";
import { sha256 } from "../../records/sha256.js";
import { eventsOf, shortHead } from "../../records/trail.js";
import { chainFaultText } from "../../wording/agreement.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { jobSubject, NO_JOB } from "./jobSubject.js";

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
      rows={events.map(({ number, at, is, content, hash }) => ({ number, at: when(at), text: eventText(is, content), hash }))}
      head={shortHead(events.at(-1) ?? { number: 0, hash: "" })}
      {...(verdict.ok ? {} : { fault: chainFaultText(verdict.fault) })}
    />,
  );
});
