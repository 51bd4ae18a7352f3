/** Closes a job, or corrects how it was closed: the account, its PDF, and what the shop learns go on record together. */

import { z } from "zod";
import { freightOf } from "../estimating/closeout/account/margin.js";
import type { AccountTerms, Payment } from "../estimating/closeout/account/terms.js";
import { nothingAgreed, usualBasis } from "../estimating/closeout/account/terms.js";
import { partsUnlogged, untimedWork } from "../estimating/closeout/actual/untimed.js";
import {
  agreedOf,
  allowedFor,
  foundByLog,
  isNothingDone,
  type JobDone,
  quotedOf,
  type Untimed,
} from "../estimating/closeout/jobDone.js";
import { modelOf, observationsOf } from "../estimating/closeout/learning/observation.js";
import type { CloseOut } from "../estimating/closeout/variance/closeOut.js";
import { estimate } from "../estimating/estimate.js";
import type { EstimateInput, IsoDate, Minor, WorkItem } from "../estimating/input.js";
import { type CloseOutBasis, type CloseOutRecord, closeOutsTable } from "../records/closeOuts.js";
import { contentHash } from "../records/contentHash.js";
import type { Database } from "../records/database.js";
import { tellingOf } from "../records/keptOnce.js";
import { observations, observing, unobserving } from "../records/observations.js";
import { type Outcome, outcomesTable } from "../records/outcomes.js";
import { type Override, overridesTable } from "../records/overrides.js";
import { creditOf, standing, uncredited, unrecorded } from "../records/payments.js";
import { sha256 } from "../records/sha256.js";
import { adding } from "../records/standardCosts.js";
import { type NewEvent, shortHead, type Write } from "../records/trail.js";
import { agreedWorkAsked } from "../wording/account.js";
import { money as cash } from "../wording/figures.js";
import { workTitle } from "../wording/line.js";
import { listed } from "../wording/list.js";
import { day as dayText } from "../wording/time.js";
import { act, type Desk, type Done, refused, wrongField } from "./act.js";
import { engineFaults, type Fault } from "./fault.js";
import { choice, cost, count, day, hand, line, maybe, money, several, tick, whole } from "./field.js";
import { handOf } from "./hand.js";
import type { JobAsItStands } from "./job.js";
import type { OnJob } from "./logWork.js";
import { saidUnopened } from "./opened.js";
import { type Reckoned, reckon, type ToClose, toClose } from "./reckoning.js";
import { keptCloseOut } from "./shapes/closeOuts.js";
import { ident } from "./shapes/primitives.js";
import { howPaid, onRecord, PAID_FOR, taking, withdrawing } from "./takePayment.js";
import { today } from "./today.js";

const WHO = "Your name";
const WHY = "Why it is corrected";
const WHY_KEPT = "Why they are kept";
const UNTOUCHED = ["done, not timed", "not done", "as planned"] as const;
const LOOKING = ["charged", "waived"] as const;
const UNLOGGED = ["as planned", "none used"] as const;
const MOST = 2000;
const MOST_DAYS = 36_500;

export const OLD_PARTS = z.strictObject({
  is: choice("Parts that were replaced", ["returned", "kept"]),
  why: maybe(line(WHY_KEPT, { hint: "Such as an exchange part." })),
});
export const OPENED = maybe(choice("Was the unit opened?", ["no", "yes"])).meta({
  description:
    "Where only looking is charged and no opening is logged: 'no' is told on the account, and refused where log or ticks tell otherwise. Opening that is not logged is not charged",
});
export const AGREED_THEN = maybe(choice("Work done while it was agreed", ["charged", "let go"])).meta({
  description:
    "Where work was logged or ticked off as agreed before the owner took that back: charged as it was agreed, or not. Asked for while there is such work",
});
export const COSTS = maybe(
  z
    .strictObject({
      perHour: maybe(
        z.record(line("Person", { most: 200 }), money("An hour of this person")).meta({
          description: "By person; absent from a correction: as they stand",
        }),
      ),
      otherwise: money("An hour at the bench costs", { hint: "Wages and what goes with them." }).meta({
        description: "An hour of anybody not named, and of hours planned",
      }),
      freight: maybe(cost("Freight paid", { hint: "For all that was got for this job; 0 for none. Empty: as estimated." })).meta({
        description: "Absent: as estimated",
      }),
      other: maybe(
        z.array(z.strictObject({ what: maybe(line("Other cost")), amount: cost("Amount of the other cost") })).max(100),
      ),
    })
    .meta({ description: "What it cost the shop; there is no margin when absent" }),
);

