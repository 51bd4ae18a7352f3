/**
 * Issues a draft: freezes it with the paperwork it goes out with, prints it, and keeps the very bytes. The address and the code on
 * the paper are secrets, so they stand in the PDF only and not in the input that is kept.
 */
import { and, eq, isNull } from "drizzle-orm";
import type { PricedSet } from "../estimating/agreement/choices.js";
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput, IsoDate, Paperwork } from "../estimating/input.js";
import { type Unready, unready } from "../estimating/law/unready.js";
import type { Sheet } from "../estimating/sheet.js";
import { answersOf } from "./agreements.js";
import { closedOn } from "./closed.js";
import type { Database, Instant } from "./database.js";
import { type Estimate, estimateHash, estimates, estimatesTable } from "./estimates.js";
import { type Issue, issues, issuesTable } from "./issues.js";
import { tellingOf } from "./keptOnce.js";
import { type LinkSecret, type LinkWanted, newLink } from "./newLink.js";
import { ownerLinksTable } from "./ownerLinks.js";
import { sha256 } from "./sha256.js";
import { type Decided, recorded, shortHead } from "./trail.js";

export interface Outgoing {
  readonly by: string;
  readonly paperwork: Paperwork;
  readonly link: Omit<LinkWanted, "by">;
  /** The whole address of the owner's page, from what stands after its #. */
  readonly address: (fragment: string) => string;
  /** `before`: the revision that this one supersedes. */
  readonly print: (sheet: Sheet, input: EstimateInput, before: PricedSet | undefined) => Promise<Uint8Array>;
}

export type IssueAnswer =
  | { readonly is: "issued"; readonly record: Estimate; readonly issue: Issue; readonly secret: LinkSecret }
  | { readonly is: "missing" }
  /** It was issued before. */
  | { readonly is: "issued already"; readonly current: Estimate }
  | { readonly is: "moved"; readonly current: Estimate }
  /** It has problems, and so no sheet. */
  | { readonly is: "unready"; readonly current: Estimate }
  | { readonly is: "profile unmet"; readonly lacks: readonly Unready[]; readonly input: EstimateInput }
  /** The owner answered an earlier revision while this one was being issued. */
  | { readonly is: "owner answered" }
  /** The job was closed; a new fault is a new job. */
  | { readonly is: "closed"; readonly on: IsoDate };

export async function issue(db: Database, id: string, expectedVersion: number, out: Outgoing, at: Instant): Promise<IssueAnswer> {
  const draft = await estimates.find(db, id);
  if (!draft) return { is: "missing" };
  const { jobId, revision } = draft;
  let answersSeen: number | undefined;

  const answer = await recorded(db, jobId, at, async (head): Promise<Decided<IssueAnswer>> => {
    const current = (await estimates.find(db, id))!;
    if (current.issuedAt) return { answer: { is: "issued already", current } };
    const on = await closedOn(db, jobId);
    if (on) return { answer: { is: "closed", on } };
    if (current.version !== expectedVersion) return { answer: { is: "moved", current } };
    const { length } = await answersOf(db, jobId);
    answersSeen ??= length;
    if (length !== answersSeen) return { answer: { is: "owner answered" } };

    const { link: _, code: __, ...paperwork } = { ...out.paperwork, chainHead: shortHead(head) };
    const input = { ...(await estimates.inputOf(db, current)), paperwork };
    const outcome = compute(input);
    if (!outcome.ok) return { answer: { is: "unready", current } };
    const { sheet } = outcome;
    const lacks = unready(input, sheet);
    if (lacks.length > 0) return { answer: { is: "profile unmet", lacks, input } };

    const link = await newLink({ estimateId: id, jobId }, { ...out.link, by: out.by }, at);
    const onPaper = { ...paperwork, link: out.address(link.secret.fragment), code: link.secret.code };
    const pdf = await out.print(sheet, { ...input, paperwork: onPaper }, await issuedBefore(db, jobId));
    const contentHash = await estimateHash(input, sheet);
    const row: Issue = {
      ...{ id, jobId, at, revision, by: out.by, contentHash, pdfHash: await sha256(pdf) },
      ...{ headNumber: head.number, headHash: head.hash },
    };
    const { rateBook: _book, ...bare } = input;
    const frozen = { input: bare, sheet, contentHash, issuedAt: at, issuedBy: out.by };
    return {
      answer: {
        is: "issued",
        record: { ...current, ...frozen, version: expectedVersion + 1, updatedAt: at },
        issue: row,
        secret: link.secret,
      },
      writes: [
        // Where someone saved the draft meanwhile this finds no row, and a trigger refuses the issue that follows.
        db
          .update(estimatesTable)
          .set({ ...frozen, version: expectedVersion + 1, updatedAt: at })
          .where(and(eq(estimatesTable.id, id), eq(estimatesTable.version, expectedVersion), isNull(estimatesTable.issuedAt))),
        db.insert(issuesTable).values({ ...row, pdf }),
        db.insert(ownerLinksTable).values(link.row),
      ],
      events: [
        { is: "issued", content: { revision, by: out.by, record: await tellingOf("issues", row) } },
        { is: "link made", content: { by: out.by, record: await tellingOf("owner_links", link.row) } },
      ],
    };
  });
  return answer;
}

/** The revision that this one will supersede. */
async function issuedBefore(db: Database, jobId: string): Promise<PricedSet | undefined> {
  const last = (await issues.ofJob(db, jobId)).at(-1);
  const found = last && (await estimates.find(db, last.id));
  return found?.sheet && { input: await estimates.inputOf(db, found), sheet: found.sheet };
}
