/** What comes off, what is done on each assembly, and what goes back. */
import { duration, fastenersText, listed, spread, whyText } from "../../wording/index.js";
import { key } from "../form/fields.js";
import { capital } from "../revise/smallForm.js";
import { BenchForm } from "./benchForm.js";
import { Start } from "./timerPart.js";
import type { BenchView, WorkGroup, WorkRow } from "./view.js";

export const Removal = (view: BenchView) => {
  const { sheet, tongue, leaveIn, input, closedOn } = view;
  const { removal, boards, alreadyOpen, minutes } = sheet.access;
  if (removal.length === 0 && boards.length === 0 && alreadyOpen.length === 0) return null;
  const names = new Map(input.map?.assemblies.map(({ id, name }) => [id, name]));
  return (
    <section id="removal" aria-labelledby="removal-name">
      <h2 id="removal-name">1. Take off, in this order</h2>
      <p class="hint">
        Opening and refitting together: {spread(minutes, tongue.locale)}. Mark unkeyed connectors and photograph every loom before
        you pull it.
        {alreadyOpen.length > 0 ? ` Open already: ${listed(alreadyOpen.map((id) => names.get(id) ?? id))}.` : ""}
      </p>
      <ol class="bench-rows">
        {removal.map((step) => {
          const stays = leaveIn.has(step.id);
          const why = step.why.filter(({ rule }) => rule !== "worked").map((each) => whyText(each, tongue));
          return (
            <li class={stays ? "bench-row blocked" : "bench-row"}>
              <div class="bench-what">
                <strong>{step.name}</strong>
                <span class="hint"> {duration(step.remove.likely, tongue.locale)}</span>
                {stays ? <p class="blocked-why">× Leave it in: it only comes off for work that is not agreed.</p> : null}
                {step.hazards.length > 0 ? <p class="danger">Caution: {listed(step.hazards)}.</p> : null}
                <p class="why">
                  {[...why, ...(step.fasteners.length > 0 ? [`${fastenersText(step.fasteners)}.`] : [])].join(" ")}
                </p>
              </div>
              {stays || closedOn !== undefined ? null : (
                <Start view={view} title={`${step.name}, opening and refitting`} assembly={step.id} />
              )}
            </li>
          );
        })}
      </ol>
    </section>
  );
};

export const Works = (view: BenchView) => (
  <section id="work" aria-labelledby="work-name">
    <h2 id="work-name">2. Work</h2>
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
  const { id, title, reason, minutes, blocked, ifFound, done, count } = work;
  const whole = `${on}: ${title}`;
  const state = blocked ? "blocked" : done >= count ? "done" : "";
  return (
    <li class={`bench-row ${state}`.trim()} id={`work-${key(id)}`}>
      <div class="bench-what">
        <strong>{title}</strong>
        {ifFound ? <span class="tag">only if found necessary</span> : null}
        {blocked ? null : <span class="tag tag-on">agreed</span>}
        {minutes > 0 ? <span class="hint"> {duration(minutes, view.tongue.locale)} logged</span> : null}
        {reason ? <p class="why">{reason}</p> : null}
        {blocked ? <p class="blocked-why">× {blocked}</p> : null}
      </div>
      {blocked || view.closedOn !== undefined ? null : (
        <div class="bench-acts">
          <Tick view={view} work={work} whole={whole} />
          <Start view={view} title={whole} item={id} />
        </div>
      )}
    </li>
  );
};

const Tick = ({ view, work: { id, count, done }, whole }: { view: BenchView; work: WorkRow; whole: string }) => {
  const field = `count.${key(id)}`;
  const wrong = view.errors.get(field);
  return (
    <BenchForm view={view} act="tick" title={`Done: ${whole}`} kind="tick">
      <input type="hidden" name="item" value={id} />
      {wrong ? (
        <p class="wrong" id={`${field}-wrong`}>
          <span class="unseen">Error: </span>
          {wrong}
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
            {...(wrong ? { "aria-invalid": "true", "aria-describedby": `${field}-wrong` } : {})}
          />
          <span class="of">of {count}</span>
          <button type="submit" class="big">
            Tick off<span class="unseen"> {whole}</span>
          </button>
          {done < count ? (
            <button type="submit" name="all" value={String(count)} class="big">
              All<span class="unseen"> of {whole}</span>
            </button>
          ) : null}
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

export const Refit = ({ sheet, tongue, input }: BenchView) =>
  sheet.access.refit.length === 0 ? null : (
    <section id="refit" aria-labelledby="refit-name">
      <h2 id="refit-name">5. Refit, in this order</h2>
      <ol class="bench-rows">
        {sheet.access.refit.map(({ id, name, minutes, after }) => {
          const why = (input.map?.fitBefore ?? []).flatMap((pair) => (pair.then === id && pair.why ? [pair.why] : []));
          return (
            <li class="bench-row">
              <div class="bench-what">
                <strong>{name}</strong>
                <span class="hint"> {duration(minutes, tongue.locale)}</span>
                {after.length > 0 || why.length > 0 ? (
                  <p class="why">
                    {after.length > 0 ? `After ${listed(after)}. ` : ""}
                    {why.map((each) => `${capital(each)}.`).join(" ")}
                  </p>
                ) : null}
              </div>
            </li>
          );
        })}
      </ol>
    </section>
  );

export const AfterRefit = (view: BenchView) =>
  view.after.length === 0 ? null : (
    <section id="after" aria-labelledby="after-name">
      <h2 id="after-name">6. Test and soak</h2>
      <ul class="bench-rows">
        {view.after.map((work) => (
          <Row view={view} work={work} on="Test and soak" />
        ))}
      </ul>
    </section>
  );
