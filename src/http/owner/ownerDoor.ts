/** The owner's door: a form of the page that a link opens, carried out as an act; what is wrong comes back on the page, with all that was typed. */
import type { Context } from "hono";
import type { z } from "zod";
import type { Act } from "../../acts/act.js";
import type { Visiting } from "../../acts/answerByLink.js";
import { carryOut } from "../../acts/carryOut.js";
import { fieldErrors, readForm, typedFrom } from "../../acts/readForm.js";
import { ANSWERS, type AnswerName } from "../../acts/refusals.js";
import type { OwnerFault } from "../../pages/owner/view.js";
import type { Issue } from "../../records/issues.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { wantsPage } from "../problems/refuse.js";
import { anew, type Visit } from "./visit.js";
import { wrong } from "./within.js";

const FIELDS: readonly OwnerFault["field"][] = ["name", "answer", "struck", "chosen", "text", "amount"];

interface Door<A> {
  /** The refusal that is about the price shown. */
  readonly amount?: AnswerName;
  /** What a browser gets when it is done. */
  readonly page: () => Response | Promise<Response>;
  /** What a program gets. */
  readonly told: (answer: A) => Promise<readonly [body: unknown, status: 200 | 201]>;
}

export async function ownerDoor<F extends z.ZodObject, A>(
  c: Context<AppEnv>,
  act: Act<F, A, Visiting>,
  visit: Visit,
  issue: Issue,
  fields: URLSearchParams,
  { amount, page, told }: Door<A>,
): Promise<Response> {
  const read = readForm(act.fields, typedFrom(fields), { locale: visit.settings.locale, currency: visit.settings.currency });
  const other: OwnerFault["field"] = act.fields.shape.text ? "text" : "answer";
  const faults = (errors: ReadonlyMap<string, string>): OwnerFault[] =>
    [...errors].map(([name, text]) => ({ field: FIELDS.find((field) => field === name) ?? other, text }));
  if (!read.ok) return wrong(c, visit, issue, fields, "input refused", {}, faults(read.errors));
  const about = { address: c.var.address || undefined, agent: c.req.header("user-agent")?.slice(0, 500) };
  // The same answer, or the same open question, again is the one that stands: no key is wanted.
  const outcome = await carryOut(act, deskOf(c), read.value, { link: visit.link, estimate: issue.id, ...about });
  if (!outcome.ok) {
    const { is, detail = ANSWERS[outcome.refusal.is].title, errors, ...rest } = outcome.refusal;
    const at: OwnerFault["field"] = is === amount ? "amount" : other;
    const why = errors ? faults(fieldErrors(errors, act.fields)) : [{ field: at, text: detail }];
    return wrong(c, await anew(c, visit), issue, fields, is, { detail, ...rest }, why);
  }
  if (wantsPage(c)) return page();
  if ("replayed" in outcome) throw new Error("Nothing is replayed without a key.");
  const [body, status] = await told(outcome.answer);
  return c.json(body as never, status);
}
