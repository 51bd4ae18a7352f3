/** What comes off, and what goes back, in order. */

import { withLeftIn } from "../../estimating/sheet/leftIn.js";
import { capital, fastenersText, listed } from "../../wording/list.js";
import { reckoned, spread, whyText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import { Start } from "./timerPart.js";
import type { BenchView } from "./view.js";

export const comesOff = ({ removal, boards, alreadyOpen }: BenchView["sheet"]["access"]): boolean =>
  removal.length > 0 || boards.length > 0 || alreadyOpen.length > 0;

export const Removal = (view: BenchView) => {
  const { sheet, tongue, leaveIn, input, closedOn } = view;
  const { alreadyOpen, minutes } = sheet.access;
  const { removal } = withLeftIn(sheet.access, (id) => leaveIn.has(id));
  if (!comesOff(sheet.access)) return null;
  const assemblies = new Map(input.map?.assemblies.map((each) => [each.id, each]));
  return (
    <section id="removal" aria-labelledby="removal-name">
      <h2 id="removal-name" class="step">
        Take off, in this order
      </h2>
      <p class="hint">
        Opening and refitting together: {spread(minutes, tongue.locale)}. Mark unkeyed connectors and photograph every loom before
        you pull it.
        {alreadyOpen.length > 0 ? ` Open already: ${listed(alreadyOpen.map((id) => assemblies.get(id)?.name ?? id))}.` : ""}
      </p>
      <ol class="bench-rows">
        {removal.map((step) => {
          const stays = leaveIn.has(step.id);
          const notes = assemblies.get(step.id)?.notes;
          const why = step.why.filter(({ rule }) => rule !== "worked").map((each) => whyText(each, tongue));
          return (
            <li class={stays ? "bench-row blocked" : "bench-row"}>
              <div class="bench-what">
                <strong>{step.name}</strong>
                <span class="hint"> {duration(reckoned(step.remove, sheet), tongue.locale)}</span>
                {stays ? LEAVE_IN : null}
                {step.hazards.length > 0 ? <p class="danger">Caution: {listed(step.hazards)}.</p> : null}
                <p class="why">
                  {[
                    ...(notes ? [notes] : []),
                    ...why,
                    ...(step.fasteners.length > 0 ? [`${fastenersText(step.fasteners)}.`] : []),
                  ].join(" ")}
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

const LEAVE_IN = <p class="blocked-why">× Leave it in: it only comes off for work that is not agreed.</p>;

export const Refit = ({ sheet, tongue, input, leaveIn }: BenchView) => {
  const { refit } = withLeftIn(sheet.access, (id) => leaveIn.has(id));
  return refit.length === 0 ? null : (
    <section id="refit" aria-labelledby="refit-name">
      <h2 id="refit-name" class="step">
        Refit, in this order
      </h2>
      <ol class="bench-rows">
        {refit.map(({ id, name, minutes, after }) => {
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
};
