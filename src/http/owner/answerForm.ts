/** What the owner typed and ticked: an answer, or what to put right first. */
import type { EstimateView, OwnerFault } from "../../pages/owner/view.js";
import { ANSWERS_GIVEN, type AnswerGiven } from "../../records/agreements.js";
import type { AnswerSent } from "../answering.js";
import type { Extras } from "./estimateView.js";
import { choiceIn } from "./fields.js";

export const MOST_NAME = 200;
export const MOST_QUESTION = 2000;
export const NO_NAME = "Type your name: it is put on record with your answer.";

export const typedIn = (fields: URLSearchParams): Extras & { typed: NonNullable<EstimateView["typed"]> } => ({
  typed: {
    ...(fields.has("name") && { name: fields.get("name")!.slice(0, MOST_NAME) }),
    ...(fields.has("text") && { question: fields.get("text")!.slice(0, MOST_QUESTION) }),
  },
});

type AnswerRead = Pick<AnswerSent, "answer" | "by" | "shown" | "chosen" | "struck">;

export function answerIn(fields: URLSearchParams): { readonly answer: AnswerRead } | { readonly wrong: readonly OwnerFault[] } {
  const [answer, by, amount] = [fields.get("answer"), (fields.get("name") ?? "").trim(), fields.get("amount") ?? ""];
  const known = ANSWERS_GIVEN.find((each) => each === answer);
  const faults: OwnerFault[] = [
    ...(known ? [] : [{ field: "answer" as const, text: "Choose one of the three answers." }]),
    ...textFaults("name", by, MOST_NAME, NO_NAME),
    ...(known === "declined" || /^-?\d{1,15}$/.test(amount)
      ? []
      : [{ field: "amount" as const, text: "The page did not say which price it showed; look at it again, then answer." }]),
  ];
  if (faults.length > 0) return { wrong: faults };
  return {
    answer: { answer: known as AnswerGiven, by, shown: known === "declined" ? undefined : Number(amount), ...choiceIn(fields) },
  };
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/;

export function textFaults(field: "name" | "text", text: string, most: number, empty: string): OwnerFault[] {
  if (text === "") return [{ field, text: empty }];
  if (text.length > most) return [{ field, text: `This has ${text.length} characters; ${most} at most, please.` }];
  return CONTROL.test(text) || (field === "name" && text.includes("\n"))
    ? [{ field, text: "A control character got into this; take it out." }]
    : [];
}
