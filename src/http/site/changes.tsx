/** Two revisions of a job beside each other; the last two unless others are asked for. */
import { Hono } from "hono";
import { changeList } from "../../estimating/agreement/changeList.js";
import { ChangesPage } from "../../pages/revise/changesPage.js";
import { estimates } from "../../records/estimates.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { jobSubject, NO_JOB } from "./jobSubject.js";

export const changes = new Hono<AppEnv>();

changes.get("/jobs/:id/changes", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { head, settings, tongue, revisions } = subject;
  const wanted = (name: string) => revisions.find(({ revision }) => String(revision) === c.req.query(name));
  const to = wanted("to") ?? revisions.at(-1);
  const from = wanted("from") ?? revisions.findLast(({ revision }) => revision < (to?.revision ?? 0));
  const list = from && to && changeList(await estimates.inputOf(c.var.db, from), await estimates.inputOf(c.var.db, to));
  return pageAnswer(
    c,
    <ChangesPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      revisions={revisions.map(({ revision, issuedAt }) => ({ revision, issued: issuedAt !== undefined }))}
      from={from?.revision ?? 0}
      to={to?.revision ?? 0}
      {...(list && { changes: list })}
    />,
  );
});
