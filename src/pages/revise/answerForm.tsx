/**
 * Puts on record an answer that was not given on the page. A spoken one carries the particulars that 16 CCR 2722(a) lists, in every
 * place; one in writing says which writing.
 */
import { SPOKEN_FIELDS } from "../../estimating/agreement/spoken.js";
import { money } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { key } from "../form/fields.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { Tick } from "../frame/field.js";
import type { JobHead } from "./jobFrame.js";

export interface AnswerFormProps {
  readonly form: AskedForm;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly revision: number;
  readonly contentHash: string;
  readonly options: readonly { readonly id: string; readonly names: readonly string[]; readonly price: number }[];
  /** Work that can be left out. */
  readonly work: readonly { readonly id: string; readonly title: string }[];
  readonly chosen: readonly string[];
  readonly struck: readonly string[];
  /** For the set as it is ticked. */
  readonly total: number;
  /** On top of what is agreed already, measured as the profile does. */
  readonly additional: number;
  readonly withTax: boolean;
  /** Id of the record to be corrected, and what it is. */
  readonly corrects?: { readonly id: string; readonly text: string };
}

export const AnswerForm = (props: AnswerFormProps) => {
  const { form, job, revision, corrects, options, work, chosen, struck, tongue, total, additional, withTax } = props;
  return (
    <form method="post" action={`/jobs/${job.id}/answers`} id="record" novalidate>
      <button type="submit" name="intent" value="price" class="unseen" tabindex={-1}>
        Work out the price
      </button>
      <input type="hidden" name="token" value={form.fields.get("token")} />
      <input type="hidden" name="contentHash" value={props.contentHash} />
      {corrects ? <input type="hidden" name="corrects" value={corrects.id} /> : null}
      <fieldset class="part">
        <legend>{corrects ? "Correct an answer" : `Record an answer to revision ${revision}`}</legend>
        {corrects ? <p>The new record takes the place of this one, which stays readable: {corrects.text}</p> : null}
        <div class="columns">
          <Ask
            form={form}
            name="answer"
            options={[
              ["agreed", "agreed"],
              ["part agreed", "agreed in part: some work is left out"],
              ["declined", "declined"],
            ]}
          />
          <Ask
            form={form}
            name="channel"
            options={[
              ["telephone", "by telephone"],
              ["in person", "in person"],
              ["e-mail", "by e-mail"],
            ]}
          />
          <Ask form={form} name="by" />
          <Ask form={form} name="recordedBy" autocomplete="name" />
        </div>
        {options.length > 0 ? (
          <fieldset class="ticks">
            <legend>Options taken</legend>
            {options.map(({ id, names, price }) => (
              <Tick
                id={`chosen.${key(id)}`}
                name="chosen"
                value={id}
                checked={chosen.includes(id)}
                label={`${names.join("; ")} (${money(price, tongue)})`}
              />
            ))}
          </fieldset>
        ) : null}
        <details class="fold" id="leave-out" open={struck.length > 0}>
          <summary>Work left out</summary>
          <fieldset class="ticks">
            <legend class="unseen">Work left out</legend>
            {work.map(({ id, title }) => (
              <Tick id={`struck.${key(id)}`} name="struck" value={id} checked={struck.includes(id)} label={title} />
            ))}
          </fieldset>
        </details>
        <p>
          For what is ticked the total is <strong>{money(total, tongue)}</strong>; that is{" "}
          <strong>{money(additional, tongue)}</strong> ({withTax ? "tax included" : "before tax"}) on what is agreed already.{" "}
          <button type="submit" name="intent" value="price" class="quiet">
            Work out the price
          </button>
        </p>
      </fieldset>
      <fieldset class="part spoken">
        <legend>When it was spoken</legend>
        <p class="hint">
          By telephone or in person without a paper: all of these go on record (16 CCR 2722(a)). Not legal advice; check your
          local law.
        </p>
        <div class="columns">
          {SPOKEN_FIELDS.map((field) => (
            <Ask
              form={form}
              name={`spoken.${field}`}
              {...(field === "date" ? { type: "date" as const } : {})}
              {...(field === "additionalCost" ? { hint: `For what is ticked: ${money(additional, tongue)}.` } : {})}
            />
          ))}
        </div>
      </fieldset>
      <fieldset class="part written">
        <legend>When it was written</legend>
        <Ask form={form} name="writing" size="long" />
      </fieldset>
      {corrects ? <Ask form={form} name="reason" size="long" /> : null}
      <p class="actions">
        <button type="submit" name="intent" value="record" class="primary">
          Put it on record
        </button>
      </p>
    </form>
  );
};
