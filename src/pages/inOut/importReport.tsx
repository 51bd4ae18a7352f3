/** What was read, which column is which, and what each row would do. */

import { Pick, type SmallForm } from "../frame/field.js";
import { figure, Table } from "../frame/table.js";

export interface ReportView {
  readonly encoding: string;
  readonly delimiter: string;
  readonly headings: readonly string[];
  readonly fields: readonly { readonly name: string; readonly label: string; readonly needed: boolean }[];
  /** This set of headings was seen before. */
  readonly remembered: boolean;
  readonly rows: readonly {
    readonly row: number;
    readonly is: string;
    readonly name: string;
    readonly faults: readonly { readonly column?: string; readonly why: string }[];
  }[];
  readonly groups?: readonly { readonly name: string; readonly pieces: number; readonly field: string }[];
  readonly partTypes: readonly { readonly id: string; readonly name: string }[];
  readonly counts?: readonly { readonly name: string; readonly before: number; readonly after: number }[];
  /** Nothing is wrong and something is to be written. */
  readonly ready: boolean;
  /** Text of the button. */
  readonly doIt: string;
}

const MOST_SHOWN = 300;

export const ImportReport = (props: SmallForm & { report: ReportView }) => {
  const { report } = props;
  const wrong = report.rows.filter(({ is }) => is === "wrong");
  const others = report.rows.filter(({ is }) => is !== "wrong");
  const shown = [...wrong, ...others].slice(0, MOST_SHOWN);
  const columns = [["", "None"] as const, ...report.headings.filter(Boolean).map((heading) => [heading, heading] as const)];
  return (
    <>
      <fieldset class="part">
        <legend>Which column is which</legend>
        <input type="hidden" name="encoding" value={report.encoding} />
        <p>
          {`Read as ${report.encoding}; cells divided by ${report.delimiter}. `}
          {report.remembered ? "These headings were mapped before." : "The mapping is remembered when you carry it out."}
        </p>
        <div class="columns">
          {report.fields.map(({ name, label, needed }) => (
            <Pick {...props} name={`map.${name}`} label={needed ? `${label} (needed)` : label} options={columns} />
          ))}
          <Pick
            {...props}
            name="mark"
            label="Decimal sign in the file"
            options={[
              [".", "point: 1.5"],
              [",", "comma: 1,5"],
            ]}
          />
        </div>
      </fieldset>
      {report.groups && report.groups.length > 0 ? (
        <fieldset class="part">
          <legend>Which part type each group is</legend>
          <p class="hint">
            By the letters of the designators, capacitors also by size. Look at each: what is proposed is only what is usual.
          </p>
          <div class="columns">
            {report.groups.map(({ name, pieces, field }) => (
              <Pick
                {...props}
                name={field}
                label={`${name}: ${pieces} ${pieces === 1 ? "piece" : "pieces"}`}
                options={[["", "Choose"], ...report.partTypes.map((type) => [type.id, type.name] as const)]}
              />
            ))}
          </div>
        </fieldset>
      ) : null}
      <h2 id="report">{headingOf(report)}</h2>
      {report.ready && report.counts && report.counts.length > 0 ? <Counts counts={report.counts} /> : null}
      <Table
        class="list"
        caption="Row by row, what is wrong first"
        scroll
        heads={["Row", "Would be", "What", "Column and reason"]}
        rows={shown.map(({ row, is, name, faults }) => [
          row,
          is,
          name,
          faults.map(({ column, why }) => <p class="wrong">{column ? `${column}: ${why}` : why}</p>),
        ])}
      />
      {report.rows.length > shown.length ? <p>{`and ${report.rows.length - shown.length} more rows.`}</p> : null}
      {report.ready ? (
        <p class="actions">
          <button type="submit" name="intent" value="write" class="primary">
            {report.doIt}
          </button>
        </p>
      ) : null}
    </>
  );
};

function headingOf({ rows, ready }: ReportView): string {
  const tally = new Map<string, number>();
  for (const { is } of rows) tally.set(is, (tally.get(is) ?? 0) + 1);
  const said = [...tally].map(([is, count]) => `${count} ${is}`).join(", ");
  if (tally.has("wrong")) return `${said}: nothing can be written until every row is right`;
  return ready ? `${said}: nothing is written yet` : `${said}: there is nothing to write`;
}

const Counts = ({ counts }: { counts: NonNullable<ReportView["counts"]> }) => (
  <Table
    class="list"
    caption="The counts of the assembly"
    captionSeen
    heads={["Part type", figure("Now"), figure("Then")]}
    rows={counts.map(({ name, before, after }) => [name, before, after])}
  />
);