/** A close-out is made once; another is a correction of the one that stands. */
export const CORRECTION = {
  corrects: maybe(line("Close-out that is corrected", { most: 100 }).meta({ description: "Id of the one that stands" })),
  reason: maybe(line(WHY).meta({ description: "Wanted with `corrects`" })),
  seen: maybe(count("Total looked at").meta({ description: "Tax included; the job is not closed on another" })),
};

/** Who closes it, where it can be closed or corrected as `corrects` says. */
export function closer(
  desk: Desk,
  { closeOut: current, tongue }: JobAsItStands,
  {
    by,
    corrects,
    reason,
  }: { readonly by?: string | undefined; readonly corrects?: string | undefined; readonly reason?: string | undefined },
) {
  if (current && corrects === undefined)
    return refused("closed already", {
      detail: `It was closed on ${dayText(current.closedOn, tongue.locale)} by ${current.by}.`,
    });
  if (corrects !== current?.id) return refused("nothing to correct", { detail: "A correction names the close-out that stands." });
  const who = handOf(desk, by, WHO);
  if ("refused" in who || !current || reason !== undefined) return who;
  return reasonMissing();
}

export const reasonMissing = () => wrongField("/reason", "reason missing", `${WHY} is missing; say it for the record.`);

/** Refused while it is not said whether work of an agreement that was taken back is charged. */
export const thenUnsaid = (
  { result }: Pick<Extract<Reckoned, { ok: true }>, "result">,
  { agreedThen }: Pick<Closing, "agreedThen">,
  { tongue }: Pick<JobAsItStands, "tongue">,
) => {
  const then = result.account.agreedThen;
  return then && agreedThen === undefined
    ? wrongField("/agreedThen", "agreed work unsaid", agreedWorkAsked(then.amount, tongue))
    : undefined;
};

/** Refused where the total is another than the one looked at. `otherwise`: what it comes to by the other choice. */
export function movedSince(seen: Minor | undefined, total: Minor, { tongue }: Pick<JobAsItStands, "tongue">, otherwise?: Minor) {
  if (seen === undefined || seen === total) return undefined;
  const [was, is] = [cash(seen, tongue), cash(total, tongue)];
  return refused("price differs", {
    detail:
      seen === otherwise
        ? `With what you chose, it comes to ${is}, where ${was} was shown. Nothing is closed yet: close again to confirm.`
        : `The total moved from ${was} to ${is} since the account was shown, by what was changed here or logged. Nothing is closed yet: look at it again.`,
  });
}

