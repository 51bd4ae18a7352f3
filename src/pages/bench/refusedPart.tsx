/** Why an entry was not kept; what was typed goes along with the override that lets it through. */
import { Box } from "../frame/field.js";
import type { BenchView, Refusal } from "./view.js";

export const Refused = ({ view, refusal: { text, overridable, sent } }: { view: BenchView; refusal: Refusal }) => (
  <section class="summary" id="refused" tabindex={-1} aria-labelledby="refused-name">
    <h2 id="refused-name">Not kept</h2>
    <p role="alert" class="wrong">
      {text}
    </p>
    <p>
      {view.closedOn === undefined ? (
        <>
          <a href={`/jobs/${view.job.id}/extra-fault`}>Send the owner a revision</a> and wait for the answer.
        </>
      ) : null}
      {overridable ? " If the entry has to be made all the same, an override goes on record with it:" : ""}
    </p>
    {overridable ? (
      <form method="post" action={`/jobs/${view.job.id}/bench`} id="override-form" novalidate>
        {sent
          .filter(([name]) => !name.startsWith("override."))
          .map(([name, value]) => (
            <input type="hidden" name={name} value={value} />
          ))}
        <div class="columns">
          <Box {...view} name="override.by" label="Who decides" />
          <Box {...view} name="override.reason" label="Why" size="long" />
        </div>
        <button type="submit" name="intent" value="override" class="big">
          Log it by override
        </button>
      </form>
    ) : null}
  </section>
);
