/** The unit and its owner. */
import { HAZARDS } from "../../estimating/lists.js";
import { capital } from "../../wording/list.js";
import { offered } from "../../wording/rateBookParts.js";
import { key } from "../form/fields.js";
import { Carried, Choice, Note, Text, Tick } from "./field.js";
import type { IntakeView } from "./view.js";

export const OwnerPart = ({ view }: { view: IntakeView }) => (
  <fieldset class="part" id="part-owner">
    <legend>Owner</legend>
    {view.surroundings.owners.length > 0 ? (
      <div class="beside">
        <Choice
          view={view}
          name="owner.id"
          hint="For someone who was here before; what you change below changes the record."
          options={[["", "A new owner"], ...view.surroundings.owners.map(({ id, label }) => [id, label] as const)]}
        />
        <button type="submit" name="intent" value="take owner" class="quiet">
          Fill in from the record
        </button>
      </div>
    ) : null}
    <div class="columns">
      <Text view={view} name="owner.name" autocomplete="off" />
      <Text view={view} name="owner.phone" type="tel" size="word" />
      <Text view={view} name="owner.email" type="text" code />
      <Note view={view} name="owner.address" rows={3} />
    </div>
  </fieldset>
);

export const UnitPart = ({ view }: { view: IntakeView }) => (
  <fieldset class="part" id="part-unit">
    <legend>Unit</legend>
    <Carried view={view} name="meta.modelId" />
    <Carried view={view} name="meta.modelSeen" />
    <div class="columns">
      <Text view={view} name="unit.maker" list="makers" code />
      <Text view={view} name="unit.model" list="models" code />
      <Text view={view} name="unit.serial" size="word" code />
      <Text
        view={view}
        name="unit.value"
        size="money"
        label={`Declared value, ${view.context.currency}`}
        hint="What the owner says it is worth."
      />
    </div>
    <p class="actions">
      <button type="submit" name="intent" value="take model">
        Start from this model's map
      </button>
      <span class="hint">Fills the grid below with its assemblies and usual counts; what you typed stays.</span>
    </p>
    <datalist id="makers">
      {view.surroundings.makers.map((maker) => (
        <option value={maker} />
      ))}
    </datalist>
    <datalist id="models">
      {view.surroundings.models.map(({ maker, model }) => (
        <option value={model}>{maker}</option>
      ))}
    </datalist>
    <div class="columns">
      <Note view={view} name="unit.reported" hint="In the owner's words." />
      <Note view={view} name="unit.condition" hint="Marks, missing pieces, smells, photographs taken." />
      <Note view={view} name="unit.accessories" hint="One a line; 'none' where you looked and nothing came with it." />
      <Note view={view} name="unit.found" hint="What the bench has seen so far." />
    </div>
    <div class="columns">
      <Choice
        view={view}
        name="unit.grade"
        size="long"
        options={offered(view.context.rateBook.grades, ({ id }) => id === view.fields.get("unit.grade")).map(
          ({ id, name }) => [id, name] as const,
        )}
      />
      <Choice
        view={view}
        name="unit.dataHeld"
        options={[
          ["", "Not asked yet"],
          ["none", "It holds none"],
          ["held", "It holds some, as noted"],
        ]}
      />
      <Text view={view} name="unit.storedData" hint="Patch memories, recordings, settings." />
    </div>
    <details class="fold">
      <summary>Hazards of this unit</summary>
      <p class="hint">Each prints the usual caution on the bench sheet.</p>
      <div class="ticks">
        {HAZARDS.map((hazard) => (
          <Tick view={view} name={`caution.${key(hazard)}`} label={capital(hazard)} />
        ))}
      </div>
    </details>
  </fieldset>
);
