/** What the owner typed, so that nothing is lost when the page comes back. */
import type { EstimateView } from "../../pages/owner/view.js";
import type { Extras } from "./estimateView.js";

const MOST_NAME = 200;
const MOST_QUESTION = 2000;

export const typedIn = (fields: URLSearchParams): Extras & { typed: NonNullable<EstimateView["typed"]> } => ({
  typed: {
    ...(fields.has("name") && { name: fields.get("name")!.slice(0, MOST_NAME) }),
    ...(fields.has("text") && { question: fields.get("text")!.slice(0, MOST_QUESTION) }),
  },
});