const fields = z
  .strictObject({
    by: hand(WHO),
    closedOn: day("Day"),
    basis: maybe(choice("Basis", ["fixed price", "time and parts"]).meta({ description: "As the job was priced when absent" })),
    found: maybe(
      several("Which possible work proved necessary", { most: MOST }).meta({
        description: "Groups 'if found' of the agreed sheet that proved necessary, beyond those the work log tells of",
      }),
    ),
    done: maybe(
      z.record(ident, count("Count done")).meta({
        description: "Counts really done, by work item, where they are below the agreed; as ticked off when absent",
      }),
    ),
    untouched: maybe(
      z
        .strictObject({
          all: maybe(choice("Work that nothing was logged on", UNTOUCHED)),
          each: maybe(z.record(ident, choice("How it was", UNTOUCHED))),
        })
        .meta({
          description:
            "Agreed work without time, parts or ticks in the log: `done, not timed` and `as planned` are billed as agreed and reckoned at the time allowed, `not done` is not billed; nothing is learnt from either. Asked for while there is such work: `all` for what `each`, by work item, does not name",
        }),
    ),
    unlogged: maybe(
      choice("Parts of timed work on which no piece was logged", UNLOGGED).meta({
        description:
          "Asked for while there is such work: `as planned` reckons them as planned and bills them so, `none used` leaves them out",
      }),
    ),
    payments: maybe(
      z
        .array(
          z.strictObject({
            on: day("Day of the payment"),
            amount: money("Amount of the payment"),
            for: choice("For", PAID_FOR),
            how: maybe(howPaid),
          }),
        )
        .max(100)
        .meta({
          description:
            "Each is put on record beside those there, which all count. In a correction: all that the close-out before it credited, refunds apart; what is left out is withdrawn, and without the list all stays",
        }),
    ),
    paidAgain: maybe(tick("Record it though the same payment is on record already")).meta({
      description:
        "Without it a payment is refused where one of the same amount for the same is on record within a day of it; a correction is not asked",
    }),
    warrantyDays: whole("Days of warranty", { least: 0, most: MOST_DAYS }),
    oldParts: OLD_PARTS,
    looking: maybe(
      choice("Fee, and time spent looking", LOOKING).meta({
        description:
          "Where nothing that was agreed was done: what declining would have cost is charged, at most, unless it is waived; the diagnosis fee is not credited, and there is no warranty",
      }),
    ),
    opened: OPENED,
    agreedThen: AGREED_THEN,
    above: maybe(
      z.strictObject({ by: line("Who decides", { most: 200 }), reason: line("Why") }).meta({
        description: "Lets the account pass the limit agreed; otherwise what is above is not charged",
      }),
    ),
    costs: COSTS,
    ...CORRECTION,
  })
  .meta({ id: "CloseOut" });

export type Closing = z.output<typeof fields>;

export const closeJob = act({
  name: "addCloseOut",
  title: "Close a job, or correct how it was closed",
  fields,
  answer: keptCloseOut,
  decide: async (desk, value, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job) return refused("not found", { detail: "There is no such job." });
    const id = desk.newId();
    const who = closer(desk, job, value);
    if ("refused" in who && !who.refused.errors) return who;
    const ready = accountOf(job, value);
    if (!ready) return refused("nothing agreed");
    const {
      toClose: { basis, done },
      reckoned,
    } = ready;
    const wrong = [...("refused" in who ? who.refused.errors! : []), ...wrongIn(job, value)];
    if (!reckoned.ok) return refused("input refused", { errors: [...wrong, ...faultsBeside(wrong, job, value)] });
    wrong.push(...(thenUnsaid(reckoned, value, job)?.refused.errors ?? []));
    if ("refused" in who || wrong.length > 0) return refused("input refused", { errors: wrong });

    const { result } = reckoned;
    const { agreedThen: then, totals } = result.account;
    const turned = then && accountOf(job, { ...value, agreedThen: then.charged ? "let go" : "charged" })?.reckoned;
    const moved = movedSince(value.seen, totals.total, job, turned?.ok ? turned.result.account.totals.total : undefined);
    if (moved) return moved;
    const { above, held } = result.account;
    const pass: Override | undefined = above && {
      ...{ id: desk.newId(), jobId: job.id, at: desk.at, of: "close-out", ...above, refusal: "above limit", over: held.over },
    };
    const { fresh, gone } = settled(job, value);
    const taken = await Promise.all([
      ...fresh.map((each) => taking(desk, job.id, { how: "other", ...each, by: who.by })),
      ...gone.map(({ id: payment }) => withdrawing(desk, job.id, payment, { by: who.by, reason: value.reason ?? "" })),
    ]);
    return recorded(desk, job, {
      ...{ id, by: who.by, agreementId: job.agreed()!.agreement.id, basis, done, result, reason: value.reason, pass },
      writes: taken.map(({ write }) => write),
      events: taken.map(({ event }) => event),
    });
  },
});

/** What the account cannot be reckoned with, but for what only follows from a count that is told to be wrong. */
function faultsBeside(wrong: readonly Fault[], job: JobAsItStands, value: Closing): readonly Fault[] {
  const told = new Set(wrong.map(({ pointer }) => pointer));
  const { done, ...rest } = value;
  const right = Object.entries(done ?? {}).filter(([id]) => !told.has(`/done/${id}`));
  const { reckoned } = accountOf(job, { ...rest, ...(done && { done: Object.fromEntries(right) }) })!;
  return reckoned.ok ? [] : faultsOf(reckoned).filter(({ pointer }) => !told.has(pointer));
}

