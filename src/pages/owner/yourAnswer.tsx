/** The answer: a typed name and a button. Nothing is sent before it was checked on a page of its own. */
import { money } from "../../wording/figures.js";
import { Box } from "../frame/field.js";
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
      <Box
        name="name"
        label="Your full name"
        hint="It stands for your signature."
        size="word"
        autocomplete="name"
        fields={new Map([["name", typed?.name ?? ""]])}
        errors={new Map(fault ? [["name", fault]] : [])}
      />
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
