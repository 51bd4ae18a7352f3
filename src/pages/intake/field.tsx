/** The fields of the intake form: each is labelled by what its name stands for, unless the page says otherwise. */
import { helpOfField, labelOf } from "../form/label.js";
import { Area, Box, type BoxProps, HelpLink, Input, type Options, Pick, Tick as TickBox, Wrong } from "../frame/field.js";
import type { IntakeView } from "./view.js";

type FieldProps = Omit<Partial<BoxProps>, "fields" | "errors" | "name"> & { readonly view: IntakeView; readonly name: string };

const asked = ({ view, label, ...props }: FieldProps): BoxProps => ({
  size: "line",
  help: helpOfField(props.name),
  ...props,
  ...{ fields: view.fields, errors: view.errors },
  label: label ?? labelOf(props.name, view.read.draft, view.context),
});

export const Text = (props: FieldProps) => <Box {...asked(props)} />;

export const Note = (props: FieldProps) => <Area rows={3} {...asked(props)} />;

export const Choice = ({ options, ...props }: FieldProps & { options: Options }) => <Pick {...asked(props)} options={options} />;

export const Tick = ({ view, name, label = labelOf(name, view.read.draft, view.context), hint }: FieldProps) => (
  <TickBox name={name} value="on" checked={Boolean(view.fields.get(name))} label={label} hint={hint} />
);

/** A field that travels with the form and is not for eyes. */
export const Carried = ({ view, name }: { view: IntakeView; name: string }) =>
  view.fields.has(name) ? <input type="hidden" name={name} value={view.fields.get(name)} /> : null;

interface SmallProps {
  readonly view: IntakeView;
  readonly name: string;
  readonly label: string;
  readonly list?: string;
  readonly figure?: boolean;
  readonly grow?: boolean;
}

/** A small labelled box in a row of boxes. The visible label is short; the full one also says which line. */
export const Small = ({ view, name, label, list, figure = false, grow = false }: SmallProps) => (
  <div class={`small${grow ? " grow" : ""}${figure ? " short" : ""}${view.errors.has(name) ? " field-wrong" : ""}`}>
    <label for={name}>
      {label}
      <span class="unseen"> ({labelOf(name, view.read.draft, view.context)})</span>
    </label>
    <HelpLink help={helpOfField(name)} label={label} />
    <Input {...view} name={name} list={list} keys={figure ? "decimal" : undefined} />
    <Wrong {...view} name={name} />
  </div>
);
