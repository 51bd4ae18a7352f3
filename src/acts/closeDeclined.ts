/**
 * Closes a job on which nothing was agreed to, declined or taken back before anything was issued, or corrects how it was closed: what is
 * owed by what paper or receipt promised, and what was handed back. Payments are recorded by themselves; all on record count.
 */
import { z } from "zod";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import { type Estimate, priced } from "../records/estimates.js";
import { creditOf, standing } from "../records/payments.js";
import { act, type Desk, refused } from "./act.js";
import { firstDraft } from "./beginDraft.js";
import {
  AGREED_THEN,
  CORRECTION,
  COSTS,
  closer,
  costsAs,
  faultsOf,
  movedSince,
  OLD_PARTS,
  OPENED,
  partsAs,
  reasonMissing,
  recorded,
  thenUnsaid,
  tooEarly,
  wrongParts,
} from "./closeJob.js";
import { engineFaults, type Fault } from "./fault.js";
import { day, hand, line, lines, maybe, note } from "./field.js";
import type { JobAsItStands } from "./job.js";
import type { OnJob } from "./logWork.js";
import { saidUnopened } from "./opened.js";
import { paperworkOf } from "./paperwork.js";
import { declinedIn, neverIssued, type Reckoned, reckon, type ToClose, toCloseDeclined, toCloseTakenBack } from "./reckoning.js";
import { keptCloseOut } from "./shapes/closeOuts.js";
import { today } from "./today.js";

const WHO = "Your name";

const fields = z
  .strictObject({
    by: hand(WHO),
    closedOn: day("Day"),
    to: line("Handed back to", { most: 200 }),
    accessories: maybe(lines("Handed back with it", { most: 100, hint: "As it came; take out what was not there. One a line." })),
    note: maybe(
      note("In what state it goes back", { most: 2000, hint: "Such as: closed up as it came, the fault still there." }),
    ),
    opened: OPENED,
    agreedThen: AGREED_THEN,
    oldParts: OLD_PARTS,
    costs: COSTS,
    ...CORRECTION,
  })
  .meta({ id: "HandBack" });

export type HandingBack = z.output<typeof fields>;

export const closeDeclined = act({
  name: "addHandBack",
  title: "Close a declined job and hand the unit back, or correct how that was done",
  fields,
  answer: keptCloseOut,
  decide: async (desk, value, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job) return refused("not found", { detail: "There is no such job." });
    const id = desk.newId();
    const { reason, seen } = value;
    const who = closer(desk, job, { ...value, reason: reason ?? "" });
    if ("refused" in who && !who.refused.errors) return who;
    const declined = declinedIn(job);
    const ready = await handBackOf(desk, job, value);
    if (!ready) return refused("not declined");
    if ("refused" in ready) return ready;
    const { toClose, reckoned } = ready;
    const errors = [
      ...("refused" in who ? who.refused.errors! : []),
      ...wrongIn(job, value, reckoned),
      ...(reckoned.ok ? [] : faultsOf(reckoned)),
    ];
    if ("refused" in who || !reckoned.ok || errors.length > 0) return refused("input refused", { errors });
    const { agreedThen: then, totals } = reckoned.result.account;
    const { total } = totals;
    const turned = then && (await handBackOf(desk, job, { ...value, agreedThen: then.charged ? "let go" : "charged" }));
    const other =
      turned && !("refused" in turned) && turned.reckoned.ok ? turned.reckoned.result.account.totals.total : undefined;
    const moved = movedSince(seen, total, job, other);
    if (moved) return moved;
    return recorded(desk, job, {
      ...{ ...toClose, result: reckoned.result, reason },
      ...{ id, by: who.by, ...(declined && { agreementId: declined.answer.id }) },
    });
  },
});

