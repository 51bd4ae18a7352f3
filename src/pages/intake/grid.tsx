/** The count grid: a row for each assembly and one for the unit as a whole, a column for each part type and cleaning operation. */
import { counted } from "../../wording/list.js";
import { type Column, columnsOf } from "../form/context.js";
import { WHOLE_UNIT } from "../form/draft.js";
import { key } from "../form/fields.js";
import { isOpen } from "../form/open.js";
import { Tick } from "../frame/field.js";
import { Fold } from "./fold.js";
import { columnsShown, countsInLines, EarlierPart, GROUP_NAMES } from "./gridCounts.js";
import { GridRow } from "./gridRow.js";
import type { IntakeView } from "./view.js";

export const GridPart = ({ view }: { view: IntakeView }) => {
  const rows = Object.values(view.read.draft.cells).map((row) => Object.values(row).filter((text) => text.trim() !== "").length);
  const cells = rows.reduce((sum, row) => sum + row, 0);
  return (
    <Fold
      view={view}
      name="grid"
      title="Counts by part type"
      says={`all assemblies in one table; ${cells === 0 ? "nothing is counted yet" : `${counted(cells, "count")} so far`}`}
      holds={/^never$/}
    >
      {() => <Grid view={view} />}
    </Fold>
  );
};

const Grid = ({ view }: { view: IntakeView }) => {
  const also = countsInLines(view);
  const columns = columnsShown(view, also);
  const rows = Object.keys(view.read.draft.assembly).filter((row) => row !== WHOLE_UNIT);
  return (
    <>
      <p class="hint" id="grid-help">
        How many pieces on which assembly. Counts not yet placed go in the last row. Enter moves down, and adds a row at the end;
        Ctrl and Enter saves. A figure without a box is of lines that say more; press it to see them.
      </p>
      <section class="scroll" tabindex={0} aria-labelledby="grid-name">
        <table class="grid">
          <caption class="unseen" id="grid-name">
            Count grid: assemblies by part types and cleaning
          </caption>
          <GridHead columns={columns} />
          <tbody>
            {rows.map((row) => (
              <GridRow view={view} row={row} columns={columns} also={also} />
            ))}
            <GridRow view={view} row={WHOLE_UNIT} columns={columns} also={also} />
          </tbody>
        </table>
      </section>
      <p class="actions">
        <button type="submit" name="intent" value="add assembly">
          Add an assembly
        </button>
        {Object.keys(view.read.draft.usual).length > 0 ? (
          <button type="submit" name="intent" value="usual counts" class="quiet">
            Fill empty cells with the usual counts
          </button>
        ) : null}
        <button type="submit" name="intent" value="earlier counts" class="quiet">
          Take counts of earlier jobs of this model
        </button>
        <button type="submit" name="intent" value="clear counts" class="quiet">
          Clear all counts
        </button>
      </p>
      <p class="hint">Counts of earlier jobs go to assemblies that have the same name here.</p>
      <EarlierPart view={view} />
      <MoreColumns view={view} shown={columns} />
    </>
  );
};

const GridHead = ({ columns }: { columns: readonly Column[] }) => {
  const groups = [...new Set(columns.map(({ group }) => group))];
  return (
    <>
      <colgroup />
      {groups.map((group) => (
        <colgroup class={`of-${group}`} span={columns.filter((column) => column.group === group).length} />
      ))}
      <thead>
        <tr>
          <th rowspan={2} scope="col" class="corner">
            Assembly
          </th>
          {groups.map((group) => (
            <th scope="colgroup" class="group" colspan={columns.filter((column) => column.group === group).length}>
              <span class={columns.filter((column) => column.group === group).length > 1 ? "" : "unseen"}>
                {GROUP_NAMES[group] ?? group}
              </span>
            </th>
          ))}
        </tr>
        <tr>
          {columns.map(({ id, name }) => (
            <th scope="col" class="upright" id={`col-${key(id)}`}>
              <span>{name}</span>
            </th>
          ))}
        </tr>
      </thead>
    </>
  );
};

/** Columns beyond the usual ones, to be ticked. */
const MoreColumns = ({ view, shown }: { view: IntakeView; shown: readonly Column[] }) => {
  const showing = new Set(shown.map(({ id }) => id));
  const hidden = allColumns(view).filter(({ id, mark, retired }) => (!showing.has(id) && !retired) || view.fields.has(mark));
  const groups = [...new Set(hidden.map(({ group }) => group))];
  if (hidden.length === 0) return null;
  const left = hidden.filter(({ mark }) => !view.fields.has(mark)).length;
  if (!isOpen(view.open, "columns"))
    return (
      <p class="actions">
        <button type="submit" name="intent" value="open:columns" class="quiet" id="more-columns" aria-expanded="false">
          More columns ({left})
        </button>
      </p>
    );
  return (
    <section id="more-columns">
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
      <button type="submit" name="intent" value="close:columns" class="quiet">
        Show the ticked columns
      </button>
    </section>
  );
};

const allColumns = (view: IntakeView) =>
  columnsOf(view.context.rateBook).map((column) => ({ ...column, mark: `show.${key(column.id)}` }));
