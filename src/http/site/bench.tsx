/** The bench page of a job: what is read there, and each entry made there. Its script sends the same forms and asks for JSON. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import type { Desk } from "../../acts/act.js";
import { beginUnpaid } from "../../acts/beginUnpaid.js";
import { logWork } from "../../acts/logWork.js";
import { takeReading } from "../../acts/takeReading.js";
import { tickOff } from "../../acts/tickOff.js";
import { stopTimer, switchTimer } from "../../acts/timer.js";
import { withdrawEntry } from "../../acts/withdrawEntry.js";
import { isBenchAct } from "../../pages/bench/benchForm.js";
import { BenchPage } from "../../pages/bench/benchPage.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { type Again, NOT_A_FORM, pageDoor, sentForm } from "../doors/page.js";
import { pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { benchSaid } from "./benchSaid.js";
import { benchView, type OpenBench, openBench } from "./benchView.js";
import { jobSubject, NO_JOB } from "./jobSubject.js";

export const bench = new Hono<AppEnv>();

const SAID: Readonly<Record<string, string>> = {
  start: "The timer runs.",
  stop: "Paused; the time is logged.",
  minutes: "Logged.",
  tick: "Ticked off.",
  own: "Logged, by the override on record.",
  part: "The part is logged.",
  undo: "Undone: the entry is withdrawn and no longer counts.",
  reading: "The reading is on record.",
  begin: "Work may begin; who decided it is on record.",
};

const NO_BENCH_FORM = {
  ...{ pointer: "/act", name: "choice unknown", detail: "This form is not one of the bench; open the page again." },
};

bench.get("/jobs/:id/bench", async (c) => {
  const desk = deskOf(c);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  const open = subject && openBench(subject, c.req.query("by"));
  if (!open) return refuse(c, "not found", NO_JOB);
  // Another part is wanted in the place of this work's own.
  const instead = c.req.query("instead");
  const fields = new Map(instead === undefined ? [] : Object.entries({ for: instead, insteadOf: "yes" }));
  return show(c, desk, open, { fields, say: SAID[c.req.query("done") ?? ""] });
});

bench.post("/jobs/:id/bench", async (c) => {
  const typed = await sentForm(c);
  if (!typed) return refuse(c, "media type unsupported", NOT_A_FORM);
  const desk = deskOf(c);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  const open = subject && openBench(subject, typed.get("person"));
  const act = typed.get("act") ?? "";
  if (!open) return refuse(c, "not found", NO_JOB);
  if (!isBenchAct(act)) return refuse(c, "input refused", { errors: [NO_BENCH_FORM] });
  const { anchor, ...said } = await benchSaid(act, typed, open, desk);
  const to = new URLSearchParams({ by: typed.get("person") ?? "", done: act });
  const door = {
    on: { job: subject.job.id },
    tongue: subject.tongue,
    desk,
    said,
    anew: true,
    done: () => `/jobs/${subject.job.id}/bench?${to}#${anchor}`,
    told: () => ({ done: act }),
    show: (again: Again) => show(c, desk, open, again),
  } as const;
  switch (act) {
    case "start":
      return pageDoor(c, switchTimer, door);
    case "stop":
      return pageDoor(c, stopTimer, door);
    case "begin":
      return pageDoor(c, beginUnpaid, door);
    case "tick":
      return pageDoor(c, tickOff, door);
    case "reading":
      return pageDoor(c, takeReading, door);
    case "undo":
      return pageDoor(c, withdrawEntry, { ...door, on: { job: subject.job.id, entry: typed.get("entry") ?? "" } });
    default:
      return pageDoor(c, logWork, door);
  }
});

async function show(
  c: Context<AppEnv>,
  desk: Desk,
  open: OpenBench,
  { typed, fields = new Map(), errors = new Map(), refusal, status, say }: Partial<Again> & { readonly say?: string | undefined },
) {
  const view = await benchView(c, desk, open);
  // Time that is let through later ended when it was first told.
  const typedAgain = typed ? typed.names.flatMap((name) => typed.all(name).map((value) => [name, value] as const)) : [];
  const sent = [["moment", desk.at] as const, ...typedAgain];
  const insteadFor = fields.get("insteadOf") ? open.needs.find(({ item }) => item === fields.get("for")) : undefined;
  return pageAnswer(
    c,
    <BenchPage
      {...view}
      fields={fields}
      errors={refusal ? new Map() : errors}
      say={say}
      dangers={typed?.all("ownHazards") ?? []}
      {...(insteadFor && { insteadFor })}
      token={uuidv7}
      {...(refusal && { refusal: { text: errors.get("") ?? "", overridable: refusal.overridable === true, sent } })}
    />,
    status,
  );
}
