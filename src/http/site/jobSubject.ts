/** What every page about one job starts from. */
import type { Context } from "hono";
import type { Desk } from "../../acts/act.js";
import type { JobAsItStands } from "../../acts/job.js";
import type { JobHead } from "../../pages/revise/jobFrame.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { handKept } from "../guard/cookies.js";

export interface JobSubject extends Pick<JobAsItStands, "job" | "settings" | "tongue" | "owner" | "unit" | "revisions"> {
  /** The job with all that follows from its records. */
  readonly stands: JobAsItStands;
  readonly head: JobHead;
  /** Who is signed in. */
  readonly hand?: string;
  /** Where nobody is: the name given when the shop was set up without accounts. */
  readonly offered: string;
  /** A moment as the shop writes it. */
  readonly when: (iso: string) => string;
}

/** `desk`: where it may be read again by an act that the page is for. */
export async function jobSubject(c: Context<AppEnv>, id: string, desk: Desk = deskOf(c)): Promise<JobSubject | undefined> {
  const stands = await desk.job(id);
  if (!stands) return undefined;
  const { job, settings, tongue, owner, unit, revisions } = stands;
  const { locale, timeZone } = settings;
  return {
    ...{ stands, job, settings, tongue, owner, unit, revisions },
    head: { id, number: job.number, unit: `${unit.maker} ${unit.model}` },
    when: (iso) => moment(iso, locale, timeZone),
    offered: handKept(c),
    ...(c.var.staff && { hand: c.var.staff.name }),
  };
}

export const headOf = ({ id, job, unit }: JobAsItStands): JobHead => ({
  ...{ id, number: job.number },
  unit: `${unit.maker} ${unit.model}`,
});

/** Who is signed in; otherwise who last put a hand to the job: asked for once, then carried along. */
export const lastHand = ({ hand, revisions, offered }: JobSubject): string =>
  hand ?? revisions.findLast(({ issuedBy }) => issuedBy)?.issuedBy ?? offered;

export const NO_JOB = { detail: "There is no such job." };
