/** The strip that stays in sight: the total as it stands, and what to do with it. */

import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
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
        <output id="total-now" for="intake" class="till-total">
          <TotalNow view={view} />
        </output>
        <a href="#sheet" class="to-sheet">
          How it adds up
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
          {view.surroundings.saved ? "Save" : "Save the estimate"}
        </button>
      </p>
    </div>
  </>
);

export const TotalNow = ({ view }: { view: IntakeView }) => {
  const { sheet, complaints, context } = view;
  const price = sheet ? money(sheet.totals.total, context) : undefined;
  const open = complaints.length === 0 ? "" : `${counted(complaints.length, "entry", "entries")} to put right`;
  return (
    <>
      {price === undefined ? null : (
        <>
          <span class="till-name">Total</span> <strong>{price}</strong>
        </>
      )}
      {open ? (
        <span class="till-open">
          {" "}
          {price === undefined ? "" : "without "}
          {open}
        </span>
      ) : null}
    </>
  );
};