/** All that is wrong with what could be read of it. */
export function wrongIn(job: JobAsItStands, value: Partial<HandingBack>, reckoned: Reckoned): readonly Fault[] {
  const { closedOn, oldParts, opened, reason } = value;
  const declined = declinedIn(job);
  const first = declined ? today(new Date(declined.answer.at), declined.answer.zone) : job.job.arrivedOn;
  return [
    ...(closedOn !== undefined && closedOn < first
      ? [tooEarly(job, declined ? "It was declined" : "The unit came in", first)]
      : []),
    saidUnopened(job, opened),
    ...(reckoned.ok ? [thenUnsaid(reckoned, value, job)] : []),
    ...(oldParts ? [wrongParts(oldParts)] : []),
    ...(job.closeOut && reason === undefined ? [reasonMissing()] : []),
  ].flatMap((wrong) => wrong?.refused.errors ?? []);
}

interface HandBackReady {
  readonly toClose: ToClose;
  readonly reckoned: Reckoned;
}

/** What it would come to; undefined where an estimate was issued and is not declined. */
export async function handBackOf(
  desk: Pick<Desk, "db" | "now">,
  job: JobAsItStands,
  { closedOn, to, accessories = [], note: state, opened, agreedThen, oldParts, costs }: Omit<HandingBack, "by">,
): Promise<HandBackReady | ReturnType<typeof refused> | undefined> {
  const declined = declinedIn(job);
  if (!declined && !neverIssued(job)) return undefined;
  const terms: AccountTerms = {
    ...{ basis: declined ? "declined" : "taken back", on: closedOn, warrantyDays: 0 },
    payments: standing(job.payments).map(creditOf),
    oldParts: partsAs(oldParts),
    handBack: {
      ...{ to, accessories, ...(state !== undefined && { note: state }) },
      ...(opened === "no" && { opened: false as const }),
    },
  };
  // What is still to be said is shown as charged.
  const how = { terms, charged: agreedThen !== "let go", ...(costs && { costs: costsAs(job, costs)! }) };
  const bare = declined ? undefined : await bareOf(desk, job);
  if (bare && "refused" in bare) return bare;
  const toClose = bare ? toCloseTakenBack(bare.job, bare.current, how) : toCloseDeclined(job, how)!;
  return { toClose, reckoned: reckon(toClose.done, toClose.basis) };
}

/** What there is of an estimate that was never issued, bare of all that was planned: what the log names, and the paper it would go out on. */
async function bareOf(desk: Pick<Desk, "db" | "now">, job: JobAsItStands) {
  const kept = job.latest ?? job.closeOut?.basis.current;
  const first = kept ? undefined : await firstDraft(desk, job);
  const last: Pick<Estimate, "rateBookId" | "rateBookVersion" | "input"> = kept ?? first!;
  const { rateBookId, rateBookVersion } = last;
  const inputOf: JobAsItStands["inputOf"] = (value) => (first ? { ...value.input, rateBook: first.book } : job.inputOf(value));
  const { map, items, policy = {}, toOpen = [], ...input } = last.input;
  const { time, parts } = job.log();
  const named = new Set([...time.flatMap(({ work }) => (work.is === "item" ? [work.id] : [])), ...parts.map(({ item }) => item)]);
  const opened = time.flatMap(({ work }) => (work.is === "access" ? (work.assembly ?? []) : []));
  const worked = items.filter(({ id }) => named.has(id));
  const { diagnosis, diagnosisLimit } = policy;
  const bare = {
    ...input,
    ...(map && (opened.length > 0 || worked.some(({ assembly }) => assembly !== undefined)) && { map }),
    ...(opened.length > 0 && { toOpen: [...new Set([...toOpen, ...opened])] }),
    items: worked,
    policy: { ...(diagnosis !== undefined && { diagnosis }), ...(diagnosisLimit !== undefined && { diagnosisLimit }) },
  };
  const value = { rateBookId, rateBookVersion, input: bare };
  const { sheet, problems } = await priced(inputOf(value));
  if (!sheet) return refused("estimate unready", { errors: engineFaults(problems, "/input") });
  const paperwork = paperworkOf(job, { input: bare, sheet }, desk.now);
  return { job: { ...job, inputOf }, current: { ...value, input: { ...bare, paperwork } } };
}
