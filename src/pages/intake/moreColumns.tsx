/** Columns beyond the usual ones, to be ticked. */
import { type Column, columnsOf } from "../form/context.js";
import { key } from "../form/fields.js";
import { Tick } from "../frame/field.js";
import { GROUP_NAMES } from "./columnsShown.js";
import type { IntakeView } from "./view.js";

export const MoreColumns = ({ view, shown }: { view: IntakeView; shown: readonly Column[] }) => {
  const showing = new Set(shown.map(({ id }) => id));
  const hidden = allColumns(view).filter(({ id, mark }) => !showing.has(id) || view.fields.has(mark));
  const groups = [...new Set(hidden.map(({ group }) => group))];
  if (hidden.length === 0) return null;
  return (
    <details class="fold" id="more-columns">
      <summary>More columns ({hidden.filter(({ mark }) => !view.fields.has(mark)).length})</summary>
      {groups.map((group) => (
        <fieldset class="ticks">
          <legend>{GROUP_NAMES[group] ?? group}</legend>
          {hidden
            .filter((column) => column.group === group)
            .map(({ mark, name }) => (
              <Tick name={mark} value="on" checked={view.fields.has(mark)} label={name} />
            ))}
        </fieldset>
      ))}
      <button type="submit" name="intent" value="recalculate" class="quiet">
        Show the ticked columns
      </button>
    </details>
  );
};

const allColumns = (view: IntakeView) =>
  columnsOf(view.context.rateBook).map((column) => ({ ...column, mark: `show.${key(column.id)}` }));
