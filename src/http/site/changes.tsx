/** Two revisions of a job beside each other; the last two unless others are asked for. */
import { Hono } from "hono";
import { compared } from "../../acts/compared.js";
import { ChangesPage } from "../../pages/revise/changesPage.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { jobSubject, NO_JOB } from "./jobSubject.js";

export const changes = new Hono<AppEnv>();

changes.get("/jobs/:id/changes", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { stands, head, settings, tongue, revisions } = subject;
  const numbered = (name: "from" | "to") => ({ [name]: Number(c.req.query(name)) || 0 });
  const { from, to, changes: list } = compared(stands, { ...numbered("from"), ...numbered("to") });
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
