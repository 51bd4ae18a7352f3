/** How the papers of one job are written and printed. */

import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Box, type Options, Pick, type SmallForm } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

interface PapersPageProps extends SmallForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly owner: string;
  readonly languages: Options;
  /** As the settings have them. */
  readonly usual: { readonly language: string; readonly paper: string };
  /** Whether there is a draft whose paper may still be chosen. */
  readonly draft: boolean;
  readonly say?: string;
}

export const PapersPage = (props: PapersPageProps) => {
  const { frame, job, owner, usual, errors, say } = props;
  return (
    <JobFramed frame={frame} job={job} title="Language and paper" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      <form method="post" action={`/jobs/${job.id}/papers`} novalidate>
        {["was.language", "was.locale", "was.paper"].map((name) => (
          <input type="hidden" name={name} value={props.fields.get(name) ?? ""} />
        ))}
        <fieldset class="part">
          <legend>What {owner} gets, on this job and every other</legend>
          <div class="columns">
            <Pick
              {...props}
              name="language"
              label="Language"
              hint="Of our words. What the shop typed, such as names of work and terms, stays as it is."
              options={[["", `As the shop's: ${usual.language}`], ...props.languages]}
            />
            <Box
              {...props}
              name="locale"
              label="Language tag for figures and dates"
              hint="Such as de-AT; empty: as the shop's, or as usual in the language chosen."
              code
            />
          </div>
        </fieldset>
        {props.draft ? (
          <fieldset class="part">
            <legend>This estimate</legend>
            <Pick
              {...props}
              name="paper"
              label="Paper"
              options={[
                ["", `As the shop's: ${usual.paper}`],
                ["A4", "A4"],
                ["Letter", "Letter"],
              ]}
            />
          </fieldset>
        ) : null}
        <p class="actions">
          <button type="submit" class="primary">
            Save
          </button>
        </p>
      </form>
    </JobFramed>
  );
};
