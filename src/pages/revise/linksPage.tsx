/** Every link to a job's owner's page: where it went, until when it opens; one more, or one withdrawn. */

import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { Table, unseen } from "../frame/table.js";
import { JobFramed, type JobHead } from "./jobFrame.js";
import { LinkOnce, type LinkOnceProps, OutOfReach, SendTick } from "./linkOnce.js";

export interface LinkRow {
  readonly id: string;
  readonly revision: number;
  readonly made: string;
  readonly by: string;
  readonly deliveredTo: string;
  readonly until: string;
  /** Why it opens nothing any more. */
  readonly dead?: string;
}

interface LinksPageProps extends AskedForm {
  readonly frame: Frame;
  readonly script: string;
  readonly job: JobHead;
  /** Newest first. */
  readonly links: readonly LinkRow[];
  /** The revision a new link would open first; absent: none is issued. */
  readonly revision?: number;
  readonly made?: LinkOnceProps;
  readonly say?: string | undefined;
  /** Owners reach the shop's address. */
  readonly reachable: boolean;
  /** The shop has a send hook. */
  readonly canSend: boolean;
}

export const LinksPage = (props: LinksPageProps) => {
  const { frame, script, job, links, revision, reachable, made, errors, say } = props;
  return (
    <JobFramed frame={frame} job={job} title="Links to the owner's page" script={script} wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {made ? <LinkOnce {...made} /> : null}
      <Table
        class="list"
        caption="Links, newest first"
        empty={
          reachable
            ? "No link yet. Issuing a revision makes the first; the owner reads the estimate and answers it there."
            : "No link yet."
        }
        heads={["Given", "Made", "Opens", unseen("Withdraw")]}
        rows={links.map((row) => [
          row.deliveredTo,
          `${row.made} by ${row.by}, with revision ${row.revision}`,
          row.dead ? <span class="tag">{row.dead}</span> : `until ${row.until}`,
          row.dead ? null : (
            <a href={`/jobs/${job.id}/links/${row.id}/withdrawal`}>
              Withdraw<span class="unseen"> the link given: {row.deliveredTo}</span>
            </a>
          ),
        ])}
      />
      {reachable ? null : <OutOfReach />}
      {revision === undefined || !reachable ? null : (
        <form method="post" action={`/jobs/${job.id}/links`} novalidate>
          <fieldset class="part">
            <legend>One more link</legend>
            <p>It shows the issued revisions of this job. Earlier links keep working until they end.</p>
            <div class="columns">
              <Ask form={props} name="by" autocomplete="name" />
              <Ask form={props} name="deliveredTo" code />
              <Ask form={props} name="days" />
            </div>
            {props.canSend ? <SendTick fields={props.fields} /> : null}
            <p class="actions">
              <button type="submit" class="primary">
                Make a link
              </button>
            </p>
          </fieldset>
        </form>
      )}
    </JobFramed>
  );
};

interface WithdrawPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly link: LinkRow;
}

/** It cannot be undone, so it is asked for on a page of its own. */
export const WithdrawPage = (props: WithdrawPageProps) => {
  const { frame, job, link, errors } = props;
  return (
    <JobFramed frame={frame} job={job} title="Withdraw a link" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <p>
        The link given (<strong>{link.deliveredTo}</strong>, {link.made}) will open nothing any more, for good. Answers given
        through it stay on record.
      </p>
      <form method="post" action={`/jobs/${job.id}/links/${link.id}/withdrawal`} class="narrow" novalidate>
        <input type="hidden" name="token" value={props.fields.get("token")} />
        <Ask form={props} name="by" autocomplete="name" />
        <Ask form={props} name="reason" />
        <p class="actions">
          <button type="submit" class="primary">
            Withdraw it for good
          </button>
          <a class="button" href={`/jobs/${job.id}/links`}>
            Keep it
          </a>
        </p>
      </form>
    </JobFramed>
  );
};
