/**
 * Closes a job that was declined with nothing agreed to, or corrects how it was closed: what is owed by what the paper promised, and what
 * was handed back. Payments are recorded by themselves; all on record count.
 */
import { z } from "zod";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import { creditOf, standing } from "../records/payments.js";
import { act, refused, wrongField } from "./act.js";
import {
  CORRECTION,
  COSTS,
  closer,
  costsAs,
  faultsOf,
  movedSince,
  OLD_PARTS,
  partsAs,
  recorded,
  wrongParts,
} from "./closeJob.js";
import { day, hand, line, lines, maybe, note } from "./field.js";
import type { JobAsItStands } from "./job.js";
import type { OnJob } from "./logWork.js";
import { declinedIn, type Reckoned, reckon, type ToClose, toCloseDeclined } from "./reckoning.js";
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
    const { reason, closedOn, seen } = value;
    const who = closer(desk, job, value);
    if ("refused" in who) return who;
    const declined = declinedIn(job);
    const ready = declinedAccountOf(job, value);
    if (!declined || !ready) return refused("not declined");
    const first = today(new Date(declined.answer.at), declined.answer.zone);
    if (closedOn < first)
      return wrongField(
        "/closedOn",
        "closed before agreed",
        `It was declined on ${first}; a job is closed on that day or later.`,
      );
    const wrong = wrongParts(value.oldParts);
    if (wrong) return wrong;
    const { toClose, reckoned } = ready;
    if (!reckoned.ok) return refused("input refused", { errors: faultsOf(reckoned) });
    const { total } = reckoned.result.account.totals;
    const moved = movedSince(seen, total, job);
    if (moved) return moved;
    return recorded(desk, job, {
      ...{ ...toClose, result: reckoned.result, reason },
      ...{ id, by: who.by, agreementId: declined.answer.id },
    });
  },
});

/** What it would come to; undefined where the job is not declined. */
export function declinedAccountOf(
  job: JobAsItStands,
  { closedOn, to, accessories = [], note: state, oldParts, costs }: Omit<HandingBack, "by">,
): { readonly toClose: ToClose; readonly reckoned: Reckoned } | undefined {
  const terms: AccountTerms = {
    ...{ basis: "declined", on: closedOn, warrantyDays: 0 },
    payments: standing(job.payments).map(creditOf),
    oldParts: partsAs(oldParts),
    handBack: { to, accessories, ...(state !== undefined && { note: state }) },
  };
  const toClose = toCloseDeclined(job, { terms, ...(costs && { costs: costsAs(job, costs)! }) });
  return toClose && { toClose, reckoned: reckon(toClose.done, toClose.basis) };
}
