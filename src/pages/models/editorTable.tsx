/** One assembly a row, with a fold below for what is rarely changed. */

import { ASSEMBLY_SORTS, HAZARDS } from "../../estimating/lists.js";
import { capital, listed } from "../../wording/list.js";
import { columnsOf } from "../form/context.js";
import { WHOLE_UNIT } from "../form/draft.js";
import { key } from "../form/fields.js";
import { assemblyName, labelOf } from "../form/label.js";
import { CellBox } from "../frame/field.js";
import { Table, unseen } from "../frame/table.js";
import { Carried, Choice, Note, Text, Tick } from "../intake/field.js";
import { Access, Fasteners } from "../intake/teardownTables.js";
import { heldBy, type ModelView, minutesText } from "./view.js";

export const EditorTable = ({ view }: { view: ModelView }) => {
  const rows = Object.keys(view.read.draft.assembly).filter((row) => row !== WHOLE_UNIT);
  return (
    <>
      <h2 id="assemblies-name">Assemblies</h2>
      <p class="hint" id="names-help">
        Separate several names by semicolons. Opening is charged once, however much is done inside.
      </p>
      <datalist id="assemblies">
        {rows.map((row) => {
          const name = view.read.draft.assembly[row]?.name?.trim();
          return name ? <option value={name} /> : null;
        })}
      </datalist>
      <Table
        class="map-table"
        caption="Assemblies"
        scroll
        heads={[
          ...["Assembly", "Comes off first", "Comes out together with", "Held by", "Minutes", "Goes back before"],
          unseen("Remove"),
        ]}
      >
        {rows.map((row) => (
          <AssemblyRows view={view} row={row} />
        ))}
      </Table>
      <p class="actions">
        <button type="submit" name="intent" value="add assembly">
          Add an assembly
        </button>
      </p>
    </>
  );
};

interface RowProps {
  readonly view: ModelView;
  readonly row: string;
}

const AssemblyRows = ({ view, row }: RowProps) => {
  const name = assemblyName(row, view.read.draft);
  const map = view.read.input.map;
  const mine = map?.assemblies.find(({ id }) => key(id) === row);
  const nameOf = (id: string) => map?.assemblies.find((one) => one.id === id)?.name ?? id;
  const before = map?.fitBefore?.filter(({ first }) => first === mine?.id).map(({ then }) => nameOf(then)) ?? [];
  return (
    <tbody>
      <tr>
        <th scope="row">
          <Cell view={view} name={`assembly.${row}.name`} />
          <Carried view={view} name={`assembly.${row}.was`} />
        </th>
        <td>
          <Cell view={view} name={`assembly.${row}.behind`} list />
        </td>
        <td>
          <Cell view={view} name={`assembly.${row}.joined`} list />
        </td>
        <td>{mine ? heldBy(mine.access) : "–"}</td>
        <td>{(mine && minutesText(mine.access, view.book, view.context.locale)) ?? "–"}</td>
        <td>{listed(before) || "–"}</td>
        <td>
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
        </td>
      </tr>
      <tr class="map-more">
        <td colspan={7}>
          <AssemblyFold view={view} row={row} name={name} />
        </td>
      </tr>
    </tbody>
  );
};

const Cell = ({ view, name, list = false }: { view: ModelView; name: string; list?: boolean }) => (
  <div class={view.errors.has(name) ? "field-wrong" : ""}>
    <CellBox {...view} name={name} label={labelOf(name, view.read.draft, view.context)} list={list ? "assemblies" : undefined} />
  </div>
);

const FOLDED = /^(assembly|fasteners|hazards|usual)\.([^.]+)\.(.+)$/;
const IN_TABLE = new Set(["name", "behind", "joined"]);

const AssemblyFold = ({ view, row, name }: RowProps & { name: string }) => {
  const wrong = [...view.errors.keys()].some((field) => {
    const [, head, at, leaf] = FOLDED.exec(field) ?? [];
    return at === row && !(head === "assembly" && IN_TABLE.has(leaf!));
  });
  return (
    <details class="assembly" id={`map-${row}`} open={wrong}>
      <summary>
        What holds it, hazards, usual counts<span class="unseen">: {name}</span>
      </summary>
      <div class="columns">
        <Choice
          view={view}
          name={`assembly.${row}.sort`}
          label="Sort"
          options={ASSEMBLY_SORTS.map((sort) => [sort, capital(sort)] as const)}
        />
      </div>
      <Access view={view} row={row} />
      <Fasteners view={view} row={row} />
      <fieldset class="fasteners">
        <legend>Usual counts, which a new estimate starts from</legend>
        {columnsOf(view.context.rateBook).map(({ id, name }) => (
          <Text view={view} name={`usual.${row}.${key(id)}`} label={name} size="figure" />
        ))}
      </fieldset>
      <fieldset class="ticks">
        <legend>Hazards</legend>
        {HAZARDS.map((hazard) => (
          <Tick view={view} name={`hazards.${row}.${key(hazard)}`} label={capital(hazard)} />
        ))}
      </fieldset>
      <Note view={view} name={`assembly.${row}.notes`} label="Notes" rows={2} />
    </details>
  );
};
