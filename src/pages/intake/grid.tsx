/** The count grid: a row for each assembly and one for the unit as a whole, a column for each part type and cleaning operation. */
import { type Column, columnsOf } from "../form/context.js";
import { WHOLE_UNIT } from "../form/draft.js";
import { key } from "../form/fields.js";
import { assemblyName } from "../form/label.js";
import { columnsShown, countsInLines, GROUP_NAMES } from "./columnsShown.js";
import { Carried } from "./field.js";
import type { IntakeView } from "./view.js";

export const GridPart = ({ view }: { view: IntakeView }) => {
  const columns = columnsShown(view);
  const also = countsInLines(view);
  const rows = Object.keys(view.read.draft.assembly).filter((row) => row !== WHOLE_UNIT);
  return (
    <fieldset class="part" id="part-grid">
      <legend>Counts</legend>
      <p class="hint" id="grid-help">
        How many pieces on which assembly. Counts not yet placed go in the last row. Enter moves down, and adds a row at the end;
        Ctrl and Enter saves.
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
        <button type="submit" name="intent" value="clear counts" class="quiet">
          Clear all counts
        </button>
      </p>
      <MoreColumns view={view} shown={columns} />
    </fieldset>
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

interface RowProps {
  readonly view: IntakeView;
  readonly row: string;
  readonly columns: readonly Column[];
  readonly also: ReadonlyMap<string, number>;
}

const GridRow = ({ view, row, columns, also }: RowProps) => {
  const cells = columns.map(({ id }) => `cells.${row}.${key(id)}`);
  const wrong = [`assembly.${row}.name`, ...cells].filter((field) => view.errors.has(field));
  return (
    <>
      <tr class={row === WHOLE_UNIT ? "whole" : ""}>
        <RowHead view={view} row={row} />
        {columns.map((column) => (
          <Cell view={view} row={row} column={column} also={also.get(`${row}.${key(column.id)}`)} />
        ))}
      </tr>
      {wrong.length > 0 ? (
        <tr class="row-wrong">
          <td colspan={columns.length + 1}>
            {wrong.map((field) => (
              <p class="wrong" id={`${field}-wrong`}>
                <span class="unseen">Error: </span>
                {view.errors.get(field)}
              </p>
            ))}
          </td>
        </tr>
      ) : null}
    </>
  );
};

const RowHead = ({ view, row }: { view: IntakeView; row: string }) => {
  const name = assemblyName(row, view.read.draft);
  if (row === WHOLE_UNIT) {
    return (
      <th scope="row">
        <span id={`row-${row}`}>Whole unit</span>
      </th>
    );
  }
  const field = `assembly.${row}.name`;
  const wrong = view.errors.has(field) ? { "aria-invalid": "true", "aria-describedby": `${field}-wrong` } : {};
  return (
    <th scope="row">
      <span class="unseen" id={`row-${row}`}>
        {name}
      </span>
      <div class="row-name">
        <input
          id={field}
          name={field}
          value={view.fields.get(field) ?? ""}
          aria-label={`Name of ${name}`}
          autocomplete="off"
          data-row={row}
          {...wrong}
        />
        <Carried view={view} name={`assembly.${row}.was`} />
        <button
          type="submit"
          name="intent"
          value={`remove assembly:${row}`}
          class="icon"
          aria-label={`Remove ${name}`}
          title={`Remove ${name}`}
        >
          ×
        </button>
      </div>
    </th>
  );
};

/** Below the box: what the lines add to it, or how many there usually are. */
const Cell = ({ view, row, column, also }: { view: IntakeView; row: string; column: Column; also: number | undefined }) => {
  const field = `cells.${row}.${key(column.id)}`;
  const usual = view.fields.get(`usual.${row}.${key(column.id)}`);
  const value = view.fields.get(field) ?? "";
  const noted = also !== undefined || (usual !== undefined && usual !== value);
  const ids = [...(noted ? [`${field}-note`] : []), ...(view.errors.has(field) ? [`${field}-wrong`] : [])];
  return (
    <td>
      <input
        id={field}
        name={field}
        value={value}
        inputmode="numeric"
        autocomplete="off"
        aria-labelledby={`row-${row} col-${key(column.id)}`}
        {...(ids.length > 0 ? { "aria-describedby": ids.join(" ") } : {})}
        {...(view.errors.has(field) ? { "aria-invalid": "true" } : {})}
      />
      {usual === undefined ? null : <input type="hidden" name={`usual.${row}.${key(column.id)}`} value={usual} />}
      <Carried view={view} name={`cellIds.${row}.${key(column.id)}`} />
      {noted ? (
        <span class="cell-note" id={`${field}-note`}>
          {also === undefined ? (
            <>
              <span class="unseen">usually </span>
              <span aria-hidden="true">of </span>
              {usual}
            </>
          ) : (
            <>
              +{also}
              <span class="unseen"> in the lines below</span>
            </>
          )}
        </span>
      ) : null}
    </td>
  );
};

const MoreColumns = ({ view, shown }: { view: IntakeView; shown: readonly Column[] }) => {
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
              <div class="field tick">
                <input type="checkbox" id={mark} name={mark} value="on" checked={view.fields.has(mark)} />
                <label for={mark}>{name}</label>
              </div>
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
