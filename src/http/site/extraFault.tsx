/** An extra fault: priced on top of what stands open, and put into the next revision. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { type ExtraFault, extraFault as priceExtra } from "../../estimating/agreement/extraFault.js";
import { estimate as compute } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import { type Cost, ExtraFaultPage } from "../../pages/revise/extraFaultPage.js";
import { engineErrors, readExtra } from "../../pages/revise/readExtra.js";
import { type Estimate, type EstimateValue, estimates } from "../../records/estimates.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { shopOf } from "./intakeFields.js";
import { type JobSubject, jobSubject, NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";
import type { Shop } from "./shop.js";

export const extraFault = new Hono<AppEnv>();

extraFault.get("/jobs/:id/extra-fault", async (c) => {
  const found = await openJob(c, c.req.param("id"));
  return found ? show(c, found, { fields: new Map(), open: [] }) : refuse(c, "not found", NO_JOB);
});

extraFault.post("/jobs/:id/extra-fault", async (c) => {
  const found = await openJob(c, c.req.param("id"));
  if (!found) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields, intent } = sent;
  const open = sent.all("open");
  const { base, item, errors } = readExtra(fields, found.input, found.shop.context);
  if (!item) return show(c, found, { fields, open, errors });
  const priced = priceExtra(base, { items: [item] }, open);
  if (!priced.ok) return show(c, found, { fields, open, errors: engineErrors(priced.problems, base.items.length) });

  const cost = costOf(found, priced);
  if (intent !== "add" && intent !== "issue") return show(c, found, { fields, open, cost });
  if (fields.get("base") !== seenAs(found.latest)) {
    const say =
      "Someone else changed the estimate meanwhile. This is what the work costs on top of it as it stands now; nothing is added yet.";
    return show(c, found, { fields, open, cost, say, status: 409 });
  }
  if (!(await written(c, found, priced.revised))) {
    const now = await openJob(c, found.subject.job.id);
    const say = "Someone else changed the estimate at the same moment, so nothing is added yet. Look at the price again.";
    return show(c, now ?? found, { fields, open, say, status: 409 });
  }
  const { id } = found.subject.job;
  return c.redirect(intent === "issue" ? `/jobs/${id}/issue` : `/jobs/${id}?added`, 303);
});

interface OpenJob {
  readonly subject: JobSubject;
  readonly latest: Estimate;
  /** The newest revision's input, its prices read as of today: a new offer is made today. */
  readonly input: EstimateInput;
  readonly shop: Shop;
}

async function openJob(c: Context<AppEnv>, id: string): Promise<OpenJob | undefined> {
  const subject = await jobSubject(c, id);
  const latest = subject?.revisions.at(-1);
  if (!subject || !latest) return undefined;
  const shop = await shopOf(c, latest);
  const input = { ...(await estimates.inputOf(c.var.db, latest)), asOf: shop.context.today };
  return { subject, latest, input, shop };
}

const seenAs = ({ id, version }: Estimate): string => `${id}:${version}`;

function costOf({ subject }: OpenJob, { now, later, laterAtLeast, revised }: ExtraFault & { ok: true }): Cost {
  const outcome = compute(revised);
  if (!outcome.ok) throw new Error("Work that could be priced has problems.");
  const { total } = outcome.sheet.totals;
  const agreed = subject.stands.agreed()?.agreement.amount;
  return { now, later, laterAtLeast, total, ...(agreed !== undefined && { aboveAgreed: total - agreed }) };
}

/** Into the open draft, or as a new one; false where someone else was first. An issued revision's paperwork stays with it. */
async function written(c: Context<AppEnv>, { latest }: OpenJob, revised: EstimateInput): Promise<boolean> {
  const { rateBook: _book, paperwork, ...bare } = revised;
  const { jobId, rateBookId, rateBookVersion } = latest;
  const at = c.var.clock().toISOString();
  const value = (input: EstimateValue["input"]): EstimateValue => ({ jobId, rateBookId, rateBookVersion, input });
  if (latest.issuedAt) return (await estimates.add(c.var.db, uuidv7(), value(bare), at)).is === "added";
  const input = { ...bare, ...(paperwork && { paperwork }) };
  return (await estimates.replace(c.var.db, latest.id, latest.version, value(input), at)).is === "replaced";
}

interface Shown {
  readonly fields: ReadonlyMap<string, string>;
  readonly open: readonly string[];
  readonly errors?: ReadonlyMap<string, string>;
  readonly cost?: Cost;
  readonly say?: string;
  readonly status?: 200 | 409 | 422;
}

function show(c: Context<AppEnv>, { subject, latest, input, shop }: OpenJob, shown: Shown) {
  const { fields, open, errors = new Map(), cost, say, status = errors.size > 0 ? 422 : 200 } = shown;
  const { removal = [], alreadyOpen = [] } = latest.sheet?.access ?? {};
  return pageAnswer(
    c,
    <ExtraFaultPage
      frame={frameFor(c, subject.settings.name)}
      job={subject.head}
      tongue={subject.tongue}
      context={shop.context}
      base={{
        id: latest.id,
        version: latest.version,
        revision: latest.revision,
        draft: latest.issuedAt === undefined,
        input,
        opens: [...removal.map(({ id }) => id), ...alreadyOpen],
      }}
      open={open}
      fields={fields}
      errors={errors}
      say={say}
      {...(cost && { cost })}
    />,
    status,
  );
}