interface Closes extends Pick<CloseOutRecord, "id" | "by" | "agreementId" | "basis" | "result"> {
  readonly done: JobDone;
  readonly reason?: string | undefined;
  readonly pass?: Override | undefined;
  /** What goes on record with it, before it. */
  readonly writes?: readonly Write[];
  readonly events?: readonly NewEvent[];
}

/** The account's PDF, the record, what boards and learning read, and the events that tell of it. */
export async function recorded(
  desk: Desk,
  job: JobAsItStands,
  { done, reason, pass, writes = [], events = [], ...closes }: Closes,
): Promise<Done<Omit<CloseOutRecord, "basis">>> {
  const { db, at } = desk;
  const { head, closeOut: current } = job;
  const { basis, result, by } = closes;
  const { input, sheet } = agreedOf(done);
  const paperwork = { ...input.paperwork, date: basis.terms.on, chainHead: shortHead(head) };
  const paper = { sheet, input: { ...input, paperwork } };
  const pdf = await desk.papers.finalAccount(result.account, paper, current !== undefined);
  const record: CloseOutRecord = {
    ...{ ...closes, jobId: job.id, at, closedOn: basis.terms.on },
    contentHash: await contentHash({ basis, result }),
    pdfHash: await sha256(pdf),
    ...{ headNumber: head.number, headHash: head.hash },
    ...(pass && { overrideId: pass.id }),
    ...(current && { corrects: current.id, ...(reason && { reason }) }),
  };
  const { basis: _, ...answer } = record;
  return {
    answer,
    writes: [
      ...(pass ? [db.insert(overridesTable).values(pass)] : []),
      ...writes,
      db.insert(closeOutsTable).values({ ...record, pdf }),
      ...(await derived(db, record, done, current)),
    ],
    trail: {
      job: job.id,
      head,
      events: [
        ...(pass
          ? [{ is: "limit overridden" as const, content: { by: pass.by, record: await tellingOf("overrides", pass) } }]
          : []),
        ...events,
        {
          is: current ? "close-out corrected" : "closed out",
          content: { by, record: await tellingOf("close_outs", record) },
        },
      ],
    },
  };
}

/** All that is wrong with what it is closed with. */
export function wrongIn(job: JobAsItStands, value: Closing): readonly Fault[] {
  const { closedOn, oldParts, done, opened, payments = [] } = value;
  const first = firstAgreedOn(job);
  const asks = value.corrects === undefined && !value.paidAgain;
  const counts = (job.agreed()?.input.items ?? []).map(({ id, count }) => ({ id, count, given: done?.[id] ?? 0 }));
  return [
    first !== undefined && closedOn < first ? tooEarly(job, "The work was agreed to", first) : undefined,
    ...payments.map((each, row) => wrongPayment(`/payments/${row}/amount`, each, asks ? onRecord(job, each) : undefined)),
    ...[wrongParts(oldParts), saidUnopened(job, opened), ...wrongUntouched(job, value), wrongUnlogged(job, value)],
    ...counts.map(({ id, count, given }) =>
      Number.isInteger(given) && given >= 0 && given <= count
        ? undefined
        : wrongField(`/done/${id}`, "number out of range", `Count done: give a whole number from 0 to ${count}, as agreed.`),
    ),
  ].flatMap((wrong) => wrong?.refused.errors ?? []);
}

/** Closed before that day: `what` happened then. */
export const tooEarly = ({ tongue }: JobAsItStands, what: string, first: IsoDate) =>
  wrongField(
    "/closedOn",
    "closed before agreed",
    `${what} on ${dayText(first, tongue.locale)}; a job is closed on that day or later.`,
  );

function wrongPayment(pointer: string, { amount }: NewlyPaid[number], already: string | undefined) {
  if (amount === 0) return wrongField(pointer, "number out of range", "Amount of the payment: give more than 0.");
  return already === undefined ? undefined : wrongField(pointer, "paid already", already);
}

