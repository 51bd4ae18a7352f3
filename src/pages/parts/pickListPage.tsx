/** What to fetch for one job: by part, and by assembly with boxes to tick on paper. */

import type { PickList, PickPart, PickTake } from "../../estimating/parts/pickList.js";
import { counted } from "../../wording/list.js";
import { warningText } from "../../wording/reasons.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { JobFramed, type JobHead } from "../revise/jobFrame.js";

interface PickListProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  /** Absent: nothing is agreed yet. */
  readonly agreed?: { readonly revision: number; readonly list: PickList; readonly closedOn?: string };
  /** Why work items are done, where that is said. */
  readonly reasons: ReadonlyMap<string, string>;
}

export const PickListPage = ({ frame, job, tongue, agreed, reasons }: PickListProps) => (
  <JobFramed frame={frame} job={job} title="Parts to get">
    {agreed === undefined ? (
      <p class="empty">
        Nothing is agreed for this job yet, so no parts are wanted. <a href={`/jobs/${job.id}/answers`}>Record an answer</a> if
        the owner gave one.
      </p>
    ) : (
      <>
        <p>
          {job.number}, {job.unit}: parts of revision {agreed.revision}, as it was agreed.
          {agreed.closedOn === undefined ? "" : ` The job was closed on ${day(agreed.closedOn, tongue.locale)}.`}
        </p>
        {agreed.list.parts.length === 0 ? (
          <p class="empty">The agreed work takes no parts.</p>
        ) : (
          <>
            <ByPart parts={agreed.list.parts} tongue={tongue} />
            <ByAssembly list={agreed.list} reasons={reasons} />
          </>
        )}
        <p class="links screen">
          <a href="/parts">Order list of all jobs</a>
          <a href="/parts/stock">Stock</a>
        </p>
      </>
    )}
  </JobFramed>
);

const ByPart = ({ parts, tongue }: { parts: readonly PickPart[]; tongue: Tongue }) => (
  <section aria-labelledby="by-part">
    <h2 id="by-part">By part</h2>
    <Table
      class="lines stacking"
      caption="By part, as a table"
      scroll
      heads={["Part", ...figures("Needed", "Used", "On the shelf", "On order", "To get")]}
      rows={parts.map((part) => [
        <PartName part={part} tongue={tongue} />,
        part.needed,
        part.used,
        <>
          {part.fromStock}
          {part.stock !== undefined && part.stock > part.fromStock ? <span class="why"> of {part.stock}</span> : null}
        </>,
        part.onOrder,
        part.toGet > 0 ? <strong>{part.toGet}</strong> : part.toGet,
      ])}
    />
  </section>
);

const PartName = ({ part: { part, kind, ifFound, from, remarks }, tongue }: { part: PickPart; tongue: Tongue }) => (
  <>
    {part.name}
    {kind?.value || kind?.form ? <span class="why">{[kind.value, kind.form].filter(Boolean).join(", ")}</span> : null}
    {from.map(({ source, state, pieces }) => (
      <span class="why">{`${pieces} ${state}, ${source}`}</span>
    ))}
    {ifFound > 0 ? <span class="why">{counted(ifFound, "piece")} more only if the work is found to be needed</span> : null}
    {remarks.map((remark) => (
      <span class="why remark">{warningText(remark, tongue)}</span>
    ))}
  </>
);

const ByAssembly = ({ list: { assemblies }, reasons }: { list: PickList; reasons: ReadonlyMap<string, string> }) => (
  <section aria-labelledby="by-assembly">
    <h2 id="by-assembly">By assembly</h2>
    {assemblies.map(({ name, takes }) => (
      <section class="pick">
        <h3>{name}</h3>
        <ul>
          {takes.map((take) => (
            <TakeRow take={take} reason={reasons.get(take.item)} />
          ))}
        </ul>
      </section>
    ))}
  </section>
);

const TakeRow = ({ take: { part, count, used, ifFound }, reason }: { take: PickTake; reason: string | undefined }) => (
  <li>
    <span class="tick-box" aria-hidden="true" />
    <span>
      {`${count} × ${part.name}`}
      {reason ? <span class="why">{reason}</span> : null}
      {ifFound ? <span class="why">Only if it is found to be needed</span> : null}
      {used > 0 ? <span class="why">{used} used</span> : null}
    </span>
  </li>
);
