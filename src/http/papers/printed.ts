/** Documents of an estimate on record. The estimate of an issued revision is never printed again: its bytes are kept. */
import type { Context } from "hono";
import { beforeOf } from "../../acts/issue.js";
import type { Agreed } from "../../acts/job.js";
import { paperworkOf } from "../../acts/paperwork.js";
import { withRisk } from "../../acts/reckoned.js";
import { type BenchOptions, benchSheetPdf } from "../../documents/benchSheetPdf.js";
import { estimatePdf } from "../../documents/estimatePdf.js";
import { intakeReceiptPdf } from "../../documents/intakeReceiptPdf.js";
import { shopCopyPdf } from "../../documents/shopCopyPdf.js";
import { withChoices } from "../../estimating/agreement/choices.js";
import type { Limit } from "../../estimating/agreement/limit.js";
import { unagreed } from "../../estimating/agreement/workLog.js";
import { estimate as compute } from "../../estimating/estimate.js";
import type { Sheet } from "../../estimating/sheet.js";
import type { Estimate } from "../../records/estimates.js";
import { issues } from "../../records/issues.js";
import { problemText } from "../../wording/problem.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { logoOf } from "../doors/logo.js";
import { photosOnPaper } from "../photos/onPaper.js";
import { refuse } from "../problems/refuse.js";
import { earlierOf } from "./issuing.js";
import { pdfAnswer } from "./pdfAnswer.js";

async function printable(c: Context<AppEnv>, estimate: Estimate) {
  const job = (await deskOf(c).job(estimate.jobId))!;
  const paperwork = paperworkOf(job, estimate, c.var.clock());
  return { job, paperwork, input: { ...job.inputOf(estimate), paperwork } };
}

export async function printedEstimate(c: Context<AppEnv>, estimate: Estimate, sheet: Sheet): Promise<Response> {
  const { job, paperwork, input } = await printable(c, estimate);
  const name = `estimate-${paperwork.number}-${estimate.revision}`;
  const bytes = estimate.issuedAt && (await issues.pdf(c.var.db, estimate.id));
  if (bytes) return pdfAnswer(c, { bytes, warnings: [] }, name);
  const logo = await logoOf(c.var.db, paperwork);
  const shown = await photosOnPaper(c, job.photos, paperwork.photos);
  if (!shown.ok) return refuse(c, "estimate unready", { detail: shown.faults.map(({ text }) => text).join(" ") });
  const before = beforeOf(job, estimate.revision);
  const options = { earlier: before && earlierOf(before), logo, photos: shown.pictures, draft: true };
  return pdfAnswer(c, await estimatePdf(sheet, input, options), name);
}

/** Of the visit alone: whatever work the estimate says by now is on no receipt, and needs no price. */
export async function printedIntakeReceipt(c: Context<AppEnv>, estimate: Estimate): Promise<Response> {
  const { job, paperwork: ofRevision, input: whole } = await printable(c, estimate);
  const { map: _, boards: __, toOpen: ___, alreadyOpen: ____, openAtNoCharge: _____, ...input } = whole;
  const { revision: ______, ...paperwork } = ofRevision;
  const visit = { ...input, asOf: job.job.arrivedOn, items: [], kinds: [], offers: [], paperwork };
  const outcome = compute(visit);
  if (!outcome.ok) return refuse(c, "estimate unready", { detail: outcome.problems.map(problemText).join(" ") });
  const at = `${new URL(c.req.url).origin}/jobs/${estimate.jobId}`;
  const printed = await intakeReceiptPdf(outcome.sheet, visit, { logo: await logoOf(c.var.db, paperwork), at });
  return pdfAnswer(c, printed, `intake-receipt-${paperwork.number}`);
}

/** For the shop alone: the estimate and what it may cost the shop. */
export async function printedShopCopy(c: Context<AppEnv>, estimate: Estimate, sheet: Sheet): Promise<Response> {
  const { paperwork, input } = await printable(c, estimate);
  const printed = await shopCopyPdf(withRisk(sheet, input), input, { logo: await logoOf(c.var.db, paperwork) });
  return pdfAnswer(c, printed, `shop-copy-${paperwork.number}-${estimate.revision}`);
}

/**
 * Options the owner took are on it even where the revision had left them out; what the owner left, or struck out, stays on it and is
 * marked. Before anything was issued there is nothing to agree to, and nothing is marked.
 */
export async function printedBenchSheet(c: Context<AppEnv>, estimate: Estimate): Promise<Response> {
  const { job, paperwork, input: whole } = await printable(c, estimate);
  const agreed = job.agreed();
  const taken = [...optionsChosen(estimate), ...(agreed?.agreement.chosen ?? [])];
  const input = { ...withChoices(whole, taken), paperwork };
  const outcome = compute(input);
  if (!outcome.ok) throw new Error(`Estimate ${estimate.id} has a sheet, and none with its options chosen.`);
  const options: BenchOptions = {
    ...(job.current && { unagreed: unagreed(input, agreed?.input, agreed?.agreement.struck) }),
    ...(agreed && { agreed: answerOf(agreed, job.limit()!, job.settings.timeZone) }),
    foundIn: job.foundIn(),
  };
  const printed = await benchSheetPdf(outcome.sheet, input, options);
  return pdfAnswer(c, printed, `bench-sheet-${paperwork.number}-${estimate.revision}`);
}

const optionsChosen = ({ sheet }: Estimate): string[] => (sheet?.options ?? []).flatMap(({ id, chosen }) => (chosen ? [id] : []));

const answerOf = (
  { agreement: { by, at, channel, revision, spoken } }: Agreed,
  limit: Limit,
  zone: string,
): BenchOptions["agreed"] => ({
  ...{ by, at, channel, revision, zone, spoken },
  ...(limit.withTax && { limit: limit.upTo }),
});
