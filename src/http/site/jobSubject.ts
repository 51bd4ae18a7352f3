/** What every page about one job starts from. */
import type { Context } from "hono";
import type { JobHead } from "../../pages/revise/jobFrame.js";
import type { Kept } from "../../records/columns.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { type Job, jobs } from "../../records/jobs.js";
import { type Owner, owners } from "../../records/owners.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { units } from "../../records/units.js";
import { moment } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";

export interface JobSubject {
  readonly job: Job;
  readonly head: JobHead;
  readonly settings: Settings;
  readonly tongue: Tongue;
  readonly owner?: Owner & Kept;
  /** Oldest first. */
  readonly revisions: readonly Estimate[];
  /** Who is signed in. */
  readonly hand?: string;
  /** A moment as the shop writes it. */
  readonly when: (iso: string) => string;
}

export async function jobSubject(c: Context<AppEnv>, id: string): Promise<JobSubject | undefined> {
  const { db } = c.var;
  const job = await jobs.find(db, id);
  if (!job) return undefined;
  const [settings, owner, unit, revisions] = await Promise.all([
    shopSettings(db),
    owners.find(db, job.ownerId),
    units.find(db, job.unitId),
    estimates.ofJob(db, id),
  ]);
  const { locale, timeZone } = settings;
  return {
    job,
    settings,
    revisions,
    head: { id, number: job.number, unit: unit ? `${unit.maker} ${unit.model}` : "unit" },
    tongue: { locale, currency: revisions.at(-1)?.input.currency ?? settings.currency },
    when: (iso) => moment(iso, locale, timeZone),
    ...(owner && { owner }),
    ...(c.var.staff && { hand: c.var.staff.name }),
  };
}

/** Who is signed in; otherwise who last put a hand to the job: asked for once, then carried along. */
export const lastHand = ({ hand, revisions }: JobSubject): string =>
  hand ?? revisions.findLast(({ issuedBy }) => issuedBy)?.issuedBy ?? "";

export const NO_JOB = { detail: "There is no such job." };
