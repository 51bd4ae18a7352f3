/** One row of the count grid, and below it what is wrong in it. */
import type { Column } from "../form/context.js";
import { WHOLE_UNIT } from "../form/draft.js";
import { key } from "../form/fields.js";
import { assemblyName } from "../form/label.js";
import { ties, Wrong } from "../frame/field.js";
import { isSuggested } from "./gridCounts.js";
import type { IntakeView } from "./view.js";

interface RowProps {
  readonly view: IntakeView;
  readonly row: string;
  readonly columns: readonly Column[];
  readonly also: ReadonlyMap<string, number>;
}

export const GridRow = ({ view, row, columns, also }: RowProps) => {
  const cells = columns.filter(({ id }) => !also.has(`${row}.${key(id)}`)).map(({ id }) => `cells.${row}.${key(id)}`);
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
              <Wrong {...view} name={field} />
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
          {...ties({ ...view, name: field })}
        />
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

/** A box, and below it how many there usually are; where lines count here, their sum with it, which leads to them. */
const Cell = ({ view, row, column, also }: { view: IntakeView; row: string; column: Column; also: number | undefined }) => {
  const field = `cells.${row}.${key(column.id)}`;
  const usual = view.fields.get(`usual.${row}.${key(column.id)}`);
  const value = view.fields.get(field) ?? "";
  const noted = usual !== undefined && usual !== value;
  if (also !== undefined) {
    const own = Number(value);
    const sum = also + (Number.isInteger(own) ? own : 0);
    const name = `${column.name}, ${assemblyName(row, view.read.draft)}: ${sum}, by lines`;
    return (
      <td>
        <button type="submit" name="intent" value={`see:${row}`} class="quiet cell-sum" aria-label={name}>
          {sum}
        </button>
      </td>
    );
  }
  const ids = [...(noted ? [`${field}-note`] : []), ...(view.errors.has(field) ? [`${field}-wrong`] : [])];
  return (
    <td>
      <input
        id={field}
        name={field}
        value={value}
        inputmode="numeric"
        autocomplete="off"
        {...(isSuggested(view, row, column.id) ? { class: "suggested" } : {})}
        aria-labelledby={`row-${row} col-${key(column.id)}`}
        {...(ids.length > 0 ? { "aria-describedby": ids.join(" ") } : {})}
        {...(view.errors.has(field) ? { "aria-invalid": "true" } : {})}
      />
      {noted ? (
        <span class="cell-note" id={`${field}-note`}>
          <span class="unseen">usually </span>
          <span aria-hidden="true">of </span>
          {usual}
        </span>
      ) : null}
    </td>
  );
};
