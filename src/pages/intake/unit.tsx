/** What came in: maker and model, which make a price; and what an owner, a receipt and the bench want to know of it. */
import { HAZARDS } from "../../estimating/lists.js";
import { capital, listed } from "../../wording/list.js";
import { offered } from "../../wording/rateBookParts.js";
import { key } from "../form/fields.js";
import { labelOf } from "../form/label.js";
import { Choice, Note, Text, Tick } from "./field.js";
import { Fold } from "./fold.js";
import type { IntakeView } from "./view.js";

export const UnitPart = ({ view }: { view: IntakeView }) => (
  <fieldset class="part" id="part-unit">
    <legend>Unit</legend>
    <div class="beside">
      <Text view={view} name="unit.maker" list="makers" code />
      <Text view={view} name="unit.model" list="models" code />
      <button type="submit" name="intent" value="take model" class="quiet">
        Start from this model's map
      </button>
    </div>
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
  </fieldset>
);

const SEEN = {
  serial: "This serial number was here before:",
  owner: "An owner of this name was here before:",
  model: "The job of this model closed last:",
};

/** The history of what is being written down. */
export const SeenBefore = ({ view: { surroundings } }: { view: IntakeView }) =>
  (["serial", "owner", "model"] as const).map((by) => {
    const jobs = surroundings.seen?.filter((one) => one.by === by) ?? [];
    return jobs.length === 0 ? null : (
      <p class="said" id={`seen-${by}`}>
        {SEEN[by]}{" "}
        {jobs.map(({ href, text }, index) => (
          <>
            {index > 0 ? "; " : ""}
            <a href={href} target="_blank" rel="noopener">
              {text}
            </a>
          </>
        ))}
        {by === "owner" ? ". If it is the same person, choose the record under Owner." : "."}
      </p>
    );
  });

export const IntakePart = ({ view }: { view: IntakeView }) => (
  <Fold
    view={view}
    name="intake"
    title="Owner, complaint and condition"
    says={taken(view)}
    holds={/^(owner\.|unit\.(?!maker|model|power))/}
  >
    {() => (
      <>
        <OwnerFields view={view} />
        <div class="columns">
          <Text view={view} name="unit.serial" size="word" code />
          <Text
            view={view}
            name="unit.value"
            size="money"
            label={`Declared value, ${view.context.currency}`}
            hint="What the owner says it is worth."
          />
          <Note view={view} name="unit.reported" hint="In the owner's words." />
          <Ticked view={view} name="unit.condition" hint="Marks, missing pieces, smells, photographs taken." />
          <Ticked view={view} name="unit.accessories" hint="One a line; 'none' where you looked and nothing came with it." />
          <Note view={view} name="unit.found" hint="What the bench has seen so far." />
          <Choice
            view={view}
            name="unit.grade"
            size="long"
            options={[
              ["", `Not judged yet; counts as '${view.context.rateBook.grades[0]?.name ?? ""}'`],
              ...offered(view.context.rateBook.grades, ({ id }) => id === view.fields.get("unit.grade")).map(
                ({ id, name }) => [id, name] as const,
              ),
            ]}
          />
          <Choice
            view={view}
            name="unit.dataHeld"
            options={[
              ["", "Nobody has asked yet"],
              ["none", "None, or none that matters"],
              ["held", "Some, as noted beside"],
            ]}
          />
          <Text view={view} name="unit.storedData" hint="Patch memories, recordings, settings." />
        </div>
      </>
    )}
  </Fold>
);

/** Lines that are ticked as often as typed: common practice, no source. */
export const USUAL = {
  "unit.condition": [
    "Scratched",
    "Dented",
    "Knob or key missing",
    "Smells burnt",
    "Damp or mould",
    "Battery leaked",
    "Opened before",
  ],
  "unit.accessories": ["Mains lead", "Lid or cover", "Case", "Pedal", "Power supply", "Manual", "none"],
} as const;

/** A note whose usual lines are ticked in and out. Without script they are typed. */
const Ticked = ({ view, name, hint }: { view: IntakeView; name: keyof typeof USUAL; hint: string }) => {
  const lines = (view.fields.get(name) ?? "").split("\n").map((line) => line.trim());
  return (
    <div>
      <Note view={view} name={name} hint={hint} />
      <fieldset class="usual">
        <legend class="unseen">Usual: {labelOf(name, view.read.draft, view.context)}</legend>
        {USUAL[name].map((line) => (
          <label>
            <input type="checkbox" data-line={line} data-into={name} checked={lines.includes(line)} />
            {line}
          </label>
        ))}
      </fieldset>
    </div>
  );
};

const OwnerFields = ({ view }: { view: IntakeView }) => (
  <>
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
      <Choice
        view={view}
        name="owner.language"
        hint="Of papers and the owner's page."
        options={[["", "As the shop's"], ...view.surroundings.languages]}
      />
      <Note view={view} name="owner.address" rows={3} />
    </div>
  </>
);

/** In one line; what is wanted before an estimate is issued is said while it is missing. */
function taken({ fields, context }: IntakeView): string {
  const said = (name: string) => fields.get(name)?.trim() ?? "";
  const grade = context.rateBook.grades.find(({ id }) => id === said("unit.grade"));
  const complaint = said("unit.reported").replace(/\s+/g, " ");
  const told = [
    said("owner.name"),
    said("unit.serial") && `serial ${said("unit.serial")}`,
    complaint.length > 60 ? `${complaint.slice(0, 60)}…` : complaint,
    grade?.name ?? "",
  ].filter(Boolean);
  const rest = ["owner.name", "unit.reported"].some((name) => said(name) === "") ? "wanted before it is issued" : "";
  return [told.length > 0 ? told.join("; ") : "nothing yet", rest].filter(Boolean).join("; ");
}

const POWER_SAID: Readonly<Record<string, string>> = { mains: "mains powered", "low voltage": "no mains inside" };

export const HazardsPart = ({ view }: { view: IntakeView }) => {
  const ticked = HAZARDS.filter((hazard) => view.fields.get(`caution.${key(hazard)}`));
  return (
    <Fold
      view={view}
      name="hazards"
      title="Hazards of this unit"
      says={[
        POWER_SAID[view.fields.get("unit.power") ?? ""] ??
          (view.context.rateBook.safety === "by default" ? "counts as mains powered" : ""),
        ticked.length > 0 ? listed(ticked) : "none beyond those of its parts and work",
      ]
        .filter(Boolean)
        .join("; ")}
      holds={/^(caution\.|unit\.power$)/}
    >
      {() => (
        <>
          <Choice
            view={view}
            name="unit.power"
            size="long"
            hint="Until someone says otherwise a unit counts as mains powered, and its supply as charged."
            options={[
              ["", "Nobody has said yet"],
              ["mains", "Mains"],
              ["low voltage", "Batteries or a low-voltage adapter, no mains inside"],
            ]}
          />
          <p class="hint">Each of these prints the usual caution on the bench sheet.</p>
          <div class="ticks">
            {HAZARDS.map((hazard) => (
              <Tick view={view} name={`caution.${key(hazard)}`} label={capital(hazard)} />
            ))}
          </div>
        </>
      )}
    </Fold>
  );
};
