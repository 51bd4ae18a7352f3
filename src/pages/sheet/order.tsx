/** What comes off, in which order and why; what goes back, and after what. */

import { boardsName } from "../../wording/line.js";
import { fastenersText, listed } from "../../wording/list.js";
import { reckoned, spread, whyText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import { key } from "../form/fields.js";
import type { SheetProps } from "./sources.js";

export const Order = ({ sheet, tongue, open = false }: SheetProps & { open?: boolean }) => {
  const { removal, refit, boards, alreadyOpen, minutes } = sheet.access;
  const { charged } = sheet.time;
  if (removal.length === 0 && boards.length === 0 && alreadyOpen.length === 0) return null;
  return (
    <section class="order">
      <h3>Opening and refitting</h3>
      <p class="hint">
        Access takes {spread(minutes, tongue.locale)}
        {charged === undefined ? "" : `; charged is ${duration(charged.access, tongue.locale)}, the mean of such times`}.
      </p>
      {boards.length > 0 ? (
        <ul>
          {boards.map((board) => (
            <li>
              {boardsName(board.size, board.mounting, board.count)}: {spread(board.minutes, tongue.locale)}
            </li>
          ))}
        </ul>
      ) : null}
      {removal.length > 0 ? (
        <details id="order-removal" open={open}>
          <summary>Removal, {stepsOf(removal)}</summary>
          <ol class="steps">
            {removal.map((step) => (
              <li id={`step-${key(step.id)}`}>
                <span class="step-name">{step.name}</span>{" "}
                <span class="step-time">{duration(reckoned(step.remove, sheet), tongue.locale)}</span>
                <span class="why">
                  {" "}
                  {step.why.map((why) => whyText(why, tongue)).join(" ")}
                  {step.fasteners.length > 0
                    ? ` ${fastenersText(step.fasteners)}.`
                    : ` Timed by ${step.rests === "measured" ? "measurement here" : "standard"}.`}
                </span>
              </li>
            ))}
          </ol>
        </details>
      ) : null}
      {refit.length > 0 ? (
        <details id="order-refit" open={open}>
          <summary>Refit, {stepsOf(refit)}</summary>
          <ol class="steps">
            {refit.map((step) => (
              <li>
                <span class="step-name">{step.name}</span> <span class="step-time">{duration(step.minutes, tongue.locale)}</span>
                {step.after.length > 0 ? <span class="why"> After {listed(step.after)}.</span> : null}
              </li>
            ))}
          </ol>
        </details>
      ) : null}
    </section>
  );
};

const stepsOf = ({ length }: readonly unknown[]): string => `${length} ${length === 1 ? "step" : "steps"}`;
