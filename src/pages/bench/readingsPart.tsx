/** Readings: what a work item expects is given, the rest is typed. */
import { plainNumber } from "../../wording/figures.js";
import { Ask } from "../frame/ask.js";
import { figures, Table } from "../frame/table.js";
import { BenchForm } from "./benchForm.js";
import type { BenchView } from "./view.js";

const USUAL = ["cell voltage", "supply +5 V", "supply +12 V", "supply -12 V", "supply +15 V", "supply -15 V", "high tension"];

export const Readings = (view: BenchView) => {
  const { readings, wanted, closedOn, tongue, input } = view;
  return (
    <section id="readings" aria-labelledby="readings-name">
      <h2 id="readings-name" class="step">
        Readings
      </h2>
      {readings.length > 0 ? (
        <Table
          class="lines"
          caption="Readings taken, oldest first"
          scroll="Readings taken"
          heads={["Reading", ...figures("Expected", "Found", "Off by"), "Who"]}
          rows={readings.map(({ label, where, expected, found, off, person }) => [
            <>
              {label}
              {where ? <span class="why"> {where}</span> : null}
            </>,
            ...[expected, found, off, person],
          ])}
        />
      ) : null}
      {closedOn !== undefined ? null : (
        <>
          {wanted.map(({ label, expected, unit, assembly }, index) => (
            <BenchForm view={view} act="reading" title={`Reading: ${label}`} kind="wanted">
              <input type="hidden" name="label" value={label} />
              <input type="hidden" name="expected" value={plainNumber(expected, tongue.locale)} />
              <input type="hidden" name="unit" value={unit} />
              <input type="hidden" name="assembly" value={assembly ?? ""} />
              <label for={`found-${index}`}>
                {label}: expected {plainNumber(expected, tongue.locale)} {unit}, found
              </label>
              <input
                id={`found-${index}`}
                name="found"
                inputmode={expected < 0 ? "text" : "decimal"}
                class="size-figure"
                autocomplete="off"
              />
              <span class="of">{unit}</span>
              <button type="submit" class="big">
                Note it<span class="unseen">: {label}</span>
              </button>
            </BenchForm>
          ))}
          <BenchForm view={view} act="reading" title="Reading" id="reading-form">
            <div class="columns">
              <Ask form={view} name="label" list="usual-readings" />
              <Ask form={view} name="expected" size="word" />
              <Ask form={view} name="found" size="word" />
              <Ask form={view} name="unit" size="word" />
              <Ask
                form={view}
                name="assembly"
                options={[
                  ["", "the unit as a whole"],
                  ...(input.map?.assemblies ?? []).map(({ id, name }) => [id, name] as const),
                ]}
              />
            </div>
            <datalist id="usual-readings">
              {[...new Set([...readings.map(({ label }) => label), ...USUAL])].map((label) => (
                <option value={label} />
              ))}
            </datalist>
            <button type="submit" class="big">
              Note the reading
            </button>
          </BenchForm>
        </>
      )}
    </section>
  );
};
