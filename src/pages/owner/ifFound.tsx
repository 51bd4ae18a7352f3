import { chance, money } from "../../wording/figures.js";
import type { EstimateView } from "./view.js";

export const IfFound = ({ view: { sheet, tongue } }: { view: EstimateView }) =>
  sheet.ifFound.length === 0 ? null : (
    <section id="if-found" data-follows aria-labelledby="if-found-name">
      <h2 id="if-found-name">What we may find</h2>
      <p class="hint">
        {sheet.ifFound.every(({ covered }) => covered)
          ? "The fixed price covers it: it is done when it proves necessary, and you pay no more for it."
          : "Not in the total. Agreeing covers it: it is done and charged only if it proves necessary, and never past the ceiling."}
      </p>
      <ul class="rows">
        {sheet.ifFound.map(({ names, reason, price, covered, probability }) => (
          <li class="entry">
            <span class="entry-name">
              {names.join("; ")}
              {reason ? <span class="why"> {reason}</span> : null}{" "}
              {probability === undefined ? null : <span class="tag">chance {chance(probability, tongue.locale)}</span>}
            </span>
            <span class="entry-amount">{covered ? "covered" : money(price, tongue)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
