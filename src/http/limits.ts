/** Refusals to pass what the owner agreed to, as problems. */
import type { LimitRefusal } from "../records/logWork.js";
import { logRefusalText, type Tongue } from "../wording/index.js";
import type { AnswerName } from "./problems/catalogue.js";

export function limitRefused(
  refusal: LimitRefusal,
  tongue: Tongue,
): readonly [name: AnswerName, said: { readonly detail: string }] {
  if (refusal.is === "not agreed") {
    const said = logRefusalText({ is: "not agreed", item: "", why: refusal.why }, true, tongue);
    return ["work unagreed", { detail: said! }];
  }
  const amount = { total: 0, withoutTax: 0 };
  const said = logRefusalText({ is: "above limit", amount, by: refusal.by }, refusal.withTax, tongue);
  return ["limit passed", { detail: said! }];
}
