/** Parts of an estimate that are not new, for the notice that some profiles ask for. */
import type { EstimateInput, OfferState } from "../input.js";
import type { Sheet } from "../sheet.js";

const NOT_NEW: ReadonlySet<OfferState> = new Set(["used", "donor pull"]);

/** Names, each once, in print order. */
export function usedParts({ offers = [] }: EstimateInput, { lines }: Sheet): string[] {
  const notNew = new Set(offers.filter(({ state }) => NOT_NEW.has(state)).map(({ id }) => id));
  const names = lines.flatMap(({ part, from }) =>
    part && from.some((source) => source.is === "offer" && notNew.has(source.id)) ? [part.name] : [],
  );
  return [...new Set(names)];
}
