/** Past jobs priced by the book as it is and as it is proposed, beside what they came to. */

import type { WhatIf } from "../../estimating/closeout/accuracy/whatIf.js";
import type { IsoDate } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import type { Tongue } from "../../wording/tongue.js";
import { type Frame, Page } from "../frame/layout.js";
import { figure, Table } from "../frame/table.js";

interface WhatIfPageProps {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly result: WhatIf;
  readonly accepted: readonly string[];
  readonly version: number;
  readonly inForceFrom: IsoDate;
  readonly nameOf: (job: string) => string;
}

export const WhatIfPage = ({ frame, tongue, result, accepted, version, inForceFrom, nameOf }: WhatIfPageProps) => {
  const { jobs, leftOut, before, after, against } = result;
  return (
    <Page frame={frame} title="What would have changed" at="/looking-back">
      <p class="links back">
        <a href="/looking-back/rate-book">What the rate book should learn</a>
      </p>
      <h1>What would have changed</h1>
      <p>
        {`The last ${counted(jobs.length, "closed job")} priced again with ${counted(accepted.length, "proposal")}: as the rate book stands they come to ${money(before.price, tongue)}, with the proposals ${money(after.price, tongue)}, before any tax that comes on top of them.`}
      </p>
      {against ? (
        <p>
          {`They really came to ${money(against.actual, tongue)}. Job by job the prices were off by ${money(against.offBefore, tongue)} in all; they would have been off by ${money(against.offAfter, tongue)}.`}
        </p>
      ) : null}
      {leftOut.length > 0 ? (
        <p>{`${counted(leftOut.length, "job")} cannot be priced by one of the two and ${leftOut.length === 1 ? "is" : "are"} left out.`}</p>
      ) : null}
      <Table
        class="list"
        caption="Past jobs, closed last first"
        heads={["Job", figure("As it was"), figure("As proposed"), figure("Really came to")]}
        rows={jobs.map(({ job, before: was, after: proposed, actual }) => [
          <a href={`/jobs/${job}/close-out`}>{nameOf(job)}</a>,
          money(was.price, tongue),
          money(proposed.price, tongue),
          actual === undefined ? "" : money(actual, tongue),
        ])}
      />
      <form method="post" action="/looking-back/rate-book">
        <input type="hidden" name="version" value={String(version)} />
        <input type="hidden" name="inForceFrom" value={inForceFrom} />
        {accepted.map((id) => (
          <input type="hidden" name="accept" value={id} />
        ))}
        <p class="actions">
          <button type="submit" class="primary">
            Make version {version + 1}
          </button>
        </p>
      </form>
    </Page>
  );
};
