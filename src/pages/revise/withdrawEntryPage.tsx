/** Asks before an entry of the work log is withdrawn: it cannot be undone, only logged anew. */
import { day, duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "./jobFrame.js";
import type { LogRow } from "./workLogPage.js";

interface WithdrawEntryPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly entry: LogRow;
  readonly closedOn?: string;
}

export const WithdrawEntryPage = (props: WithdrawEntryPageProps) => {
  const { frame, job, tongue, entry, closedOn, errors, fields } = props;
  const { what, part, minutes, person, workedOn } = entry;
  const time = minutes === undefined ? undefined : duration(minutes, tongue.locale);
  return (
    <JobFramed frame={frame} job={job} title="Withdraw an entry" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <p>
        <strong>{[what, part, time].filter(Boolean).join(", ")}</strong>, {person}, {day(workedOn, tongue.locale)}
      </p>
      <p>
        The entry stays on record, struck through, and no longer counts.
        {part ? " Its pieces go back to the count of the shelf; if the shelf was counted since, count it once more." : ""}
      </p>
      {closedOn === undefined ? null : (
        <p class="not-agreed">
          The job was closed on {day(closedOn, tongue.locale)}. Its account stays as it is until the close-out is corrected.
        </p>
      )}
      <form
        method="post"
        action={`/jobs/${job.id}/work-log/${encodeURIComponent(entry.id)}/withdrawal`}
        class="narrow"
        novalidate
      >
        <input type="hidden" name="token" value={fields.get("token")} />
        <Ask form={props} name="by" autocomplete="name" />
        <Ask form={props} name="reason" rows={1} />
        <p class="actions">
          <button type="submit" name="intent" value="correct" class="primary">
            Withdraw it and enter it again
          </button>
          <button type="submit">Withdraw it</button>
          <a class="button" href={`/jobs/${job.id}/work-log`}>
            Keep it
          </a>
        </p>
      </form>
    </JobFramed>
  );
};
