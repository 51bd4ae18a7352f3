/** Asks before a draft is withdrawn: nothing of it is kept but that it was. */
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

interface WithdrawDraftPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly draft: { readonly id: string; readonly revision: number; readonly version: number };
  readonly say?: string | undefined;
}

export const WithdrawDraftPage = (props: WithdrawDraftPageProps) => {
  const { frame, job, draft, errors, say } = props;
  return (
    <JobFramed frame={frame} job={job} title={`Withdraw the draft of revision ${draft.revision}`} wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      <p>
        It was not issued, so nobody outside the shop has seen it. What was typed in it is gone for good; the trail tells that it
        was, by whom it was withdrawn and why. The next draft is revision {draft.revision} again.
      </p>
      <form method="post" action={`/jobs/${job.id}/draft/withdrawal`} class="narrow" novalidate>
        <input type="hidden" name="estimate" value={draft.id} />
        <input type="hidden" name="version" value={String(draft.version)} />
        <Ask form={props} name="by" autocomplete="name" />
        <Ask form={props} name="reason" rows={1} />
        <p class="actions">
          <button type="submit" class="primary">
            Withdraw it
          </button>
          <a class="button" href={`/estimates/${draft.id}`}>
            Keep it
          </a>
        </p>
      </form>
    </JobFramed>
  );
};
