import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import { key } from "../form/fields.js";
import { Ask, NO_OR_YES } from "../frame/ask.js";
import { Box, Pick, ties, Wrong } from "../frame/field.js";
import { BenchForm, Undo } from "./benchForm.js";
import type { BenchView, Need } from "./view.js";

const FOLDED = ["paidPrice", "partReason", "partSource", "partState", "for", "insteadOf", "ownPart"] as const;

export const Parts = (view: BenchView) => {
  const { needs, closedOn, insteadFor } = view;
  return (
    <section id="parts" aria-labelledby="parts-name">
      <h2 id="parts-name" class="step">
        Parts used
      </h2>
      {closedOn === undefined ? <PartForm {...view} /> : null}
      {needs.length === 0 ? (
        <p class="empty">No work of this job takes a part.</p>
      ) : (
        <>
          {needs.every(({ needed, used }) => used >= needed) ? <p>✓ Every part that the job needs is used.</p> : null}
          <ol class="bench-rows picks">
            {needs.map((need) => (
              <PickRow view={view} need={need} chosen={need === insteadFor} />
            ))}
          </ol>
        </>
      )}
    </section>
  );
};

/** Any part, for any work: of the list, of the catalogue, or in own words. */
const PartForm = (view: BenchView) => {
  const { errors, fields, insteadFor } = view;
  const more = FOLDED.some((name) => errors.has(name) || fields.get(name));
  return (
    <BenchForm view={view} act="part" title="Part used" id="part-form">
      <input type="hidden" name="list" value={view.revision} />
      {insteadFor ? (
        <p id="instead">
          <strong>In place of {insteadFor.name}</strong>, number {insteadFor.number} of the list, for {insteadFor.work}. Say what
          you use. Estimate and log keep what was agreed, and the account says both.
        </p>
      ) : null}
      <div class="columns">
        <Box
          {...view}
          name="code"
          label={insteadFor ? "What you use: its code or name" : "Scan a code, or type a number of the list, a name or a value"}
          hint={
            insteadFor
              ? "Of the catalogue; or say it in your own words below."
              : "Then Enter. 2 and Enter is one piece of number 2."
          }
          code
        />
        <Ask form={view} name="partCount" hint="One, if left empty." />
      </div>
      <p class="actions">
        <button type="submit" class="big">
          Use it
        </button>
        <Beyond asked={errors.has("partCount")} />
      </p>
      <details {...(more ? { open: true } : {})}>
        <summary>Price, state, another part in its place, a part in your own words</summary>
        <div class="columns">
          <Pick
            {...view}
            name="for"
            label="For"
            hint="Only where the list does not say it."
            options={[["", "the work that needs it"], ...worksOf(view)]}
          />
          <Ask form={view} name="insteadOf" options={NO_OR_YES} />
          <Ask form={view} name="ownPart" />
          <Ask form={view} name="paidPrice" />
          <Ask form={view} name="partReason" />
          <Ask form={view} name="partSource" />
          <Ask
            form={view}
            name="partState"
            options={[["", "as its newest offer"], ...PART_STATES.map((state) => [state, state] as const)]}
          />
        </div>
      </details>
    </BenchForm>
  );
};

/** Pressed where more is used than the work needs; a script asks before it sends. */
const Beyond = ({ asked }: { asked: boolean }) => (
  <button type="submit" name="beyond" value="yes" class="big beyond" {...(asked ? {} : { hidden: true })}>
    Use it all the same
  </button>
);

const worksOf = ({ groups, after }: BenchView): [string, string][] => [
  ...groups.flatMap(({ name, works }) => works.map(({ id, title }): [string, string] => [id, `${name}: ${title}`])),
  ...after.map(({ id, title }): [string, string] => [id, title]),
];

const PickRow = ({ view, need, chosen }: { view: BenchView; need: Need; chosen: boolean }) => {
  const { number, item, work, kind, type, name, needed, used, blocked, last } = need;
  const field = `pieces.${key(item)}`;
  const state = blocked ? "blocked" : used >= needed ? "done" : "";
  const again = view.fields.get("for") === item && (view.fields.has("kind") || view.fields.has("type"));
  return (
    <li class={`bench-row ${state}`.trim()} value={number} id={`need-${key(item)}`}>
      <div class="bench-what">
        <span class="number">{number}</span>
        <strong>{name}</strong>
        <span class="hint">
          {" "}
          {used} of {needed} used
        </span>
        <p class="why">{work}</p>
        {need.donors?.map(({ id, name, pieces }) => (
          <p class="hint">
            {pieces} still in <a href={`/parts/donors/${encodeURIComponent(id)}`}>{name}</a>: pulled there, it is logged here.
          </p>
        ))}
        {blocked ? <p class="blocked-why">× Not agreed: do not use it.</p> : null}
      </div>
      {blocked || view.closedOn !== undefined ? null : (
        <div class="bench-acts">
          <BenchForm view={view} act="part" title={`Use ${name}`} kind="use" left={needed - used}>
            <input type="hidden" name="for" value={item} />
            {kind === undefined ? (
              <input type="hidden" name="type" value={type} />
            ) : (
              <input type="hidden" name="kind" value={kind} />
            )}
            <Wrong {...view} name={field} />
            <p class="use-said" role="status" />
            <label for={field} class="unseen">
              Pieces of number {number}, {name}
            </label>
            <input
              id={field}
              name="partCount"
              inputmode="numeric"
              class="size-figure"
              autocomplete="off"
              value={again ? (view.fields.get("all") ?? view.fields.get("partCount")) : "1"}
              {...ties({ ...view, name: field })}
            />
            <button type="submit" class="big">
              Use
              <span class="unseen">
                {" "}
                number {number}, {name}, for {work}
              </span>
            </button>
            {needed - used > 1 ? (
              <button type="submit" name="all" value={String(needed - used)} class="big">
                All {needed - used}
                <span class="unseen">
                  {" "}
                  of number {number}, {name}, for {work}
                </span>
              </button>
            ) : null}
            <Beyond asked={view.errors.has(field)} />
          </BenchForm>
          <a
            href={`/jobs/${view.job.id}/bench?${new URLSearchParams({ by: view.by, instead: item })}#part-form`}
            {...(chosen ? { "aria-current": "true" } : {})}
          >
            Another in its place
            <span class="unseen">
              {" "}
              of number {number}, {name}
            </span>
          </a>
        </div>
      )}
      {last ? (
        <div class="last-use">
          <span class="hint">{last.text}</span>
          {view.closedOn === undefined ? <Undo view={view} entry={last.id} what={last.text} at={`need-${key(item)}`} /> : null}
        </div>
      ) : null}
    </li>
  );
};
