/** The teardown map: what holds an assembly, what it sits behind, what comes out with it; and what is said of the map as a whole. */
import { ASSEMBLY_SORTS, HAZARDS } from "../../estimating/lists.js";
import { capital, counted } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { isOpen } from "../form/open.js";
import { Wrong } from "../frame/field.js";
import { Choice, Note, Text, Tick } from "./field.js";
import { backTo, Fold } from "./fold.js";
import { Access, Fasteners, FitTable, WorthTable } from "./teardownTables.js";
import type { IntakeView } from "./view.js";

export const MapPart = ({ view }: { view: IntakeView }) => {
  const { assembly, fit, worth } = view.read.draft;
  const named = Object.values(assembly).filter(({ name }) => name?.trim()).length;
  const told = [
    named > 0 ? counted(named, "assembly", "assemblies") : "no assembly is named yet",
    ...(Object.keys(fit).length > 0 ? [`${counted(Object.keys(fit).length, "refit order")}`] : []),
    ...(Object.keys(worth).length > 0 ? [`${Object.keys(worth).length} worth doing while open`] : []),
    ...(view.fields.get("meta.keepModel") ? ["kept for the next unit"] : []),
  ];
  return (
    <Fold view={view} name="map" title="Teardown map" says={told.join("; ")} holds={/^(fit|worth)\.|^meta\.keepModel/}>
      {() => (
        <>
          <p class="hint">
            What holds each assembly and what must come off first stands with the assembly. Opening is charged once, however much
            is done inside. What is left out goes by the rate book's standards.
          </p>
          <FitTable view={view} />
          <WorthTable view={view} />
          <Tick view={view} name="meta.keepModel" label={keepLabel(view)} hint="Kept when this estimate is saved." />
        </>
      )}
    </Fold>
  );
};

function keepLabel({ fields }: IntakeView): string {
  const model = [fields.get("unit.maker"), fields.get("unit.model")].filter(Boolean).join(" ").trim();
  return fields.get("meta.modelId")
    ? `Keep changes to the map of ${model || "this model"}`
    : `Keep this map for the next ${model || "unit of this model"}`;
}

/** `here`: it may be unfolded. */
export const Reach = ({ view, row, here }: { view: IntakeView; row: string; here: boolean }) => {
  const field = `assembly.${row}`;
  const grid = isOpen(view.open, "grid");
  const wrong = [...view.errors.keys()].some(
    (name) => /^(assembly|fasteners|hazards)\./.test(name) && name.split(".")[1] === row && !(grid && name === `${field}.name`),
  );
  const open = (here && view.open.has("reach")) || isOpen(view.open, "all");
  if (!open && !wrong)
    return (
      <p class="actions">
        <button
          type="submit"
          name="intent"
          value="open:reach"
          formaction={backTo(view, "part-desk")}
          class="quiet"
          id={`reach-${row}`}
          aria-expanded="false"
        >
          How it is reached
        </button>
      </p>
    );
  return (
    <div class="assembly" id={`map-${row}`}>
      <p class="actions">
        {open && !isOpen(view.open, "all") ? (
          <button type="submit" name="intent" value="close:reach" class="quiet" aria-expanded="true">
            Fold how it is reached
          </button>
        ) : null}
        <button type="submit" name="intent" value={`remove assembly:${row}`} class="quiet">
          Remove this assembly
        </button>
      </p>
      <div class="columns">
        {grid ? null : <Text view={view} name={`${field}.name`} label="Name" />}
        <Choice
          view={view}
          name={`${field}.sort`}
          label="Sort"
          options={ASSEMBLY_SORTS.map((sort) => [sort, capital(sort)] as const)}
        />
        <Text view={view} name={`${field}.behind`} label="Is behind" hint="Names, separated by semicolons." list="assemblies" />
        <Text
          view={view}
          name={`${field}.joined`}
          label="Comes out together with"
          hint="Names, separated by semicolons."
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
    </div>
  );
};

/** How an assembly is held and what is before it, in a few words. */
export function reached(view: IntakeView, row: string): string {
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
