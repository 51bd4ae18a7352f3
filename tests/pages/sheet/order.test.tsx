import { expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import { Order } from "../../../src/pages/sheet/order.js";
import { demoInput } from "../cast/bench.js";

it("the order of removal counts its steps, one by its own word", () => {
  const input = demoInput("string-organ-keyboard");
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error("The demo has problems.");
  const { access } = outcome.sheet;
  const said = (removal: typeof access.removal) =>
    String(
      <Order
        sheet={{ ...outcome.sheet, access: { ...access, removal } }}
        input={input}
        tongue={{ locale: "en-GB", currency: "GBP" }}
      />,
    );
  expect(said(access.removal)).toContain(`Removal, ${access.removal.length} steps`);
  expect(said(access.removal.slice(0, 1))).toContain("Removal, 1 step<");
});
