import { cautionAlone, DEFER } from "../../wording/caution.js";
import { capital } from "../../wording/list.js";
import type { SheetProps } from "./props.js";

export const Cautions = ({ sheet, unfolded = false }: SheetProps & { unfolded?: boolean }) =>
  sheet.hazards.length === 0 ? null : (
    <details class="cautions" id="cautions" open={unfolded}>
      <summary>Cautions at the bench ({sheet.hazards.length})</summary>
      <dl>
        {sheet.hazards.map(({ hazard, from }) => (
          <>
            <dt>
              {capital(hazard)}
              <span class="hint"> {from.join(", ")}</span>
            </dt>
            <dd>{cautionAlone(hazard)}</dd>
          </>
        ))}
      </dl>
      <p>{DEFER}</p>
    </details>
  );
