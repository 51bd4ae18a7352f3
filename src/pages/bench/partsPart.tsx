import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import { Ask, NO_OR_YES } from "../frame/ask.js";
import { Box, Pick } from "../frame/field.js";
import { BenchForm } from "./benchForm.js";
import type { BenchView, Need } from "./view.js";

export const Parts = (view: BenchView) => {
  const { needs, closedOn, errors } = view;
  const still = needs.filter(({ needed, used }) => used < needed);
  const more = ["partCount", "paidPrice", "partState", "for"].some((name) => errors.has(name) || view.fields.get(name));
  return (
    <section id="parts" aria-labelledby="parts-name">
      <h2 id="parts-name" class="step">
        Parts used
      </h2>
      {closedOn === undefined ? (
        <BenchForm view={view} act="part" title="Part used" id="part-form">
          <input type="hidden" name="list" value={view.revision} />
          <Box
            {...view}
            name="code"
            label="Scan a code, or type a number of the list, a name or a value"
            hint="Then Enter. 2 and Enter is one piece of number 2."
            code
          />
          <button type="submit" class="big">
            Use it
          </button>
          <details {...(more ? { open: true } : {})}>
            <summary>Pieces, price, state</summary>
            <div class="columns">
              <Ask form={view} name="partCount" hint="One, if left empty." />
              <Ask form={view} name="paidPrice" />
              <Ask form={view} name="partState" options={PART_STATES.map((state) => [state, state] as const)} />
              <Pick
                {...view}
                name="for"
                label="For"
                hint="Only where the list does not say it."
                options={[["", "the work that needs it"], ...worksOf(view)]}
              />
              <Ask form={view} name="insteadOf" options={NO_OR_YES} />
            </div>
          </details>
        </BenchForm>
      ) : null}
      {needs.length === 0 ? (
        <p class="empty">No work of this job takes a part.</p>
      ) : still.length === 0 ? (
        <p>✓ Every part that the job needs is used.</p>
      ) : (
        <ol class="bench-rows picks">
          {still.map((need) => (
            <PickRow view={view} need={need} />
          ))}
        </ol>
      )}
    </section>
  );
};

const worksOf = ({ groups, after }: BenchView): [string, string][] => [
  ...groups.flatMap(({ name, works }) => works.map(({ id, title }): [string, string] => [id, `${name}: ${title}`])),
  ...after.map(({ id, title }): [string, string] => [id, title]),
];

const PickRow = ({ view, need }: { view: BenchView; need: Need }) => {
  const { number, item, work, kind, type, name, needed, used, blocked } = need;
  return (
    <li class={blocked ? "bench-row blocked" : "bench-row"} value={number}>
      <div class="bench-what">
        <span class="number">{number}</span>
        <strong>{name}</strong>
        <span class="hint">
          {" "}
          {needed - used} of {needed} still needed
        </span>
        <p class="why">{work}</p>
        {blocked ? <p class="blocked-why">× Not agreed: do not use it.</p> : null}
      </div>
      {blocked || view.closedOn !== undefined ? null : (
        <BenchForm view={view} act="part" title={`Use 1 × ${name}`} kind="use">
          <input type="hidden" name="for" value={item} />
          {kind === undefined ? (
            <input type="hidden" name="type" value={type} />
          ) : (
            <input type="hidden" name="kind" value={kind} />
          )}
          <button type="submit" class="big">
            Use 1
            <span class="unseen">
              {" "}
              of number {number}, {name}, for {work}
            </span>
          </button>
        </BenchForm>
      )}
    </li>
  );
};
