import { warningText } from "../../wording/reasons.js";
import type { SheetProps } from "./props.js";

export const Warnings = ({ sheet, tongue }: SheetProps) =>
  sheet.warnings.length === 0 ? null : (
    <section class="warnings" aria-labelledby="warnings-name">
      <h3 id="warnings-name">Please note</h3>
      <ul>
        {sheet.warnings.map((warning) => (
          <li class={`warning warning-${warning.is.replaceAll(" ", "-")}`}>{warningText(warning, tongue)}</li>
        ))}
      </ul>
    </section>
  );
