/** The figures that the chosen pricing does not use are hidden by the style sheet, where the browser can. */

import type { Options } from "../frame/field.js";
import { Choice, Text } from "./field.js";
import type { IntakeView } from "./view.js";

const PRICINGS: Options = [
  ["", "As counted: likely times, nothing found"],
  ["fixed price", "Fixed price that covers most such jobs"],
  ["time and parts with ceiling", "Time and parts, with a ceiling that covers most such jobs"],
  ["expected cost plus", "Fixed price: expected cost plus a margin"],
];

export const PricingPart = ({ view }: { view: IntakeView }) => (
  <div class="columns pricing">
    <Choice view={view} name="terms.pricing" options={PRICINGS} />
    <div class="pricing-confidence">
      <Text view={view} name="terms.confidence" hint="80: a price that covers 8 jobs in 10." size="money" />
    </div>
    <div class="pricing-margin">
      <Text view={view} name="terms.margin" size="money" />
    </div>
    <div class="pricing-least">
      <Text
        view={view}
        name="terms.leastMargin"
        hint="Left of the price over the expected cost. Empty: none is asked for."
        size="money"
      />
    </div>
  </div>
);
