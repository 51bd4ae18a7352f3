import type { EstimateInput, OfferState } from "../estimating/input.js";
import type { Line } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Tongue } from "./tongue.js";
import { whyText } from "./why.js";

/** What the owner should read under a line: why an assembly comes off, why the work is done, why a charge is made. How the minutes came about stays with the shop. */
export function lineNote(line: Line, input: EstimateInput, tongue: Tongue): string | undefined {
  if (line.sort === "part") return stateOf(line, input.offers ?? [], tongue);
  if (line.why && !["worked", "leads", "each"].includes(line.why.rule)) return whyText(line.why, tongue);
  const item = line.from.find((source) => source.is === "item");
  return item && input.items.find(({ id }) => id === item.id)?.reason;
}

function stateOf(
  line: Line,
  offers: readonly { readonly id: string; readonly state: OfferState }[],
  { words = english }: Tongue,
): string | undefined {
  const states = line.from.flatMap((source) =>
    source.is === "offer" ? (offers.find(({ id }) => id === source.id)?.state ?? []) : [],
  );
  return [...new Set(states)].flatMap((state) => words.lines.states[state] ?? []).join("; ") || undefined;
}
