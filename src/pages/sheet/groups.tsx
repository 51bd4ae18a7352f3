/** Priced beside the total: what the owner may choose, what may be found, what is worth doing while it is open. */

import type { GroupPrice } from "../../estimating/sheet.js";
import { chance, money } from "../../wording/figures.js";
import { duration } from "../../wording/time.js";
import { figures, Table } from "../frame/table.js";
import type { SheetProps } from "./sources.js";

export const Options = ({ sheet, tongue }: SheetProps) =>
  sheet.options.length === 0 ? null : (
    <section class="extras">
      <h3>Your choice</h3>
      <p class="hint">Each price is what the total changes by, everything else as chosen.</p>
      <Table
        class="lines"
        caption="Options"
        heads={["What", ...figures("Time", "Price")]}
        rows={sheet.options.map((option) => [
          <>
            <Named group={option} />
            <span class={option.chosen ? "tag tag-on" : "tag"}>{option.chosen ? "chosen, in the total" : "not chosen"}</span>
          </>,
          duration(option.minutes, tongue.locale),
          money(option.price, tongue),
        ])}
      />
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
      <Table
        class="lines"
        caption="If found"
        heads={["What", ...figures("Time", "On top")]}
        rows={sheet.ifFound.map((found) => [
          <>
            <Named group={found} />
            {found.probability === undefined ? null : <span class="tag">chance {chance(found.probability, tongue.locale)}</span>}
          </>,
          duration(found.minutes, tongue.locale),
          found.covered ? "covered" : money(found.price, tongue),
        ])}
      />
    </section>
  );

/** `add`: where the sheet stands beside the form, a button of each puts its line in. */
export const Suggestions = ({ sheet, tongue, input, add = false }: SheetProps & { add?: boolean }) =>
  sheet.suggestions.length === 0 ? null : (
    <section class="extras">
      <h3>Worth doing while it is open</h3>
      <Table
        class="lines"
        caption="Suggestions, now and at a later visit"
        heads={["What", ...figures("Now", "Later")]}
        rows={sheet.suggestions.map(({ assembly, operation, count, partType, reason, now, later }) => [
          <>
            {assembly.name}: {operation.name}
            {partType ? ` ${input.rateBook.partTypes.find(({ id }) => id === partType)?.name.toLowerCase() ?? partType}` : ""} ×{" "}
            {count}
            <span class="why"> {reason}</span>
            {add ? (
              <button
                type="submit"
                form="intake"
                name="intent"
                value={`add worth doing:${[assembly.id, operation.id, count, partType ?? ""].map((one) => encodeURIComponent(one)).join(":")}`}
                class="quiet"
                aria-label={`Add: ${assembly.name}, ${operation.name}`}
              >
                Add
              </button>
            ) : null}
          </>,
          money(now, tongue),
          money(later, tongue),
        ])}
      />
    </section>
  );

/** Offered where the sheet stands beside the form: its button takes one in. */
export const Companions = ({ sheet }: SheetProps) =>
  !sheet.companions ? null : (
    <section class="extras companions" aria-labelledby="companions-name">
      <h3 id="companions-name">Usually goes with it</h3>
      <ul>
        {sheet.companions.map(({ operation, reason }) => (
          <li>
            <button type="submit" form="intake" name="intent" value={`add line:${operation.name}`} class="quiet">
              Add: {operation.name}
            </button>
            <span class="why"> {reason}</span>
          </li>
        ))}
      </ul>
    </section>
  );

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