function wrongUntouched(job: JobAsItStands, value: Closing) {
  const asked = untouchedBy(job, value);
  const strange = Object.keys(value.untouched?.each ?? {}).filter((id) => !asked.some(({ item }) => item.id === id));
  const none = "How it was: this is no agreed work without time in the log; leave it out.";
  const [open, ...more] = asked.flatMap(({ item, how }) => (how === undefined ? [item] : []));
  const say = "Say whether it was done and not timed, was not done, or took what was planned.";
  return [
    ...strange.map((id) => wrongField(`/untouched/each/${id}`, "work not untouched", none)),
    open &&
      wrongField(
        more.length === 0 ? `/untouched/each/${open.id}` : "/untouched/all",
        "untouched work",
        `Nothing was logged on ${titlesOf(job, [open, ...more])}. ${say}`,
      ),
  ];
}

function wrongUnlogged(job: JobAsItStands, value: Closing) {
  const bare = value.unlogged === undefined ? unloggedBy(job, value) : [];
  const say = "Say whether the parts were used as planned, or none was.";
  return bare.length === 0
    ? undefined
    : wrongField("/unlogged", "parts unlogged", `Time was logged on ${titlesOf(job, bare)}, and no piece. ${say}`);
}

const titlesOf = (job: JobAsItStands, items: readonly WorkItem[]): string =>
  shortly(items.map((item) => `'${workTitle(item, job.agreed()!.input)}'`));

export const wrongParts = ({ is, why }: Closing["oldParts"]) =>
  is === "kept" && why === undefined
    ? wrongField("/oldParts/why", "key missing", `${WHY_KEPT} is missing; the owner reads it.`)
    : undefined;

const MOST_NAMED = 2;
export const shortly = (titles: readonly string[]): string =>
  listed(titles.length > MOST_NAMED ? [...titles.slice(0, MOST_NAMED), `${titles.length - MOST_NAMED} more`] : titles);

/** Agreed work that was timed and has parts, of which none is in the log. */
export function unloggedBy(job: JobAsItStands, { found = [], done }: Pick<Closing, "found" | "done">): readonly WorkItem[] {
  const agreed = job.agreed();
  if (!agreed) return [];
  const log = job.log();
  return partsUnlogged(agreed.input, log, [...foundByLog(agreed.input, log), ...job.found(), ...found]).filter(
    ({ id }) => (done?.[id] ?? job.done[id]) !== 0,
  );
}

/** Agreed work without time in the log, as it is said to have been; undefined: to be asked. What was used on it or ticked off was done. */
export function untouchedBy(
  job: JobAsItStands,
  { found = [], done, untouched }: Pick<Closing, "found" | "done" | "untouched">,
): readonly {
  readonly item: WorkItem;
  readonly ids: readonly string[];
  readonly how?: (typeof UNTOUCHED)[number] | undefined;
}[] {
  const agreed = job.agreed();
  if (!agreed) return [];
  const [{ input }, log] = [agreed, job.log()];
  return untimedWork(input, log, [...foundByLog(input, log), ...job.found(), ...found])
    .filter(({ ids }) => !ids.some((id) => done?.[id] === 0))
    .map(({ item, ids, partsLogged }) => {
      const known = partsLogged || ids.some((id) => (done?.[id] ?? job.done[id] ?? 0) > 0) ? UNTOUCHED[0] : undefined;
      return { item, ids, how: untouched?.each?.[item.id] ?? known ?? untouched?.all };
    });
}

