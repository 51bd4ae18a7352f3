/** What became of an entry of the bench page. */

import type { AnswerName } from "../../acts/refusals.js";
import type { EntryRefused, LimitRefusal } from "../../records/logRefusal.js";
import { problemText } from "../../wording/problem.js";
import type { Tongue } from "../../wording/tongue.js";
import { entryRefused, limitRefused } from "../limits.js";
import { fieldErrors } from "./fieldErrors.js";

export type Made =
  | { readonly is: "kept"; readonly act: string; readonly at?: string }
  | { readonly is: "wrong"; readonly errors: ReadonlyMap<string, string>; readonly refused?: EntryRefused }
  | { readonly is: "refused"; readonly name: AnswerName; readonly text: string; readonly overridable: boolean };

export type Outcome =
  | EntryRefused
  | LimitRefusal
  | { readonly is: "missing" | "not running" }
  | { readonly is: "logged" | "started" | "kept" };

interface Asked {
  readonly act: string;
  readonly tongue: Tongue;
  /** Entry's own name -> field of the form. */
  readonly names: Readonly<Record<string, string>>;
  readonly anchor?: string;
}

export function madeOf(outcome: Outcome, { act, tongue, names, anchor }: Asked): Made {
  switch (outcome.is) {
    case "logged":
    case "started":
    case "kept":
      return { is: "kept", act, ...(anchor && { at: anchor }) };
    case "missing":
      return { is: "refused", name: "not found", text: "There is no such job any more.", overridable: false };
    case "not running":
      return {
        is: "refused",
        name: "no timer running",
        text: "No timer of yours runs on this job, so there is nothing to pause.",
        overridable: false,
      };
    case "refused": {
      const [name] = entryRefused(outcome);
      if (name === "job closed")
        return { is: "refused", name, text: outcome.problems.map(problemText).join(" "), overridable: false };
      return { is: "wrong", errors: fieldErrors(outcome, { person: "by", ...names }), refused: outcome };
    }
    default: {
      const [name, { detail }] = limitRefused(outcome, tongue);
      return { is: "refused", name, text: detail, overridable: act !== "start" && act !== "tick" };
    }
  }
}
