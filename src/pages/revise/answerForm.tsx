/**
 * Puts on record an answer that was not given on the page: who, when, how, what was agreed and at what amount. A law profile adds
 * particulars to a spoken one; one in writing says which writing.
 */
import type { SpokenField } from "../../estimating/law/spoken.js";
import { money } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { key } from "../form/fields.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { Tick } from "../frame/field.js";
import type { OwnerWork } from "../owner/view.js";
import type { JobHead } from "./jobFrame.js";

export interface AnswerFormProps {
  readonly form: AskedForm;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly revision: number;
  readonly contentHash: string;
  readonly options: readonly { readonly id: string; readonly names: readonly string[]; readonly price: number }[];
  /** Work that can be left out, with its own lines of the whole. */
  readonly work: readonly OwnerWork[];
  readonly chosen: readonly string[];
  readonly struck: readonly string[];
  /** Tax comes on top of the amounts of work. */
  readonly beforeTax: boolean;
  /** For the set as it is ticked. */
  readonly total: number;
  /** On top of what is agreed already, measured as the profile does. */
  readonly additional: number;
  readonly withTax: boolean;
  /** An earlier revision is agreed to. */
  readonly onTop: boolean;
  /** What the law profile adds to the record of a spoken answer. */
  readonly spokenFields: readonly SpokenField[];
  /** The last day of the offer, where it is past. */
  readonly ended?: string;
  /** Owed, tax included, were the agreement taken back now. */
  readonly back?: number;
  /** Id of the record to be corrected, and what it is. */
  readonly corrects?: { readonly id: string; readonly text: string };
}

export const AnswerForm = (props: AnswerFormProps) => {
  const { form, job, revision, corrects, options, work, chosen, struck, tongue, total, additional, withTax, onTop } = props;
  const inPart = struck.length > 0;
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
        {corrects ? (
          <p>
            The new record takes the place of this one, which stays readable: {corrects.text} An owner who takes the agreement
            back declines here
            {onTop ? "; what an earlier revision was agreed at stands until that answer is corrected too" : ""}.
            {props.back === undefined ? "" : ` As log and ticks stand, ${money(props.back, tongue)}, tax included, is then owed.`}
          </p>
        ) : null}
        {props.ended ? (
          <>
            <p class="wrong" id="ended">
              This offer ended on {props.ended}, and the owner can no longer agree to it on the page. What was agreed by then is
              recorded with the day it was said; for a later answer a new revision says today's price.
            </p>
            <Ask form={form} name="afterEnd" />
          </>
        ) : null}
        <div class="columns">
          <Ask form={form} name="by" />
          <Ask
            form={form}
            name="channel"
            options={[
              ["telephone", "by telephone"],
              ["in person", "in person"],
              ["e-mail", "by e-mail"],
            ]}
          />
          <div class="spoken">
            <Ask form={form} name="spoken.date" type="date" />
          </div>
          <div class="spoken">
            <Ask form={form} name="spoken.time" />
          </div>
          <div class="written">
            <Ask form={form} name="writing" size="long" />
          </div>
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
        {/* Also where every tick is taken away. */}
        <input type="hidden" name="work" value="" />
        <details class="fold" id="work" open={inPart || work.length <= SHORT}>
          <summary>
            The work agreed to (
            <span id="of-work">
              {work.length - struck.length} of {work.length}
            </span>
            )
          </summary>
          <fieldset class="ticks">
            <legend class="unseen">The work agreed to</legend>
            <p class="hint">
              What is ticked will be done. Take a tick away for work the owner does not want.
              {props.beforeTax ? " Amounts here are before tax; those of options and of what may be found have it in." : ""}
            </p>
            {work.map(({ id, title, amount, ifFound }) => (
              <Tick
                id={`work.${key(id)}`}
                name="work"
                value={id}
                checked={!struck.includes(id)}
                label={`${title}${amount === undefined ? "" : ` (${money(amount, tongue)})`}${ifFound ? ", if found" : ""}`}
              />
            ))}
          </fieldset>
        </details>
        <p>
          <span id="for-ticked" role="status">
            For what is ticked the total is <strong>{money(total, tongue)}</strong>
            {onTop && additional > 0 ? (
              <>
                ; that is <strong>{money(additional, tongue)}</strong> ({withTax ? "tax included" : "before tax"}) on what is
                agreed already
              </>
            ) : onTop ? (
              ", no more than what is agreed already"
            ) : props.spokenFields.includes("additionalCost") ? (
              <>
                , the additional cost <strong>{money(additional, tongue)}</strong>
              </>
            ) : null}
            .
          </span>{" "}
          <button type="submit" name="intent" value="price" class="quiet">
            Work out the price
          </button>
        </p>
        <noscript>
          <p class="hint">Press it again once you have changed a tick: the total does not follow by itself.</p>
        </noscript>
        <Ask form={form} name="amount" />
      </fieldset>
      {props.spokenFields.length > 0 ? (
        <fieldset class="part spoken">
          <legend>What the agreement profile asks of a spoken answer</legend>
          <p class="hint">All of these go on record. Not legal advice; check your local law.</p>
          <div class="columns">
            {props.spokenFields.map((field) => (
              <Ask form={form} name={`spoken.${field}`} />
            ))}
          </div>
        </fieldset>
      ) : null}
      {corrects ? <Ask form={form} name="reason" size="long" /> : null}
      <p class="actions">
        <button type="submit" name="answer" value="agreed" class="primary">
          Record: agreed to what is ticked
        </button>
        <button type="submit" name="answer" value="declined">
          Record: declined
        </button>
      </p>
    </form>
  );
};

/** More than this, and the list starts folded. */
const SHORT = 15;
