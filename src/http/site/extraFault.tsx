/** An extra fault: priced on top of what stands open, and put into the next revision. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { addExtraFault, baseOf, type ExtraFaultPriced, faultsSince, priceExtraFault, seenAs } from "../../acts/extraFault.js";
import { saysOf } from "../../acts/field.js";
import { type JobAsItStands, jobAsItStands } from "../../acts/job.js";
import { namesIn, namesWrong } from "../../acts/line.js";
import { orPlace } from "../../acts/place.js";
import { fieldErrors, readForm, type Typed, typedWith } from "../../acts/readForm.js";
import { ExtraFaultPage } from "../../pages/revise/extraFaultPage.js";
import { earlierWords } from "../../records/earlierJobs.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { type Again, fieldsOf, NOT_A_FORM, pageDoor, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { headOf, NO_JOB } from "./jobSubject.js";
import { openShop } from "./shop.js";

export const extraFault = new Hono<AppEnv>();

extraFault.get("/jobs/:id/extra-fault", async (c) => {
  const job = await deskOf(c).job(c.req.param("id"));
  const say =
    c.req.query("added") === undefined ? {} : { say: "Added to the draft. Say the next fault, or issue what stands there." };
  return job?.latest ? show(c, job, { errors: new Map(), ...say }) : refuse(c, "not found", NO_JOB);
});

extraFault.post("/jobs/:id/extra-fault", async (c) => {
  const desk = deskOf(c);
  const job = await desk.job(c.req.param("id"));
  if (!job?.latest) return refuse(c, "not found", NO_JOB);
  const typed = await sentForm(c);
  if (!typed) return refuse(c, "media type unsupported", NOT_A_FORM);
  const on = { job: job.id };
  const again = (how: Omit<Shown, "typed">) => show(c, job, { typed, ...how });
  const said = { typed: chanceIfFound(typed) };
  const intent = typed.get("intent");
  if (intent === "add" || intent === "another" || intent === "issue")
    return pageDoor(c, addExtraFault, {
      ...{ on, tongue: job.tongue, desk, said },
      done: () => `/jobs/${job.id}${intent === "issue" ? "/issue" : intent === "another" ? "/extra-fault?added" : "?added"}`,
      show: async ({ errors, refusal }) => {
        if (refusal?.is !== "version moved") return again({ errors });
        const now = (await jobAsItStands(c.var.db, job.id)) ?? job;
        const say =
          "Someone else changed the estimate meanwhile. This is what the work costs on top of it as it stands now; nothing is added yet.";
        return show(c, now, { typed, errors: new Map(), say, status: 409, cost: await costNow(c, now, typed) });
      },
    });
  return pageDoor(c, priceExtraFault, {
    ...{ on, tongue: job.tongue, desk, said },
    once: (cost) => again({ errors: new Map(), cost }),
    show: ({ errors, refusal }) => again({ errors, ...(refusal && { status: 409 }) }),
  });
});

/** The box of the chance is hidden, and says nothing, beside work that is not 'if found'. */
const chanceIfFound = (typed: Typed): Typed =>
  typed.get("certainty") === "if found" ? typed : typedWith(typed, { chance: undefined });

/** Undefined where it cannot be priced any more. */
async function costNow(c: Context<AppEnv>, job: JobAsItStands, typed: Typed): Promise<ExtraFaultPriced | undefined> {
  const read = readForm(priceExtraFault.fields, chanceIfFound(typed), job.tongue);
  const outcome = read.ok ? await carryOut(priceExtraFault, deskOf(c), read.value, { job: job.id }) : undefined;
  return outcome?.ok && "answer" in outcome ? outcome.answer : undefined;
}

/** Fields that say how a place is reached. */
const PLACED = /^place(Behind|Fasteners|Size|Mounting)/;

interface Shown extends Pick<Again, "errors"> {
  readonly typed?: Typed;
  readonly cost?: ExtraFaultPriced | undefined;
  readonly say?: string;
  readonly status?: 200 | 409 | 422;
}

async function show(c: Context<AppEnv>, job: JobAsItStands, shown: Shown) {
  const { typed, cost, say } = shown;
  const latest = job.latest!;
  const { rateBook, kinds = [], offers = [], exchange = [] } = job.inputOf(latest);
  const shop = await openShop(c.var.db, c.var.clock(), { rateBook, kinds, offers, exchange });
  const ownWords = await earlierWords(c.var.db);
  const input = baseOf(job, latest, c.var.clock());
  // What cannot be read and what is not known are said together.
  const placed = typed?.names.some((name) => PLACED.test(name) && typed.get(name)) ?? false;
  const named = ["part", "work", "own", "ownPart", ...(placed ? [] : ["where"])].map((name) => [name, typed?.get(name)]);
  const unknown = cost || !typed ? [] : orPlace(namesWrong(namesIn(input, shop.context.kinds), Object.fromEntries(named)));
  const faults = job.draft && faultsSince(job, job.inputOf(job.draft));
  const errors = new Map([...fieldErrors(unknown, addExtraFault.fields), ...shown.errors]);
  const { removal = [], alreadyOpen = [] } = latest.sheet?.access ?? {};
  return pageAnswer(
    c,
    <ExtraFaultPage
      frame={frameFor(c, shop.settings.name)}
      job={headOf(job)}
      tongue={job.tongue}
      context={shop.context}
      base={{
        seen: seenAs(latest),
        revision: latest.revision,
        draft: latest.issuedAt === undefined,
        input,
        opens: [...removal.map(({ id }) => id), ...alreadyOpen],
      }}
      ownWords={ownWords}
      also={typed?.all("also") ?? []}
      open={typed?.all("open") ?? []}
      behind={typed?.all("placeBehind") ?? []}
      faults={faults}
      dangers={typed?.all("hazards") ?? []}
      fields={typed ? fieldsOf(typed) : new Map()}
      errors={errors}
      says={saysOf(addExtraFault.fields)}
      say={say}
      {...(cost && { cost })}
    />,
    shown.status ?? (errors.size > 0 ? 422 : 200),
  );
}
