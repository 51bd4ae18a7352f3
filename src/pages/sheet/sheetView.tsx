/** The sheet that explains itself. It shows figures of the engine and adds none. */
import { detailText } from "../../wording/reasons.js";
import { Cautions } from "./cautions.js";
import { Figures } from "./figures.js";
import { IfFound, Options, Suggestions } from "./groups.js";
import { Ledger } from "./ledger.js";
import { Order } from "./order.js";
import type { SheetProps } from "./props.js";
import { Risk } from "./risk/risk.js";
import { Warnings } from "./warnings.js";

export const SheetView = (props: SheetProps & { open?: boolean }) => {
  const { sheet } = props;
  return (
    <div class="sheet">
      <Figures {...props} />
      <Warnings {...props} />
      <Risk {...props} />
      <div class="halves">
        <Ledger {...props} />
        <div>
          <Options {...props} />
          <IfFound {...props} />
          <Suggestions {...props} />
          <Order {...props} />
          <Cautions {...props} />
        </div>
      </div>
      <p class="rests">
        {sheet.detail.access === "none" ? "" : `Access is reckoned ${detailText(sheet.detail.access)}. `}
        {sheet.detail.work === "none" ? "" : `Work is counted ${detailText(sheet.detail.work)}. `}Rates and times from{" "}
        <a href="/rate-book">
          {sheet.rateBook.name}, version {sheet.rateBook.version}
        </a>
        .
      </p>
    </div>
  );
};
