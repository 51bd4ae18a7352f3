/** Issuing a draft, from the API and from the pages: its paperwork, its link and its PDF. */

import type { Context } from "hono";
import { estimatePdf } from "../documents/estimatePdf.js";
import type { PricedSet } from "../estimating/agreement/choices.js";
import type { EstimateInput } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import type { Estimate } from "../records/estimates.js";
import { type IssueAnswer, issue } from "../records/issue.js";
import { shopSettings } from "../records/settings.js";
import type { AppEnv } from "./bindings.js";
import { logoOf } from "./logo.js";
import { paperworkOf } from "./paperwork.js";
import { photosOnPaper } from "./photos/onPaper.js";

export const ON_PAPER = "on paper";

export interface IssueWanted {
  readonly by: string;
  readonly deliveredTo?: string;
  readonly linkDays?: number;
}

/** A photo that was chosen for the paper cannot be printed. */
export interface PhotosUnfit {
  readonly is: "photos unfit";
  readonly detail: string;
}

/** `draft` as it was seen: if it is another by now, nothing is issued. */
export async function issueDraft(
  c: Context<AppEnv>,
  draft: Estimate,
  { by, deliveredTo = ON_PAPER, linkDays }: IssueWanted,
): Promise<IssueAnswer | PhotosUnfit> {
  const now = c.var.clock();
  const paperwork = await paperworkOf(c.var.db, draft, now);
  const shown = await photosOnPaper(c, draft.jobId, paperwork.photos);
  if (!shown.ok) return { is: "photos unfit", detail: shown.faults.map(({ text }) => text).join(" ") };
  const logo = await logoOf(c.var.db, paperwork);
  const out = {
    by,
    paperwork,
    link: { deliveredTo, expiresAt: expiry(now, linkDays ?? (await shopSettings(c.var.db)).linkDays) },
    address: (fragment: string) => ownerAddress(c, fragment),
    print: async (sheet: Sheet, input: EstimateInput, before: PricedSet | undefined) =>
      (await estimatePdf(sheet, input, { earlier: before && earlierOf(before), logo, photos: shown.pictures })).bytes,
  };
  return issue(c.var.db, draft.id, draft.version, out, now.toISOString());
}

/** What the new paper says it replaces. */
const earlierOf = ({ input, sheet }: PricedSet) => {
  const { number, revision, date } = input.paperwork ?? {};
  return { input, sheet, number, revision, date };
};

/** The secret stands after the #, so that no server, log or referrer is ever told it. */
export const ownerAddress = (c: Context<AppEnv>, fragment: string): string => `${c.var.origin}/o#${fragment}`;

export const expiry = (now: Date, days: number): string => new Date(now.getTime() + days * 24 * 3_600_000).toISOString();
