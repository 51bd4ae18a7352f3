/** One field of an act's form: label, hint, kind and choices are the act's own; the page says where it stands and what stands in it. */
import type { Saying } from "../../wording/saying.js";
import { Area, Box, type BoxProps, Pick, type SmallForm, Tick } from "./field.js";

export interface AskedForm extends SmallForm {
  /** Field -> what the act says of it. */
  readonly says: ReadonlyMap<string, Saying>;
}

type Beside = Partial<Omit<BoxProps, "fields" | "errors" | "name">> & {
  /** To choose from, where the words differ from the values or the act names none. */
  readonly options?: readonly (readonly [value: string, name: string])[];
};

const UNSAID = ["", "Not said"] as const;
/** A tick as a choice, where a box would stand alone. */
export const NO_OR_YES = [
  ["", "no"],
  ["yes", "yes"],
] as const;

const SIZES = { whole: "figure", decimal: "figure", exact: "figure", money: "money" } as const;

export const Ask = ({ form, name, options, ...beside }: Beside & { readonly form: AskedForm; readonly name: string }) => {
  // Rows of one kind are said once: lines.0.packs is lines.*.packs, and packs.o12 is packs.*.
  const saying =
    form.says.get(name) ?? form.says.get(name.replaceAll(/\.\d+(?=\.)/g, ".*")) ?? form.says.get(name.replace(/\.[^.]+$/, ".*"));
  if (!saying) throw new Error(`The form has no field '${name}'.`);
  const { kind, label, hint, help, unit, optional, choices = [] } = saying;
  const size = kind === "whole" || kind === "decimal" || kind === "exact" || kind === "money" ? { size: SIZES[kind] } : {};
  const props = { ...form, name, label: unit ? `${label} (${unit})` : label, hint, help, ...size, ...beside };
  if (options) return <Pick {...props} options={options} />;
  switch (kind) {
    case "choice":
      return <Pick {...props} options={[...(optional ? [UNSAID] : []), ...choices.map((each) => [each, each] as const)]} />;
    case "note":
    case "lines":
      return <Area {...props} />;
    case "tick":
      return (
        <Tick name={name} label={props.label} hint={hint} help={help} errors={form.errors} checked={form.fields.has(name)} />
      );
    case "day":
      return <Box {...props} type="date" />;
    case "secret":
      return <Box {...props} type="password" />;
    default:
      return <Box {...props} />;
  }
};
