/** What is done on each assembly, ticked off and timed work by work. */

import { ONLY_SAVED, SAVE_FIRST, saveFirstText } from "../../wording/caution.js";
import { listed } from "../../wording/list.js";
import { duration } from "../../wording/time.js";
import { key } from "../form/fields.js";
import { ties, Wrong } from "../frame/field.js";
import { BenchForm } from "./benchForm.js";
import { Start } from "./timerPart.js";
import type { BenchView, WorkGroup, WorkRow } from "./view.js";

export const Works = (view: BenchView) => (
  <section id="works" aria-labelledby="works-name">
    <h2 id="works-name" class="step">
      Work
    </h2>
    {view.groups.map((group) => (
      <Group view={view} group={group} />
    ))}
  </section>
);

const Group = ({ view, group: { name, hazards, works } }: { view: BenchView; group: WorkGroup }) => (
  <section class="bench-group">
    <h3>
      {name} <span class="hint">{progress(works)}</span>
    </h3>
    {hazards.length > 0 ? <p class="danger">Caution: {listed(hazards)}.</p> : null}
    <ul class="bench-rows">
      {works.map((work) => (
        <Row view={view} work={work} on={name} />
      ))}
    </ul>
  </section>
);

/** How many of the agreed works are done. */
function progress(works: readonly WorkRow[]): string {
  const agreed = works.filter(({ blocked, ifFound }) => !blocked && !ifFound);
  const done = agreed.filter(({ done, count }) => done >= count).length;
  return agreed.length === 0 ? "" : done === agreed.length ? "✓ all done" : `${done} of ${agreed.length} done`;
}

const Row = ({ view, work, on }: { view: BenchView; work: WorkRow; on: string }) => {
  const { id, title, reason, foundIn, minutes, blocked, ifFound, done, count } = work;
  const whole = `${on}: ${title}`;
  const state = blocked ? "blocked" : done >= count ? "done" : "";
  return (
    <li class={`bench-row ${state}`.trim()} id={`work-${key(id)}`}>
      <div class="bench-what">
        <strong>{title}</strong>
        {ifFound ? <span class="tag">only if found necessary</span> : null}
        {blocked ? null : <span class="tag tag-on">agreed</span>}
        {minutes > 0 ? <span class="hint"> {duration(minutes, view.tongue.locale)} logged</span> : null}
        {foundIn === undefined ? null : <p class="why">Extra fault, revision {foundIn}.</p>}
        {work.afterSaving ? <p class="danger">{ONLY_SAVED}</p> : null}
        {reason ? <p class="why">{reason}</p> : null}
        {view.above?.of.has(id) ? <p class="why">{view.above.why}</p> : null}
        {blocked ? <p class="blocked-why">× {blocked}</p> : null}
      </div>
      {(blocked && done === 0) || view.closedOn !== undefined ? null : (
        <div class="bench-acts">
          <Tick view={view} work={work} whole={whole} />
          {blocked ? null : <Start view={view} title={whole} item={id} />}
        </div>
      )}
    </li>
  );
};

const Tick = ({ view, work: { id, count, done }, whole }: { view: BenchView; work: WorkRow; whole: string }) => {
  const field = `count.${key(id)}`;
  return (
    <BenchForm view={view} act="tick" title={`Done: ${whole}`} kind="tick">
      <input type="hidden" name="item" value={id} />
      <Wrong {...view} name={field} />
      {view.errors.has(field) ? (
        <p class="hint">
          Is there more of it than was counted? <a href={`/jobs/${view.job.id}/extra-fault`}>Add an extra fault</a>
        </p>
      ) : null}
      {count > 1 ? (
        <>
          <label for={field} class="unseen">
            Done of {whole}
          </label>
          <input
            id={field}
            name="count"
            inputmode="numeric"
            class="size-figure"
            autocomplete="off"
            value={view.fields.get(field) ?? String(done)}
            {...ties({ ...view, name: field })}
          />
          <span class="of">of {count}</span>
          <button type="submit" class="big">
            Tick off<span class="unseen"> {whole}</span>
          </button>
          <button type="submit" name="all" value={done < count ? String(count) : "0"} class="big">
            {done < count ? "All" : "Undo"}
            <span class="unseen"> of {whole}</span>
          </button>
        </>
      ) : (
        <>
          <input type="hidden" id={field} name="count" value={done >= count ? "0" : "1"} />
          <button type="submit" class="big">
            {done >= count ? "✓ Done" : "Tick off"}
            <span class="unseen">
              {" "}
              {whole}
              {done >= count ? ", take it back" : ""}
            </span>
          </button>
        </>
      )}
    </BenchForm>
  );
};

/** Before anything comes off. */
export const First = (view: BenchView) =>
  !view.sheet.memory ? null : (
    <section id="first" aria-labelledby="first-name">
      <h2 id="first-name" class="step">
        {SAVE_FIRST}
      </h2>
      <p class="danger">{saveFirstText(view.input.unit)}</p>
      <ul class="bench-rows">
        {view.first.map((work) => (
          <Row view={view} work={work} on={SAVE_FIRST} />
        ))}
      </ul>
    </section>
  );

export const AfterRefit = (view: BenchView) =>
  view.after.length === 0 ? null : (
    <section id="after" aria-labelledby="after-name">
      <h2 id="after-name" class="step">
        Test and soak
      </h2>
      <ul class="bench-rows">
        {view.after.map((work) => (
          <Row view={view} work={work} on="Test and soak" />
        ))}
      </ul>
    </section>
  );
