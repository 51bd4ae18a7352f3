/** What few lines need: a group, minutes of their own, the original part. */
import { Small } from "./field.js";
import type { IntakeView } from "./view.js";

const MORE = [
  "group",
  "low",
  "likely",
  "high",
  "originalType",
  "originalValue",
  "originalVolts",
  "workingVolts",
  "tolerance",
  "audio",
];

export const LineMore = ({ view, row }: { view: IntakeView; row: string }) => {
  const field = `line.${row}`;
  const wrong = MORE.some((leaf) => view.errors.has(`${field}.${leaf}`));
  const said = MORE.filter((leaf) => view.fields.get(`${field}.${leaf}`)?.trim());
  return (
    <details class="fold more" id={`more-${row}`} open={wrong}>
      <summary>
        Group, own minutes, original part{said.length > 0 ? <span class="hint"> filled in: {said.length}</span> : null}
      </summary>
      <div class="row">
        <Small view={view} name={`${field}.group`} label="Group: found or chosen together" />
        <Small view={view} name={`${field}.low`} label="Minutes each: shortest" figure />
        <Small view={view} name={`${field}.likely`} label="Likely" figure />
        <Small view={view} name={`${field}.high`} label="Longest" figure />
      </div>
      <div class="row">
        <Small view={view} name={`${field}.originalType`} label="Original: part type" list="types" />
        <Small view={view} name={`${field}.originalValue`} label="Marking, such as 2u2" />
        <Small view={view} name={`${field}.originalVolts`} label="Rated volts" figure />
        <Small view={view} name={`${field}.workingVolts`} label="Working volts" figure />
        <Small view={view} name={`${field}.tolerance`} label="Tolerance, %" figure />
        <div class="small">
          <label for={`${field}.audio`}>Audio grade</label>
          <select id={`${field}.audio`} name={`${field}.audio`}>
            {[
              ["", "not said"],
              ["yes", "yes"],
              ["no", "no"],
            ].map(([value, name]) => (
              <option value={value} selected={(view.fields.get(`${field}.audio`) ?? "") === value}>
                {name}
              </option>
            ))}
          </select>
        </div>
      </div>
    </details>
  );
};
