/** The API's reference and the kinds of problems, as pages. Programs get the same as JSON. */
import { Hono } from "hono";
import type { Child } from "hono/jsx";
import { ApiPage, ApiReference } from "../../pages/reference/apiPage.js";
import type { ApiDocument } from "../../pages/reference/document.js";
import { ProblemPage, ProblemsPage } from "../../pages/reference/problemsPage.js";
import { shopSettings } from "../../records/settings.js";
import { openApiDocument } from "../api/index.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { listed, wholeListed, withinListed } from "../problems/listed.js";
import { refuse, wantsPage } from "../problems/refuse.js";

export const reference = new Hono<AppEnv>();

let made: Child;
/** Made once, as the document is. */
const apiReference = (): Child => {
  made ??= <ApiReference document={JSON.parse(openApiDocument()) as ApiDocument} />;
  return made;
};

reference.get("/api", async (c) => {
  const { name } = await shopSettings(c.var.db);
  return pageAnswer(c, <ApiPage frame={frameFor(c, name)} reference={apiReference()} />);
});

reference.get("/problems", async (c) => {
  c.header("vary", "accept");
  if (!wantsPage(c)) return c.json({ problems: listed });
  const { name } = await shopSettings(c.var.db);
  return pageAnswer(c, <ProblemsPage frame={frameFor(c, name)} whole={wholeListed} within={withinListed} />);
});

reference.get("/problems/:name", async (c) => {
  const found = listed.find(({ type }) => type === c.req.path);
  if (!found) return refuse(c, "not found");
  c.header("vary", "accept");
  if (!wantsPage(c)) return c.json(found);
  const { name } = await shopSettings(c.var.db);
  return pageAnswer(c, <ProblemPage frame={frameFor(c, name)} problem={found} />);
});
