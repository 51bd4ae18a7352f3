/** Any two revisions of a job beside each other. */
import type { ChangeList } from "../../estimating/agreement/changeList.js";
import type { FaultFound, FaultsFound } from "../../estimating/agreement/faultsFound.js";
import type { RowChange } from "../../estimating/agreement/rowChanges.js";
import { categoryText, causesText, fieldText, figureText, markText, rowTitle, signedMoney } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import { listed } from "../../wording/list.js";
import type { Tongue } from "../../wording/tongue.js";
import { Pick } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figure, figures, Table } from "../frame/table.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

interface ChangesPageProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  /** Oldest first. */
  readonly revisions: readonly { readonly revision: number; readonly issued: boolean }[];
  readonly from: number;
  readonly to: number;
  /** Absent: the two cannot be compared. */
  readonly changes?: ChangeList;
}

export const ChangesPage = ({ frame, job, tongue, revisions, from, to, changes }: ChangesPageProps) => {
  const fields = new Map([
    ["from", String(from)],
    ["to", String(to)],
  ]);
  const options = revisions.map(
    ({ revision, issued }) => [String(revision), `Revision ${revision}${issued ? "" : ", draft"}`] as const,
  );
  return (
    <JobFramed frame={frame} job={job} title="What changed">
      {revisions.length < 2 ? (
        <p class="empty">
          There is one revision so far. When a second one is started, this page says what it changes and what the total differs
          by.
        </p>
      ) : (
        <>
          <form method="get" class="beside screen">
            <Pick fields={fields} errors={NONE} name="from" label="From" options={options} />
            <Pick fields={fields} errors={NONE} name="to" label="To" options={options} />
            <button type="submit" class="quiet">
              Compare
            </button>
          </form>
          {changes ? (
            <ChangesPart changes={changes} tongue={tongue} />
          ) : (
            <p class="empty">
              These two cannot be compared: one of them has entries that need correcting, or is in another currency.
            </p>
          )}
        </>
      )}
    </JobFramed>
  );
};

const NONE: ReadonlyMap<string, string> = new Map();

/** What changed between two revisions: money by cause, money by what it is paid for, then row by row with the reasons. */
interface ChangesProps {
  readonly changes: ChangeList;
  readonly tongue: Tongue;
}

export const ChangesPart = ({ changes, tongue }: ChangesProps) => {
  const { rows, causes, categories, figures: beside, faults } = changes;
  const total = beside.find(({ figure }) => figure === "total");
  // What is due then says the same as the total.
  const due = beside.find(({ figure }) => figure === "due");
  const nothingPaid = due?.before === total?.before && due?.after === total?.after;
  if (rows.length === 0 && beside.length === 0) return <p>Nothing on the sheet differs.</p>;
  return (
    <div class="changes-part">
      {total ? <p class="entry strong">{figureText(total, tongue, changes.since.agreed)}.</p> : <p>The total is the same.</p>}
      {causes.length > 0 ? (
        <Table
          class="lines"
          caption="Why the total differs"
          captionSeen
          heads={["Because of", figure("Difference")]}
          rows={causes.map((cause) => [causesText(cause), signedMoney(cause.amount, tongue)])}
        />
      ) : null}
      {faults ? <FaultsPart faults={faults} tongue={tongue} /> : null}
      {categories.some(({ before, after }) => before !== after) ? (
        <Table
          class="lines"
          caption="What it is paid for"
          captionSeen
          heads={["For", figure("Before"), figure("Now")]}
          rows={categories.map(({ category, before, after }) => [
            categoryText(category),
            money(before, tongue),
            money(after, tongue),
          ])}
        />
      ) : null}
      {rows.length > 0 ? (
        <Table
          class="lines"
          caption="Row by row"
          captionSeen
          heads={["What", figure("Difference")]}
          rows={rows.map((row) => cellsOf(row, tongue))}
        />
      ) : null}
      <ul>
        {beside
          .filter(({ figure }) => figure !== "total" && !(figure === "due" && nothingPaid))
          .map((figure) => (
            <li>{figureText(figure, tongue)}</li>
          ))}
      </ul>
    </div>
  );
};

/** Each fault found since with its reason, what it costs by itself, and what it shares with the others. */
export const FaultsPart = ({ faults: { each, together }, tongue }: { faults: FaultsFound; tongue: Tongue }) => {
  const shares = each.some(({ shared }) => shared !== 0);
  const share = (shared: number) => (shares ? [shared === 0 ? "" : money(shared, tongue)] : []);
  return (
    <Table
      class="lines"
      caption="Faults found since, tax included"
      captionSeen
      heads={["Fault", ...figures("By itself", ...(shares ? ["Of it shared"] : []))]}
      rows={[
        ...each.map((fault) => [
          <>
            {fault.name}
            {notesOf(fault).map((note) => (
              <span class="why"> {note}</span>
            ))}
          </>,
          signedMoney(fault.price, tongue),
          ...share(fault.shared),
        ]),
        ...(each.length > 1
          ? [[<strong>Together, in the total</strong>, <strong>{signedMoney(together, tongue)}</strong>, ...share(0)]]
          : []),
      ]}
    />
  );
};

const notesOf = ({ reason, newPlace, opens, is, inTotal }: FaultFound): string[] => [
  ...(reason ? [reason] : []),
  ...(newPlace ? [`${newPlace} was not on the map before.`] : []),
  ...(opens.length > 0 ? [`Opens ${listed(opens)}.`] : []),
  ...(is === "if found" ? ["May prove necessary."] : inTotal ? [] : ["An option that is not chosen."]),
];

const cellsOf = (row: RowChange, tongue: Tongue) => [
  <>
    <span class="tag">{markText(row.mark)}</span> {rowTitle(row, tongue)}
    {row.reason ? <span class="why"> {row.reason}</span> : null}
    {row.fields.length > 0 ? <span class="why"> {row.fields.map((field) => fieldText(field, tongue)).join(", ")}</span> : null}
  </>,
  <>
    {signedMoney(row.amount, tongue)}
    {row.is === "option" || row.is === "if found" ? <span class="hint"> not in the total</span> : null}
  </>,
];
