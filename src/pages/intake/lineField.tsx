/** A small labelled box in a row of boxes. */
import { labelOf } from "../form/label.js";
import { described, Wrong } from "./field.js";
import type { IntakeView } from "./view.js";

interface Props {
  readonly view: IntakeView;
  readonly name: string;
  readonly label: string;
  readonly list?: string;
  readonly figure?: boolean;
  readonly grow?: boolean;
}

/** The visible label is short; the full one also says which line. */
export const Small = ({ view, name, label, list, figure = false, grow = false }: Props) => (
  <div class={`small${grow ? " grow" : ""}${figure ? " short" : ""}${view.errors.has(name) ? " field-wrong" : ""}`}>
    <label for={name}>
      {label}
      <span class="unseen"> ({labelOf(name, view.read.draft, view.context)})</span>
    </label>
    <input
      id={name}
      name={name}
      value={view.fields.get(name) ?? ""}
      autocomplete="off"
      {...(list ? { list } : {})}
      {...(figure ? { inputmode: "decimal" } : {})}
      {...described(view, name)}
    />
    <Wrong view={view} name={name} />
  </div>
);
