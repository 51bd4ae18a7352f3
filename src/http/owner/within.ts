/** Who may go on, to which revision, and what a refusal shows: problems for programs, for people the page with all they typed. */
import type { Context } from "hono";
import { ANSWERS, type AnswerName } from "../../acts/refusals.js";
import { OWNER_PATHS, type OwnerFault } from "../../pages/owner/view.js";
import type { Issue } from "../../records/issues.js";
import { ownersPageIn } from "../../wording/ownersPage.js";
import type { AppEnv } from "../bindings.js";
import { type RefuseWith, refuse, wantsPage } from "../problems/refuse.js";
import { takeEntry } from "./cookie.js";
import { estimateView, knownChoice } from "./estimateView.js";
import { fieldsOf } from "./fields.js";
import { showView } from "./show.js";
import { typedIn } from "./typed.js";
import { estimateOf, issueSeen, type Visit, visiting } from "./visit.js";

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
    return issue ? inside(visit, issue, fields) : refuse(c, "content differs");
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
  return showView(c, view, status as 409 | 422 | 429);
}

/** The record itself holds what is the shop's: the address of an answer, for one. */
const withoutRecord = ({ current: _, ...said }: RefuseWith): RefuseWith => said;
