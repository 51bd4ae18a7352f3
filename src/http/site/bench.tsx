/** The bench page of a job: what is read there, and each entry made there. Its script sends the same forms and asks for JSON. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { BenchPage } from "../../pages/bench/benchPage.js";
import type { Refusal } from "../../pages/bench/view.js";
import { once } from "../api/once.js";
import type { AppEnv } from "../bindings.js";
import { entryRefused } from "../limits.js";
import { refuse, wantsPage } from "../problems/refuse.js";
import { makeEntry } from "./benchEntry.js";
import { benchView, type OpenBench, openBench } from "./benchView.js";
import { pageAnswer } from "./frame.js";
import { NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";

export const bench = new Hono<AppEnv>();

const SAID: Readonly<Record<string, string>> = {
  start: "The timer runs.",
  stop: "Paused; the time is logged.",
  minutes: "Logged.",
  tick: "Ticked off.",
  part: "The part is logged.",
  reading: "The reading is on record.",
};

bench.get("/jobs/:id/bench", async (c) => {
  const found = await openBench(c, c.req.param("id"), c.req.query("by"));
  if (!found) return refuse(c, "not found", NO_JOB);
  return show(c, found, { say: SAID[c.req.query("done") ?? ""] });
});

bench.post("/jobs/:id/bench", once, async (c) => {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields } = sent;
  const found = await openBench(c, c.req.param("id"), fields.get("person"));
  if (!found) return refuse(c, "not found", NO_JOB);
  const made = await makeEntry(c, found, fields, sent.intent === "override");
  const page = wantsPage(c);
  switch (made.is) {
    case "kept": {
      if (!page) return c.json({ done: made.act });
      const to = new URLSearchParams({ by: fields.get("person") ?? "", done: made.act });
      return c.redirect(`/jobs/${found.subject.job.id}/bench?${to}${made.at ? `#${made.at}` : ""}`, 303);
    }
    case "wrong": {
      if (!page && made.refused) return refuse(c, ...entryRefused(made.refused));
      const errors = [...made.errors].map(([field, detail]) => ({ pointer: `/${field}`, name: "shape unknown", detail }));
      if (!page) return refuse(c, "input refused", { errors });
      return show(c, await again(c, found), { errors: made.errors, fields });
    }
    case "refused": {
      if (!page) return refuse(c, made.name, { detail: made.text });
      // Time that is let through later ended when it was first told.
      const sent = [["moment", c.var.clock().toISOString()] as const, ...fields];
      const refusal = { text: made.text, overridable: made.overridable, sent };
      return show(c, await again(c, found), { refusal, fields });
    }
  }
});

/** As it stands after the try. */
const again = async (c: Context<AppEnv>, { subject, by }: OpenBench): Promise<OpenBench> =>
  (await openBench(c, subject.job.id, by))!;

interface Shown {
  readonly errors?: ReadonlyMap<string, string>;
  readonly fields?: ReadonlyMap<string, string>;
  readonly refusal?: Refusal;
  readonly say?: string | undefined;
}

async function show(c: Context<AppEnv>, found: OpenBench, { errors = new Map(), fields = new Map(), refusal, say }: Shown) {
  const view = await benchView(c, found);
  return pageAnswer(
    c,
    <BenchPage {...view} fields={fields} errors={errors} say={say} token={uuidv7} {...(refusal && { refusal })} />,
    errors.size > 0 ? 422 : refusal ? 409 : 200,
  );
}
