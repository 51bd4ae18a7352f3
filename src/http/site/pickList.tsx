/** What to fetch for one job. */
import { Hono } from "hono";
import { jobPickList } from "../../acts/partsToGet.js";
import { PickListPage } from "../../pages/parts/pickListPage.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { jobSubject, NO_JOB } from "./jobSubject.js";

export const pickList = new Hono<AppEnv>();

pickList.get("/jobs/:id/parts", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const agreed = await jobPickList(c.var.db, subject.stands);
  const reasons = new Map(agreed?.input.items.flatMap(({ id, reason }) => (reason ? [[id, reason] as const] : [])));
  return pageAnswer(
    c,
    <PickListPage
      frame={frameFor(c, subject.settings.name)}
      job={subject.head}
      tongue={subject.tongue}
      reasons={reasons}
      {...(agreed && { agreed })}
    />,
  );
});
