/** The teardown map, one fold an assembly: what holds it, what it sits behind, what comes out with it. */
import { ASSEMBLY_SORTS, HAZARDS } from "../../estimating/lists.js";
import { capital } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { assemblyName } from "../form/label.js";
import { Wrong } from "../frame/field.js";
import { Choice, Note, Text, Tick } from "./field.js";
import { Access, Fasteners, FitTable, WorthTable } from "./teardownTables.js";
import type { IntakeView } from "./view.js";

export const TeardownPart = ({ view }: { view: IntakeView }) => {
  const rows = Object.keys(view.read.draft.assembly);
  return (
    <fieldset class="part" id="part-map">
      <legend>Teardown map</legend>
      <p class="hint">
        What holds each assembly and what must come off first. Opening is charged once, however much is done inside. What is left
        out goes by the rate book's standards.
      </p>
      <datalist id="assemblies">
        {rows.map((row) => {
          const name = view.read.draft.assembly[row]?.name?.trim();
          return name ? <option value={name} /> : null;
        })}
      </datalist>
      {rows.map((row) => (
        <AssemblyFold view={view} row={row} />
      ))}
      <p class="actions">
        <button type="submit" name="intent" value="add assembly">
          Add an assembly to the map
        </button>
      </p>
      <FitTable view={view} />
      <WorthTable view={view} />
      <Tick view={view} name="meta.keepModel" label={keepLabel(view)} hint="Kept when this estimate is saved." />
    </fieldset>
  );
};

function keepLabel({ fields }: IntakeView): string {
  const model = [fields.get("unit.maker"), fields.get("unit.model")].filter(Boolean).join(" ").trim();
  return fields.get("meta.modelId")
    ? `Keep changes to the map of ${model || "this model"}`
    : `Keep this map for the next ${model || "unit of this model"}`;
}

const AssemblyFold = ({ view, row }: { view: IntakeView; row: string }) => {
  const field = `assembly.${row}`;
  const wrong = [...view.errors.keys()].some(
    (name) => /^(assembly|fasteners|hazards)\./.test(name) && name.split(".")[1] === row,
  );
  return (
    <details class="fold assembly" id={`map-${row}`} open={wrong && !view.errors.has(`${field}.name`)}>
      <summary>
        <span class="assembly-name">{assemblyName(row, view.read.draft)}</span> <span class="hint">{gist(view, row)}</span>
      </summary>
      <div class="columns">
        <Choice
          view={view}
          name={`${field}.sort`}
          label="Sort"
          options={ASSEMBLY_SORTS.map((sort) => [sort, capital(sort)] as const)}
        />
        <Text view={view} name={`${field}.behind`} label="Is behind" hint="Names, parted by semicolons." list="assemblies" />
        <Text
          view={view}
          name={`${field}.joined`}
          label="Comes out together with"
          hint="Names, parted by semicolons."
          list="assemblies"
        />
      </div>
      <Access view={view} row={row} />
      <Fasteners view={view} row={row} />
      <div class="columns">
        <Choice
          view={view}
          name={`${field}.open`}
          label="Opening"
          options={[
            ["", "When work needs it"],
            ["already", "It is open already, and agreed to"],
            ["free", "It is open for diagnosis, at no charge"],
          ]}
        />
        <Tick view={view} name={`${field}.wanted`} label="Open it in any case" />
        <Note view={view} name={`${field}.notes`} label="Notes" rows={2} />
      </div>
      <fieldset class="ticks">
        <legend>Hazards</legend>
        {HAZARDS.map((hazard) => (
          <Tick view={view} name={`hazards.${row}.${key(hazard)}`} label={capital(hazard)} />
        ))}
      </fieldset>
      <Wrong {...view} name={`hazards.${row}`} />
    </details>
  );
};

/** What the fold holds, in a few words. */
function gist(view: IntakeView, row: string): string {
  const { behind, joined } = view.read.draft.assembly[row] ?? {};
  const assembly = view.read.input.map?.assemblies.find(({ id }) => key(id) === row);
  const access = assembly?.access;
  const held =
    access?.by === "fasteners"
      ? `${access.fasteners.reduce((sum, { count }) => sum + (Number.isInteger(count) ? count : 0), 0)} fasteners`
      : access?.by === "measured"
        ? "measured"
        : access
          ? `by standard, ${access.size}, ${access.mounting}`
          : "nothing yet";
  return [held, behind?.trim() ? `behind ${behind.trim()}` : "", joined?.trim() ? `with ${joined.trim()}` : ""]
    .filter(Boolean)
    .join("; ");
}
