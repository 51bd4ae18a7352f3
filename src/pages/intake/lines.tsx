/** Work that a count alone does not say: other operations, parts of the catalogue, what may be found, what the owner may choose. */
import { offered } from "../../wording/rateBookParts.js";
import { atHand } from "../form/context.js";
import { labelOf } from "../form/label.js";
import { partsOffered } from "../form/names.js";
import { ties, Wrong } from "../frame/field.js";
import { Carried, Small } from "./field.js";
import { LineMore } from "./lineMore.js";
import type { IntakeView } from "./view.js";

export const LinesPart = ({ view }: { view: IntakeView }) => {
  const { rateBook } = view.context;
  const own = view.surroundings.ownWords ?? { works: [], parts: [] };
  const [operations, partTypes] = [offered(rateBook.operations), offered(rateBook.partTypes)];
  const [works, parts] = [
    named([...operations, ...offered(rateBook.services ?? [])]),
    named(partsOffered(atHand(view.context, view.read.input))),
  ];
  // What was kept since is on a list by now.
  const names = new Set([...works, ...parts]);
  const quick = operations.filter(({ sort }) => sort !== "cleaning" && sort !== "replacement");
  return (
    <fieldset class="part" id="part-lines">
      <legend>Other work and extras</legend>
      <p class="hint">
        A part without a kind of work is replaced. Work without a place is for the whole unit. What is on no list: write it in
        your own words, and open what stands below it.
      </p>
      <datalist id="operations">
        {[...works, ...own.works.filter((name) => !names.has(name))].map((name) => (
          <option value={name} />
        ))}
      </datalist>
      <datalist id="parts" data-find="/parts/kinds">
        {[...parts, ...own.parts.filter((name) => !names.has(name))].map((name) => (
          <option value={name} />
        ))}
      </datalist>
      <datalist id="types">
        {partTypes.map(({ name }) => (
          <option value={name} />
        ))}
      </datalist>
      {Object.keys(view.read.draft.line).map((row, index) => (
        <LineRow view={view} row={row} number={index + 1} />
      ))}
      <p class="actions">
        <button type="submit" name="intent" value="add line" data-last-line>
          Add a line
        </button>
      </p>
      <details class="fold" id="quick-lines">
        <summary>Add a line of common work</summary>
        <p class="actions">
          {quick.map(({ name }) => (
            <button type="submit" name="intent" value={`add line:${name}`} class="quiet">
              {name}
            </button>
          ))}
        </p>
      </details>
    </fieldset>
  );
};

/** Nobody types these: what the owner refused, and own words that read like a name on a list. */
const CARRIED = ["refused", "ownWork", "ownPart"] as const;

const named = (all: readonly { readonly name: string }[]): readonly string[] => all.map(({ name }) => name);

const LineRow = ({ view, row, number }: { view: IntakeView; row: string; number: number }) => {
  const field = `line.${row}`;
  const certainty = `${field}.certainty`;
  const name = view.fields.get(`${field}.operation`) || view.fields.get(`${field}.part`) || "empty";
  return (
    <fieldset class="line" data-line={row}>
      <legend>
        <span class="unseen">Line </span>
        {number}
        <span class="unseen">: {name}</span>
      </legend>
      {CARRIED.map((leaf) => (
        <Carried view={view} name={`${field}.${leaf}`} />
      ))}
      <div class="row">
        <Small view={view} name={`${field}.operation`} label="Work" list="operations" />
        <Small view={view} name={`${field}.part`} label="Part" list="parts" grow />
        <Small view={view} name={`${field}.assembly`} label="Where" list="assemblies" />
        <Small view={view} name={`${field}.count`} label="Count" figure />
        <div class="small">
          <label for={certainty}>
            Certainty<span class="unseen"> ({labelOf(certainty, view.read.draft, view.context)})</span>
          </label>
          <select id={certainty} name={certainty} {...ties({ ...view, name: certainty })}>
            {["planned", "if found", "optional"].map((one) => (
              <option value={one} selected={(view.fields.get(certainty) || "planned") === one}>
                {one}
              </option>
            ))}
          </select>
          <Wrong {...view} name={certainty} />
        </div>
        <div class="only-found">
          <Small view={view} name={`${field}.probability`} label="Chance, %" figure />
        </div>
        <div class="only-optional small">
          <label for={`${field}.chosen`}>Chosen</label>
          <input
            type="checkbox"
            id={`${field}.chosen`}
            name={`${field}.chosen`}
            value="on"
            checked={Boolean(view.fields.get(`${field}.chosen`))}
          />
        </div>
        <Small view={view} name={`${field}.reason`} label="Why" grow />
        <div class="row-buttons">
          <button
            type="submit"
            name="intent"
            value={`repeat line:${row}`}
            class="icon"
            aria-label={`Repeat line ${number}`}
            title="Repeat this line"
          >
            <svg viewBox="0 0 16 16" aria-hidden="true" class="glyph">
              <path d="M2 2h8v8H2zM6 13h8V6" />
            </svg>
          </button>
          <button
            type="submit"
            name="intent"
            value={`remove line:${row}`}
            class="icon"
            aria-label={`Remove line ${number}`}
            title="Remove this line"
          >
            ×
          </button>
        </div>
      </div>
      <LineMore view={view} row={row} />
    </fieldset>
  );
};
