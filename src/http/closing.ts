/** Closing a job, from the API and from the pages: its account is printed from what was agreed. */
import type { Context } from "hono";
import type { Fault } from "../acts/fault.js";
import type { AnswerName } from "../acts/refusals.js";
import { today } from "../acts/today.js";
import { finalAccountPdf } from "../documents/finalAccountPdf.js";
import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import { isDay } from "../estimating/day.js";
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput, IsoDate } from "../estimating/input.js";
import { answersOf } from "../records/agreements.js";
import { type Closing, type ClosingOutcome, closeJob } from "../records/closing.js";
import type { Database } from "../records/database.js";
import { problemText } from "../wording/problem.js";
import type { AppEnv } from "./bindings.js";
import { logoOf } from "./logo.js";
import type { RefuseWith } from "./problems/refuse.js";

export type CloseWanted = Omit<Closing, "print">;

export type ClosedOutcome = ClosingOutcome | { readonly is: "before agreed"; readonly agreedOn: IsoDate };

export async function closing(c: Context<AppEnv>, jobId: string, wanted: CloseWanted): Promise<ClosedOutcome> {
  const { db } = c.var;
  const agreedOn = await firstAgreedOn(db, jobId);
  if (agreedOn !== undefined && isDay(wanted.terms.on) && wanted.terms.on < agreedOn) return { is: "before agreed", agreedOn };
  return closeJob(db, jobId, { ...wanted, print: (...about) => printedAccount(db, ...about) }, c.var.clock().toISOString());
}

/** At the shop. What was said is put on record later than it was said; a later revision may be answered after the work. */
async function firstAgreedOn(db: Database, jobId: string): Promise<IsoDate | undefined> {
  const first = (await answersOf(db, jobId)).find(({ answer }) => answer !== "declined");
  if (!first) return undefined;
  const recorded = today(new Date(first.at), first.zone);
  return first.spoken && first.spoken.date < recorded ? first.spoken.date : recorded;
}

export const beforeAgreedText = (agreedOn: IsoDate): string =>
  `The work was agreed to on ${agreedOn}; a job is closed on that day or later.`;

export async function printedAccount(
  db: Database,
  account: FinalAccount,
  input: EstimateInput,
  corrected: boolean,
): Promise<Uint8Array> {
  const outcome = compute(input);
  if (!outcome.ok) throw new Error("What was agreed to has problems.");
  const logo = input.paperwork && (await logoOf(db, input.paperwork));
  return (await finalAccountPdf(account, { input, sheet: outcome.sheet }, { corrected, logo })).bytes;
}

/** The terms, without the keys that were not given. */
export const termsOf = ({ above, ...terms }: Omit<AccountTerms, "above"> & { above?: AccountTerms["above"] | undefined }) => ({
  ...terms,
  ...(above && { above }),
});

export function closeRefused(outcome: Exclude<ClosedOutcome, { is: "closed" }>): readonly [name: AnswerName, said: RefuseWith] {
  switch (outcome.is) {
    case "missing":
      return ["not found", { detail: "There is no such job." }];
    case "not agreed":
      return ["nothing agreed", {}];
    case "closed already":
      return ["closed already", { detail: `It was closed on ${outcome.current.closedOn} by ${outcome.current.by}.` }];
    case "nothing to correct":
      return ["nothing to correct", { detail: "A correction names the close-out that stands." }];
    case "moved":
      return ["price differs", {}];
    case "before agreed": {
      const detail = beforeAgreedText(outcome.agreedOn);
      return ["input refused", { errors: [{ pointer: "/closedOn", name: "closed before agreed", detail }] }];
    }
    case "unready":
      return ["input refused", { errors: closeFaults(outcome.problems) }];
  }
}

/** Pointers are into the work log, and into what was sent. */
export const closeFaults = (problems: Extract<ClosingOutcome, { is: "unready" }>["problems"]): Fault[] =>
  problems.map((problem) => ({ pointer: sentAs(problem.pointer), name: problem.name, detail: problemText(problem) }));

const sentAs = (pointer: string): string =>
  pointer === "/terms/on" ? "/closedOn" : pointer.startsWith("/terms") ? pointer.slice("/terms".length) : `/log${pointer}`;
