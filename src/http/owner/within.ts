/** Who may go on, to which revision, and what a refusal shows: problems for programs, for people the page with all they typed. */
import type { Context } from "hono";
import { ANSWERS, type AnswerName } from "../../acts/refusals.js";
import { type EstimateView, OWNER_PATHS, type OwnerFault } from "../../pages/owner/view.js";
import type { Issue } from "../../records/issues.js";
import { ownersPageIn } from "../../wording/ownersPage.js";
import { day } from "../../wording/time.js";
import { languageOf } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { priceAsked } from "../guard/attempts.js";
import { type RefuseWith, refuse, wantsPage } from "../problems/refuse.js";
import { takeEntry } from "./cookie.js";
import { estimateView, knownChoice } from "./estimateView.js";
import { fieldsOf } from "./fields.js";
import { showView } from "./show.js";
import { typedIn } from "./typed.js";
import { estimateOf, issueSeen, ownerShop, type Visit, visiting } from "./visit.js";

/** A page keeps no more fields than this for another try. */
const KEPT_FIELDS = 500;

/** Counted before a set is priced that the sender chose. The page carries what was typed, and tells no price of another set. */
export async function priced(
  c: Context<AppEnv>,
  { link, settings }: Visit,
  language: string | undefined,
  fields: URLSearchParams,
  then: () => Promise<Response>,
): Promise<Response> {
  const wait = await priceAsked(c, "link", link.id);
  if (wait === 0) return then();
  c.header("retry-after", String(wait));
  if (!wantsPage(c)) return refuse(c, "asked too often");
  const { method, path } = c.req;
  const again = { method: method === "GET" ? "get" : "post", path, fields: [...fields].slice(0, KEPT_FIELDS) } as const;
  return showView(c, { is: "wait", language: languageOf(language), shop: ownerShop(settings), wait, again }, 429);
}

/** Only for whoever holds a live link. */
export async function within(c: Context<AppEnv>, inside: (visit: Visit) => Promise<Response>): Promise<Response> {
  const at = await visiting(c);
  if (at.is === "in") return inside(at.visit);
  if (at.is === "gone") {
    takeEntry(c);
    return wantsPage(c) ? showView(c, at.view, 410) : refuse(c, "link dead");
  }
  return wantsPage(c) ? c.redirect(OWNER_PATHS.home, 303) : refuse(c, "owner link wanted");
}

export const withForm = (
  c: Context<AppEnv>,
  inside: (visit: Visit, issue: Issue, fields: URLSearchParams) => Promise<Response>,
) =>
  within(c, async (visit) => {
    const fields = await fieldsOf(c);
    const issue = issueSeen(visit, { hash: fields.get("hash") ?? "" });
    // Sent from a page of another estimate than this browser opened last.
    if (!issue) return wantsPage(c) ? c.redirect(`${OWNER_PATHS.estimate}?said=other`, 303) : refuse(c, "content differs");
    const { language } = estimateOf(visit, issue).input.paperwork ?? {};
    return priced(c, visit, language, fields, () => inside(visit, issue, fields));
  });

export function seen(c: Context<AppEnv>, visit: Visit): Issue | undefined {
  const revision = c.req.query("revision");
  return issueSeen(visit, revision === undefined ? {} : { revision: Number(revision) });
}

/** Problems for programs; for people the page again, with all they typed and what to put right. */
export async function wrong(
  c: Context<AppEnv>,
  visit: Visit,
  issue: Issue,
  fields: URLSearchParams,
  name: AnswerName,
  said: RefuseWith,
  faults: readonly OwnerFault[],
): Promise<Response> {
  if (!wantsPage(c)) {
    const errors = faults.map(({ field, text }) => ({ pointer: `/${field}`, name, detail: text }));
    return refuse(c, name, { ...(name === "input refused" && { errors }), detail: faults[0]!.text, ...withoutRecord(said) });
  }
  const choice = knownChoice(visit, issue, fields);
  const { status } = ANSWERS[name];
  const { refused } = ownersPageIn(estimateOf(visit, issue).input.paperwork?.language);
  const told = faults.map(({ field, text }) => ({ field, text: refused[name === "input refused" ? field : name] ?? text }));
  const view = await estimateView(c, visit, issue, choice, { ...typedIn(fields), wrong: told });
  const answers = faults.some(({ field }) => field !== "text");
  return showView(c, answers && view.answer ? notTaken(view) : view, status as 409 | 422 | 429);
}

/** The page of a revision that takes no answer, or not this one, which says why beside the record. */
export function notTaken(view: EstimateView): EstimateView {
  const { frame, standing } = ownersPageIn(view.language);
  const { state, answer, paper, tongue } = view;
  const text = answer
    ? frame.answered(standing.answers[answer.answer], standing.by(answer.by, standing.channels[answer.channel], answer.at))
    : state.is === "superseded"
      ? `${standing.replaced(state.revision)} ${standing.notAnyMore}`
      : `${standing.ended(day(paper.validUntil, tongue.locale))}${standing.afterEnd}`;
  return { ...view, wrong: [{ field: "answer", text }] };
}

/** The record itself holds what is the shop's: the address of an answer, for one. */
const withoutRecord = ({ current: _, ...said }: RefuseWith): RefuseWith => said;
