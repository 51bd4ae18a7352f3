/** Priced beside the total: what the owner may choose, what may be found, what is worth doing while it is open. */

import type { GroupPrice } from "../../estimating/sheet.js";
import { chance, money } from "../../wording/figures.js";
import { duration } from "../../wording/time.js";
import { figure, Heads } from "../frame/table.js";
import type { SheetProps } from "./props.js";

export const Options = ({ sheet, tongue }: SheetProps) =>
  sheet.options.length === 0 ? null : (
    <section class="extras">
      <h3>Your choice</h3>
      <p class="hint">Each price is what the total changes by, everything else as chosen.</p>
      <table class="lines">
        <caption class="unseen">Options</caption>
        <Head third="Price" />
        <tbody>
          {sheet.options.map((option) => (
            <tr>
              <td>
                <Named group={option} />
                <span class={option.chosen ? "tag tag-on" : "tag"}>{option.chosen ? "chosen, in the total" : "not chosen"}</span>
              </td>
              <td class="figure">{duration(option.minutes, tongue.locale)}</td>
              <td class="figure">{money(option.price, tongue)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

export const IfFound = ({ sheet, tongue }: SheetProps) =>
  sheet.ifFound.length === 0 ? null : (
    <section class="extras">
      <h3>If found</h3>
      <p class="hint">
        {sheet.ifFound.some(({ covered }) => covered)
          ? "Agreed in advance; the fixed price covers it, so the owner pays no more."
          : "Agreed in advance, charged only if needed; not in the total."}
      </p>
      <table class="lines">
        <caption class="unseen">If found</caption>
        <Head third="On top" />
        <tbody>
          {sheet.ifFound.map((found) => (
            <tr>
              <td>
                <Named group={found} />
                {found.probability === undefined ? null : (
                  <span class="tag">chance {chance(found.probability, tongue.locale)}</span>
                )}
              </td>
              <td class="figure">{duration(found.minutes, tongue.locale)}</td>
              <td class="figure">{found.covered ? "covered" : money(found.price, tongue)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

export const Suggestions = ({ sheet, tongue, input }: SheetProps) =>
  sheet.suggestions.length === 0 ? null : (
    <section class="extras">
      <h3>Worth doing while it is open</h3>
      <table class="lines">
        <caption class="unseen">Suggestions, now and at a later visit</caption>
        <Heads of={["What", figure("Now"), figure("Later")]} />
        <tbody>
          {sheet.suggestions.map(({ assembly, operation, count, partType, reason, now, later }) => (
            <tr>
              <td>
                {assembly.name}: {operation.name}
                {partType ? ` ${input.rateBook.partTypes.find(({ id }) => id === partType)?.name.toLowerCase() ?? partType}` : ""}{" "}
                × {count}
                <span class="why"> {reason}</span>
              </td>
              <td class="figure">{money(now, tongue)}</td>
              <td class="figure">{money(later, tongue)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

const Head = ({ third }: { third: string }) => <Heads of={["What", figure("Time"), figure(third)]} />;

const Named = ({ group }: { group: GroupPrice }) => (
  <>
    {group.names.map((name, index) => (
      <>
        {index > 0 ? <br /> : null}
        {name}
      </>
    ))}
    {group.reason ? <span class="why"> {group.reason}</span> : null}{" "}
  </>
);