/** What the job would come to, closed with this; undefined while nothing is agreed. */
export function accountOf(
  job: JobAsItStands,
  value: Closing,
): { readonly toClose: ToClose; readonly reckoned: Reckoned } | undefined {
  const { closedOn, basis, found = [], done, warrantyDays, oldParts, above, costs } = value;
  const agreed = job.agreed();
  if (!agreed) return undefined;
  const { kept, fresh } = settled(job, value);
  const counts = new Map(agreed.input.items.map((item) => [item.id, item.count]));
  const untouched = untouchedBy(job, value);
  const bare = unloggedBy(job, value);
  const idsOf = (...ways: (string | undefined)[]) => untouched.flatMap(({ ids, how }) => (ways.includes(how) ? ids : []));
  const notDone = idsOf("not done").map((id) => [id, 0] as const);
  const untimed: Untimed = Object.fromEntries([
    // What is still to be said is shown as done.
    ...idsOf("done, not timed", undefined).map((id) => [id, "done"] as const),
    ...idsOf("as planned").map((id) => [id, "as planned"] as const),
  ]);
  const given = done ? Object.entries(done).filter(([id, count]) => count !== counts.get(id)) : undefined;
  const terms: AccountTerms = {
    basis: basis ?? usualBasis(agreed.input),
    on: closedOn,
    payments: [...kept.map(creditOf), ...fresh.map(({ on, amount, for: what }) => ({ on, amount, for: what }))].toSorted(
      (a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0),
    ),
    warrantyDays,
    oldParts: partsAs(oldParts),
    ...(above && { above }),
  };
  const ready = toClose(job, {
    terms,
    found,
    ...((given || notDone.length > 0) && { done: Object.fromEntries([...(given ?? Object.entries(job.done)), ...notDone]) }),
    ...(untouched.length > 0 && { untimed }),
    // What is still to be said is shown as planned.
    ...(bare.length > 0 && value.unlogged !== "none used" && { unlogged: bare.map(({ id }) => id) }),
    costs: costsAs(job, costs),
    charged: value.agreedThen !== "let go",
  })!;
  const held = isNothingDone(ready.done, terms.basis === "time and parts")
    ? { ...ready, basis: { ...ready.basis, terms: withNothingDone(terms, value) } }
    : ready;
  return { toClose: held, reckoned: reckon(held.done, held.basis) };
}

/** Nothing was repaired that a warranty could be of, and nothing passes what was promised. */
const withNothingDone = ({ above: _, ...terms }: AccountTerms, { looking, opened }: Closing): AccountTerms => ({
  ...terms,
  basis: "nothing done",
  warrantyDays: 0,
  ...(looking === "waived" && { lookingWaived: true }),
  ...(opened === "no" && { handBack: { accessories: [], opened: false } }),
});

export const partsAs = ({ is, why = "" }: Closing["oldParts"]): AccountTerms["oldParts"] =>
  is === "kept" ? { is, why } : { is };

export const costsAs = (job: JobAsItStands, costs: Closing["costs"]): CloseOutBasis["costs"] => {
  const agreed = job.agreed();
  return (
    costs && {
      perHour: costs.perHour ?? job.closeOut?.basis.costs?.perHour ?? {},
      otherwise: costs.otherwise,
      freight: costs.freight ?? (agreed ? freightOf(agreed.sheet) : 0),
      other: (costs.other ?? []).map(({ what = "", amount }) => ({ what, amount })),
    }
  );
};

type NewlyPaid = NonNullable<Closing["payments"]>;

/**
 * What is typed in closing is put on record beside what is there. In a correction it stands for what the close-out before credited: what
 * is left out is withdrawn, what differs is new; without a list all stays.
 */
function settled(job: JobAsItStands, { payments, corrects }: Pick<Closing, "payments" | "corrects">) {
  const recorded = standing(job.payments);
  const before = job.closeOut?.basis.terms.payments ?? [];
  if (corrects === undefined) return { kept: recorded, gone: [], fresh: payments ?? [] };
  if (!payments) return { kept: recorded, gone: [], fresh: unrecorded(before, job.payments).flatMap(typedIn) };
  const since = uncredited(recorded, before);
  const named = recorded.filter((each) => !since.includes(each));
  const gone = uncredited(
    named.filter(({ for: what }) => what !== "refund"),
    payments,
  );
  return {
    kept: recorded.filter((each) => !gone.includes(each)),
    gone,
    fresh: unrecorded(payments, named),
  };
}

/** A refund is typed on the page of payments alone. */
const typedIn = ({ for: what, ...rest }: Payment): NewlyPaid => (what === "refund" ? [] : [{ ...rest, for: what }]);

/** As the form of a correction shows it: what the close-out credited and nobody withdrew since. */
export const creditedBy = (job: JobAsItStands, { id, basis }: Pick<CloseOutRecord, "id" | "basis">): NewlyPaid => {
  const gone = id === job.closeOut?.id ? job.payments.filter(({ withdrawal }) => withdrawal) : [];
  return unrecorded(basis.terms.payments, gone).flatMap(typedIn);
};

