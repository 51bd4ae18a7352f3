/** Putting an answer on record, from the owner's page and from the shop, and what to say when it cannot be. */
import type { Context } from "hono";
import type { AnswerName } from "../acts/refusals.js";
import { today } from "../acts/today.js";
import { type AnswerOutcome, answer } from "../records/answer.js";
import type { AnswerRefusal, Given } from "../records/answerRefusal.js";
import { estimates } from "../records/estimates.js";
import { shopSettings } from "../records/settings.js";
import { ownerAnswerText, spokenFieldText } from "../wording/agreement.js";
import { money } from "../wording/figures.js";
import { day } from "../wording/time.js";
import type { AppEnv } from "./bindings.js";
import type { RefuseWith } from "./problems/refuse.js";

export type AnswerSent = Omit<Given, "zone" | "today" | "wording">;

export async function answering(c: Context<AppEnv>, id: string, sent: AnswerSent): Promise<AnswerOutcome> {
  const { db } = c.var;
  const estimate = await estimates.find(db, sent.estimateId);
  if (!estimate) return { is: "missing" };
  const [shop, input] = [await shopSettings(db), await estimates.inputOf(db, estimate)];
  const now = c.var.clock();
  const tongue = { locale: input.paperwork?.locale ?? shop.locale, currency: input.currency };
  const given: Given = {
    ...sent,
    zone: shop.timeZone,
    today: today(now, shop.timeZone),
    wording: ({ sheet }, earlier) => ownerAnswerText({ answer: sent.answer, input, sheet, struck: sent.struck, earlier }, tongue),
  };
  return answer(db, id, given, now.toISOString());
}

/** The problem that tells of a refusal. */
export function answerRefused(
  refusal: AnswerRefusal,
  { locale, currency }: { readonly locale: string; readonly currency: string },
): readonly [name: AnswerName, said: RefuseWith] {
  const cash = (amount: number) => money(amount, { locale, currency });
  const fault = (pointer: string, name: string, detail: string) => ({ errors: [{ pointer, name, detail }] });
  switch (refusal.is) {
    case "missing":
      return ["not found", { detail: "There is no such estimate." }];
    case "not issued":
      return ["estimate not issued", {}];
    case "closed":
      return ["job closed", { detail: `The job was closed on ${day(refusal.on, locale)}, and its account is final.` }];
    case "other content":
      return ["content differs", {}];
    case "superseded":
      return ["revision superseded", { detail: `Revision ${refusal.current.revision} is current; answer that one.` }];
    case "lapsed":
      return ["revision lapsed", { detail: `It was good until ${day(refusal.until, locale)}. Ask the shop for a new one.` }];
    case "answered already":
      return [
        "answered already",
        {
          detail: `${refusal.current.by} ${refusal.current.answer} on ${refusal.current.at}. Ask the shop to put a correction on record.`,
          current: refusal.current,
        },
      ];
    case "nothing to correct":
      return ["nothing to correct", refusal.current ? { current: refusal.current } : {}];
    case "unknown":
      return [
        "input refused",
        fault(
          `/${refusal.field}`,
          "record unknown",
          `'${refusal.id}' is not ${refusal.field === "chosen" ? "an option" : "work that can be left out"} of this revision.`,
        ),
      ];
    case "answer and set differ":
      return ["input refused", fault("/answer", refusal.is, SET_DIFFERS[refusal.left])];
    case "price differs":
      return [
        "price differs",
        {
          detail: `It comes to ${cash(refusal.total)}, tax included, and ${cash(refusal.shown)} was shown. Look at it again, then answer.`,
        },
      ];
    case "spoken items missing":
      return [
        "input refused",
        {
          errors: refusal.fields.map((field) => ({
            pointer: `/spoken/${field}`,
            name: "spoken item missing",
            detail: `${spokenFieldText(field)} is missing; a spoken agreement is recorded with all its particulars.`,
          })),
        },
      ];
    case "writing missing":
      return [
        "input refused",
        fault(
          "/writing",
          refusal.is,
          "Say which writing the answer rests on, such as the paper signed at the counter, or give the particulars of a spoken one.",
        ),
      ];
    case "additional cost differs":
      return [
        "input refused",
        fault(
          "/spoken/additionalCost",
          refusal.is,
          `This answer agrees to ${cash(refusal.expected)} more; the owner must have been told that amount.`,
        ),
      ];
  }
}

const SET_DIFFERS = {
  all: "Nothing is left out; say which work is not to be done, or agree to all of it.",
  some: "Some work is left out; that is agreeing in part.",
  none: "All work is left out; that is declining.",
} as const;
