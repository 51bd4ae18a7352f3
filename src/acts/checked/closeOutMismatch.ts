/** A close-out: its hashes, what its basis comes to, the sums of its account, and the row that boards read. */

import { canonical } from "../../estimating/agreement/canonical.js";
import type { JobDone } from "../../estimating/closeout/jobDone.js";
import { type CloseOutRecord, closeOuts, standingOf } from "../../records/closeOuts.js";
import { contentHash } from "../../records/contentHash.js";
import type { Database } from "../../records/database.js";
import type { Issue } from "../../records/issues.js";
import { withoutNulls } from "../../records/noun.js";
import { outcomesOf } from "../../records/outcomes.js";
import { sha256 } from "../../records/sha256.js";
import { outcomeFrom } from "../closeJob.js";
import { jobAsItStands } from "../job.js";
import { jobDone, reckon } from "../reckoning.js";
import { type Mismatch, sumsThatDiffer } from "./mismatch.js";

/** `all` of the job. `left`: hash of the content that an erasure left; its PDF is gone. */
export async function closeOutMismatch(
  db: Database,
  record: CloseOutRecord,
  all: readonly CloseOutRecord[],
  issued: readonly Issue[],
  left: string | undefined,
): Promise<Mismatch | undefined> {
  const { id, basis, result } = record;
  const wrong = (what: Extract<Mismatch, { is: "close-out" }>["what"]): Mismatch => ({ is: "close-out", id, what });
  if ((await contentHash({ basis, result })) !== (left ?? record.contentHash)) return wrong("content hash");
  const pdf = await closeOuts.pdf(db, id);
  if (left === undefined && (!pdf || (await sha256(pdf)) !== record.pdfHash)) return wrong("pdf");
  const strange = [...basis.steps, ...(basis.thenAgreed ? [basis.thenAgreed.step] : [])].some(
    (step) => issued.find((each) => each.id === step.estimateId)?.contentHash !== step.contentHash,
  );
  if (strange) return wrong("revision");
  const job = jobDone((await jobAsItStands(db, record.jobId))!, basis);
  const reckoned = reckon(job, basis);
  // Where texts were erased, the figures stay. An account from before `fitted`, what `agreedThen` left out, or `since` with untimed minutes, was told has all else.
  const { fitted, since, agreedThen: then } = result.account;
  const before = ({ account }: CloseOutRecord["result"]) => ({
    ...(fitted === undefined && { fitted: undefined }),
    ...(then && !then.held && { agreedThen: { ...account.agreedThen, held: undefined } }),
    ...(since === undefined && { since: undefined, worked: { ...account.worked, untimed: undefined } }),
  });
  const { attended, scope = [] } = result.closeOut ?? {};
  // A close-out from before its allowed minutes were those charged and its scope told done from found has all else.
  const older = {
    ...(attended?.charged === undefined && { attended: undefined }),
    ...(scope.some(({ cause }) => cause.is === "found and done") && { scope: undefined }),
  };
  const figures = (of: CloseOutRecord["result"]) =>
    left === undefined
      ? canonical({
          closeOut: of.closeOut && { ...of.closeOut, ...older },
          account: { ...of.account, ...before(of) },
          margin: of.margin,
        })
      : canonical([of.closeOut?.total, of.account.totals, of.margin]);
  if (!reckoned.ok || figures(reckoned.result) !== figures(result)) return wrong("figures");
  if (accountSums(result.account).length > 0) return wrong("sums");
  return standingOf(all)?.id === id && (await outcomeDiffers(db, record, job)) ? wrong("outcome") : undefined;
}

function accountSums({ lines, adjustments, held, totals, payments }: CloseOutRecord["result"]["account"]): string[] {
  const prepaid = payments.reduce((sum, { amount }) => sum + amount, 0);
  return [
    ...sumsThatDiffer({ lines, adjustments: [...adjustments, ...held.allowances], totals }),
    ...(prepaid === totals.prepaid ? [] : ["prepaid"]),
  ];
}

/** Of the larger: what the risk foresaw is reckoned closer in some versions, and stands as on the day the job was closed. */
const FORESEEN_CLOSER = 0.02;

async function outcomeDiffers(db: Database, record: CloseOutRecord, job: JobDone): Promise<boolean> {
  const [row] = await outcomesOf(db, record.jobId);
  if (!row) return true;
  const [{ p50, p80, ...kept }, { p50: p50Now, p80: p80Now, ...now }] = [row, outcomeFrom(record, job)];
  const far = (then: number, today: number) =>
    Math.abs(then - today) > FORESEEN_CLOSER * Math.max(Math.abs(then), Math.abs(today));
  return far(p50, p50Now) || far(p80, p80Now) || canonical(withoutNulls(kept)) !== canonical(now);
}
