import { GIVE_EMAIL } from "../../wording/email.js";
import { notListedText, short, unknownNameText } from "../../wording/named.js";
import type { FormContext } from "./context.js";
import type { Draft } from "./draft.js";
import { labelOf } from "./label.js";

/** What can be wrong with the text of a form before it is an input. `field` is the name of the field it stands in. */
interface In {
  readonly field: string;
}

export type FormProblem = In &
  (
    | { readonly name: "figure wrong"; readonly why: string }
    | { readonly name: "missing" }
    | { readonly name: "name unknown"; readonly text: string; readonly known: readonly string[] }
    | { readonly name: "work unknown"; readonly text: string; readonly known: readonly string[] }
    | { readonly name: "part unknown"; readonly text: string; readonly known: readonly string[] }
    | { readonly name: "not of this"; readonly of: "own work" | "own part" | "known part" | "kept" }
    | { readonly name: "choice unknown"; readonly text: string }
    | { readonly name: "e-mail unreadable"; readonly text: string }
    | { readonly name: "line break" }
    | { readonly name: "control character" }
    | { readonly name: "reason missing" }
    | { readonly name: "too long"; readonly length: number; readonly limit: number }
  );

/** What is wrong with a field, why, and what to do, in one sentence. */
type Say = { readonly [N in FormProblem["name"]]: (problem: Extract<FormProblem, { name: N }>) => string };

const SAY: Say = {
  "figure wrong": ({ why }) => why,
  missing: () => "nothing is given, and it cannot be worked out; fill it in.",
  "name unknown": ({ text, known }) => unknownNameText(text, known),
  "work unknown": ({ text, known }) => notListedText(text, known, "in the rate book", "give its minutes or a price"),
  "part unknown": ({ text, known }) =>
    notListedText(text, known, "in the catalogue or the rate book", "give what one costs, or tick that the owner brings it"),
  "not of this": ({ of }) => NOT_OF_THIS[of],
  "choice unknown": ({ text }) => `'${short(text)}' is not one of the choices; choose again.`,
  "e-mail unreadable": ({ text }) => `'${short(text)}' is not an address; ${GIVE_EMAIL}.`,
  "line break": () => "the text holds a line break or another control character; write it in one line.",
  "control character": () => "the text holds a control character, which no document can print; type it again.",
  "reason missing": () => "a discount is printed with its reason; say why it is given.",
  "too long": ({ length, limit }) => `the text has ${length} characters, and ${limit} is the most; shorten it.`,
};

const NOT_OF_THIS = {
  "own work": "only work in your own words says this; the rate book says it of work that it has. Empty it, or name other work.",
  "own part":
    "only a part in your own words says this; the catalogue and the rate book say it of parts that they have. Empty it, or name another part.",
  "known part": "only another price for a part that is listed wants a reason; empty it, or name a listed part.",
  kept: "this line has neither work nor a part in your own words, so it is on the lists already; untick it.",
} as const;

export const formProblemText = (problem: FormProblem, draft: Draft, context: FormContext): string =>
  `${labelOf(problem.field, draft, context)}: ${(SAY[problem.name] as (problem: FormProblem) => string)(problem)}`;
