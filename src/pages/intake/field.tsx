/** One labelled field: label above, hint, problem, box. The name of the field is its id. */
import type { Child } from "hono/jsx";
import { labelOf } from "../form/label.js";
import type { IntakeView } from "./view.js";

export interface FieldProps {
  readonly view: IntakeView;
  readonly name: string;
  readonly label?: string;
  readonly hint?: string;
  /** Width in figures or letters the answer usually has. */
  readonly size?: "figure" | "money" | "word" | "line" | "long";
  readonly list?: string;
  readonly autocomplete?: string;
  readonly type?: "text" | "email" | "tel" | "date";
  /** Not a word of any language: no spelling marks. */
  readonly code?: boolean;
}

/** Ties hint and problem to the box. */
export function described(view: IntakeView, name: string, hint?: string) {
  const ids = [...(hint ? [`${name}-hint`] : []), ...(view.errors.has(name) ? [`${name}-wrong`] : [])];
  return {
    ...(ids.length > 0 ? { "aria-describedby": ids.join(" ") } : {}),
    ...(view.errors.has(name) ? { "aria-invalid": "true" } : {}),
  };
}

export const Wrong = ({ view, name }: { view: IntakeView; name: string }) =>
  view.errors.has(name) ? (
    <p class="wrong" id={`${name}-wrong`}>
      <span class="unseen">Error: </span>
      {view.errors.get(name)}
    </p>
  ) : null;

const Around = ({ view, name, label, hint, children }: FieldProps & { children: Child }) => (
  <div class={view.errors.has(name) ? "field field-wrong" : "field"}>
    <label for={name}>{label ?? labelOf(name, view.read.draft, view.context)}</label>
    {hint ? (
      <p class="hint" id={`${name}-hint`}>
        {hint}
      </p>
    ) : null}
    <Wrong view={view} name={name} />
    {children}
  </div>
);

export const Text = (props: FieldProps) => {
  const { view, name, hint, size = "line", list, autocomplete = "off", type = "text", code } = props;
  const figures = size === "figure" ? "numeric" : size === "money" ? "decimal" : undefined;
  return (
    <Around {...props}>
      <input
        id={name}
        name={name}
        type={type}
        value={view.fields.get(name) ?? ""}
        class={`size-${size}`}
        autocomplete={autocomplete}
        {...(figures ? { inputmode: figures } : {})}
        {...(list ? { list } : {})}
        {...(code ? { spellcheck: false } : {})}
        {...described(view, name, hint)}
      />
    </Around>
  );
};

export const Note = (props: FieldProps & { rows?: number }) => (
  <Around {...props}>
    <textarea id={props.name} name={props.name} rows={props.rows ?? 3} {...described(props.view, props.name, props.hint)}>
      {firstLineKept(props.view.fields.get(props.name) ?? "")}
    </textarea>
  </Around>
);

/** HTML drops one line break at the start of a text area. */
const firstLineKept = (text: string): string => (/^[\r\n]/.test(text) ? `\n${text}` : text);

export type Options = readonly (readonly [value: string, name: string])[];

export const Choice = (props: FieldProps & { options: Options }) => {
  const now = props.view.fields.get(props.name) ?? "";
  const stray = now !== "" && !props.options.some(([value]) => value === now);
  return (
    <Around {...props}>
      <select
        id={props.name}
        name={props.name}
        class={`size-${props.size ?? "line"}`}
        {...described(props.view, props.name, props.hint)}
      >
        {[...props.options, ...(stray ? [[now, now] as const] : [])].map(([value, name]) => (
          <option value={value} selected={value === now}>
            {name}
          </option>
        ))}
      </select>
    </Around>
  );
};

export const Tick = ({ view, name, label, hint }: FieldProps) => (
  <div class="field tick">
    <input
      type="checkbox"
      id={name}
      name={name}
      value="on"
      checked={Boolean(view.fields.get(name))}
      {...described(view, name, hint)}
    />
    <label for={name}>{label ?? labelOf(name, view.read.draft, view.context)}</label>
    {hint ? (
      <p class="hint" id={`${name}-hint`}>
        {hint}
      </p>
    ) : null}
  </div>
);

/** A field that travels with the form and is not for eyes. */
export const Carried = ({ view, name }: { view: IntakeView; name: string }) =>
  view.fields.has(name) ? <input type="hidden" name={name} value={view.fields.get(name)} /> : null;
