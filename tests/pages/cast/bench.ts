/** The demo shop's bench, as a form sees it. */
import { readFileSync } from "node:fs";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { FormContext } from "../../../src/pages/form/context.js";

export const demoInput = (name: string): EstimateInput =>
  JSON.parse(readFileSync(new URL(`../../../fixtures/demo/${name}.json`, import.meta.url), "utf8"));

export const DEMOS = ["string-organ-keyboard", "tape-echo", "valve-amplifier", "plain-counts"] as const;

export function contextOf(input: EstimateInput, locale = "en-GB"): FormContext {
  const { owner: _, ...paperwork } = input.paperwork ?? {};
  const { rateBook, currency, kinds = [], offers = [], exchange = [] } = input;
  return { today: "2026-11-25", locale, currency, rateBook, kinds, offers, exchange: { kept: exchange, known: [] }, paperwork };
}

export const bench = contextOf(demoInput("string-organ-keyboard"));
