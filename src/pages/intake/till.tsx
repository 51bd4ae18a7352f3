/** The strip that stays in sight: the total as it stands, and what to do with it. */

import { money } from "../../wording/figures.js";
import { isOpen } from "../form/open.js";
import type { IntakeView } from "./view.js";

export const Till = ({ view }: { view: IntakeView }) => (
  <>
    <p class="actions">
      Print what is here now, saved or not:
      <button type="submit" formaction="/estimates/bench-preview.pdf" formtarget="_blank" class="quiet" data-leaves>
        Bench sheet
      </button>
      <button type="submit" formaction="/estimates/shop-preview.pdf" formtarget="_blank" class="quiet" data-leaves>
        Shop's copy
      </button>
      {isOpen(view.open, "all") ? null : (
        <button type="submit" name="intent" value="open:all" class="quiet no-script">
          Show the whole form
        </button>
      )}
    </p>
    <div class="till">
      <p class="till-now">
        <a href="#sheet" class="to-sheet">
          <output id="total-now" for="intake" class="till-total">
            <TotalNow view={view} />
          </output>{" "}
          <span class="till-long">How it adds up</span>
        </a>
        <span role="status" id="saved-at" class="hint" />
      </p>
      <p class="till-buttons">
        <button type="submit" name="intent" value="recalculate" class="quiet no-script">
          Recalculate
        </button>
        <button type="submit" formaction="/estimates/preview.pdf" formtarget="_blank" class="quiet" data-leaves>
          PDF
        </button>
        <button type="submit" name="intent" value="save" class="primary" data-save>
          Save{view.surroundings.saved ? "" : <span class="till-long"> the estimate</span>}
        </button>
      </p>
    </div>
  </>
);

export const TotalNow = ({ view }: { view: IntakeView }) => {
  const { sheet, complaints, context } = view;
  const price = sheet ? money(sheet.totals.total, context) : undefined;
  return (
    <>
      {price === undefined ? null : (
        <>
          <span class="till-name">Total</span> <strong>{price}</strong>
        </>
      )}
      {complaints.length === 0 ? null : (
        <span class="till-open">
          {" "}
          {price === undefined ? null : <span class="till-long">without </span>}
          {complaints.length}
          <span class="till-long"> {complaints.length === 1 ? "entry" : "entries"}</span> to correct
        </span>
      )}
    </>
  );
};
