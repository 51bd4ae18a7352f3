/** What the owner may choose, and what may be left out. A set is priced as a whole: members share what they need. */
import { signedMoney } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import { key } from "../form/fields.js";
import { Tick } from "../frame/field.js";
import type { EstimateView, OwnerGroup } from "./view.js";

export const Options = ({ view }: { view: EstimateView }) => {
  const { sheet, state } = view;
  if (sheet.options.length === 0) return null;
  const open = state.is === "open";
  return (
    <fieldset class="part" id="choose">
      <legend>Your choice</legend>
      <p class="hint">
        {open ? "Tick what you want. " : ""}Options share work, so each price goes with the others as they are ticked; the total
        is worked out for the whole set.
      </p>
      {sheet.options.map((option) => (
        <Option view={view} option={option} open={open} />
      ))}
    </fieldset>
  );
};

const Option = ({ view, option, open }: { view: EstimateView; option: OwnerGroup; open: boolean }) => {
  const id = `choose.${key(option.id)}`;
  const chosen = view.choice.chosen.includes(option.id);
  return (
    <div class="field tick option">
      {open ? (
        <input type="checkbox" id={id} name="choose" value={option.id} checked={chosen} aria-describedby={`${id}-price`} />
      ) : null}
      <label for={id}>
        {open ? null : <span class={chosen ? "tag tag-on" : "tag"}>{chosen ? "taken" : "left"}</span>} {option.names.join("; ")}
        {option.reason ? <span class="why"> {option.reason}</span> : null}
      </label>
      <span class="option-price" id={`${id}-price`} data-follows>
        {chosen ? money(option.price, view.tongue) : signedMoney(option.price, view.tongue)}
        <span class="hint">{chosen ? " in the total" : " to the total"}</span>
      </span>
    </div>
  );
};

export const Strikes = ({ view: { work, choice, wrong } }: { view: EstimateView }) =>
  work.length === 0 ? null : (
    <details class="fold" id="strike" open={choice.struck.length > 0 || wrong.some(({ field }) => field === "strike")}>
      <summary>Leave some of the work out</summary>
      <fieldset>
        <legend class="unseen">Work to leave out</legend>
        <p class="hint">
          Tick what you do not want. You then agree in part, and we do the rest. Leaving work out may leave the fault in; ask us
          if you are not sure.
        </p>
        {work.map(({ id, title, ifFound }) => (
          <Tick
            id={`strike.${key(id)}`}
            name="strike"
            value={id}
            checked={choice.struck.includes(id)}
            label={
              <>
                {title}
                {ifFound ? <span class="why"> if found</span> : null}
              </>
            }
          />
        ))}
      </fieldset>
    </details>
  );
