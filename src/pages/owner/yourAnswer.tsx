/** The answer: a typed name and a button. Nothing is sent before it was checked on a page of its own. */
import { money } from "../../wording/figures.js";
import type { EstimateView } from "./view.js";

export const YourAnswer = ({ view }: { view: EstimateView }) => {
  const { state, sheet, tongue, typed, wrong } = view;
  const fault = wrong.find(({ field }) => field === "name")?.text;
  const open = state.is === "open";
  return (
    <fieldset class="part screen" id="your-answer">
      <legend>Your answer</legend>
      {open ? (
        <p id="answer-to" data-follows>
          You answer for what is ticked above: <strong>{money(sheet.totals.total, tongue)}</strong>, with a ceiling of{" "}
          {money(sheet.ceiling, tongue)}. You see it once more before it is sent.
        </p>
      ) : null}
      <div class={fault ? "field field-wrong" : "field"}>
        <label for="name">Your full name</label>
        <p class="hint" id="name-hint">
          It stands for your signature.
        </p>
        {fault ? (
          <p class="wrong" id="name-wrong">
            <span class="unseen">Error: </span>
            {fault}
          </p>
        ) : null}
        <input
          id="name"
          name="name"
          value={typed?.name ?? ""}
          class="size-word"
          autocomplete="name"
          aria-describedby={fault ? "name-hint name-wrong" : "name-hint"}
          {...(fault ? { "aria-invalid": "true" } : {})}
        />
      </div>
      <p class="actions">
        {open ? (
          <button type="submit" name="answer" value="agreed" class="primary">
            Agree to what is ticked
          </button>
        ) : null}
        <button type="submit" name="answer" value="declined">
          Decline
        </button>
      </p>
    </fieldset>
  );
};