/** At the shop. What was said is put on record later than it was said; a later revision may be answered after the work. */
function firstAgreedOn({ answers }: JobAsItStands): IsoDate | undefined {
  const first = answers.find(({ answer }) => answer !== "declined");
  if (!first) return undefined;
  const recorded = today(new Date(first.at), first.zone);
  return first.spoken && first.spoken.date < recorded ? first.spoken.date : recorded;
}

/** Of what was sent, and of the work log under /log. */
export const faultsOf = ({ problems }: Extract<Reckoned, { ok: false }>) =>
  engineFaults(problems).map((fault) => ({ ...fault, pointer: sentAs(fault.pointer) }));

const sentAs = (pointer: string): string =>
  pointer === "/terms/on" ? "/closedOn" : pointer.startsWith("/terms") ? pointer.slice("/terms".length) : `/log${pointer}`;

/** What boards and learning read; what the record before it said is taken back. */
async function derived(db: Database, record: CloseOutRecord, job: JobDone, before: CloseOutRecord | undefined) {
  const { jobId, closedOn } = record;
  const { jobId: _, ...figures } = outcomeFrom(record, job);
  const outcome = db
    .insert(outcomesTable)
    .values({ jobId, ...figures })
    .onConflictDoUpdate({ target: outcomesTable.jobId, set: { ...NO_COSTS, ...figures } });
  const { basis } = record.result.account;
  if (nothingAgreed(basis)) return [outcome];
  const { rateBook } = agreedOf(job).input;
  const allowed = allowedFor(job);
  if (!allowed.ok) throw new Error("A close-out without problems has no allowed work.");
  const seen =
    basis === "nothing done" ? [] : (observationsOf({ job: jobId, input: allowed.allowed.input, log: job.log }, rateBook) ?? []);
  const was = before ? await observations(db, rateBook, { jobs: [jobId] }) : [];
  return [
    outcome,
    ...(before ? [...adding(db, rateBook, before.closedOn.slice(0, 7), was, -1), ...unobserving(db, jobId)] : []),
    ...observing(db, jobId, closedOn, rateBook, seen),
    ...adding(db, rateBook, closedOn.slice(0, 7), seen),
  ];
}

const NO_COSTS = { cost: null, plannedMargin: null };

/** Work nobody agreed to is no fault of the estimate, and is left out of what the job came to; where nothing was agreed to or done, so is all. */
export function outcomeFrom({ id, jobId, closedOn, result }: CloseOutRecord, job: JobDone): Outcome {
  const { closeOut, account, margin, planned } = result;
  const agreed = agreedOf(job);
  const { revenue, margin: earned } = margin ?? { revenue: account.totals.withoutTax, margin: undefined };
  return {
    ...{ jobId, closeOutId: id, closedOn, month: closedOn.slice(0, 7), model: modelOf(agreed.input), currency: account.currency },
    quotedTotal: quotedOf(job).sheet.totals.total,
    billedTotal: account.totals.total,
    revenue,
    ...(earned !== undefined && { cost: revenue - earned }),
    ...(planned && { plannedMargin: planned.margin }),
    ...(closeOut && account.basis !== "nothing done"
      ? asForecast(agreed, closeOut)
      : { ...NOTHING_AGREED, actualMinutes: account.worked.attended }),
  };
}

const NOTHING_AGREED = { declined: true, agreedTotal: 0, p50: 0, p80: 0, actual: 0, agreedMinutes: 0, allowedMinutes: 0 };

function asForecast({ input, sheet }: ReturnType<typeof agreedOf>, { total, attended }: CloseOut) {
  const { risk } = withRisk(input);
  return {
    ...{
      declined: false,
      agreedTotal: sheet.totals.total,
      agreedMinutes: (attended.charged && sheet.time.charged ? sheet.time.charged : sheet.time).attended,
    },
    ...{ p50: risk.p50, p80: risk.p80, actual: total.actual - total.variance["not agreed"] },
    ...{ allowedMinutes: attended.allowed, actualMinutes: attended.actual },
  };
}

function withRisk(input: EstimateInput) {
  const outcome = estimate(input, { risk: true });
  if (!outcome.ok || !outcome.sheet.risk) throw new Error("What was agreed to has problems.");
  return { risk: outcome.sheet.risk };
}
