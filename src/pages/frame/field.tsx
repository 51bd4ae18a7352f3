/** Labelled fields: label above, problem, box, hint below, so that the boxes of a row stand at one height. The name of the field is its id. */
import type { Child } from "hono/jsx";

export interface SmallForm {
  readonly fields: ReadonlyMap<string, string>;
  /** Field -> what is wrong with it. */
  readonly errors: ReadonlyMap<string, string>;
}

const NONE: SmallForm["errors"] = new Map();

interface Named {
  readonly errors?: SmallForm["errors"];
  readonly name: string;
  /** Where fields of one name stand several times on a page; otherwise the name. */
  readonly id?: string;
}

interface FieldProps extends Named {
  readonly label: Child;
  readonly hint?: Child;
  readonly help?: string | undefined;
}

/** What is wrong with a field, where it stands. */
export const Wrong = ({ errors = NONE, name, id = name }: Named) =>
  errors.has(name) ? (
    <p class="wrong" id={`${id}-wrong`}>
      <span class="unseen">Error: </span>
      {errors.get(name)}
    </p>
  ) : null;

/** Beside its label: what a field means, told in the help; on a page of its own, so that what was typed stays. */
export const HelpLink = ({ help, label }: { help?: string | undefined; label: Child }) =>
  help === undefined ? null : (
    <a
      class="help"
      href={`/help/${help}`}
      target="_blank"
      rel="noopener"
      aria-label={`Help: ${typeof label === "string" ? label : "this field"} (opens a new tab)`}
    >
      ?
    </a>
  );

/** Around a box of any kind, which takes `ties` with it. */
export const Field = ({
  errors = NONE,
  name,
  id = name,
  label,
  hint,
  help,
  children,
}: FieldProps & { readonly children: Child }) => (
  <div class={errors.has(name) ? "field field-wrong" : "field"}>
    <label for={id}>{label}</label>
    <HelpLink help={help} label={label} />
    <Wrong errors={errors} name={name} id={id} />
    {children}
    {hint ? (
      <p class="hint" id={`${id}-hint`}>
        {hint}
      </p>
    ) : null}
  </div>
);

/** Ties hint and problem to the box. */
export function ties({ errors = NONE, name, id = name, hint }: Named & { readonly hint?: Child }) {
  const ids = [...(hint ? [`${id}-hint`] : []), ...(errors.has(name) ? [`${id}-wrong`] : [])];
  return {
    ...(ids.length > 0 ? { "aria-describedby": ids.join(" ") } : {}),
    ...(errors.has(name) ? { "aria-invalid": "true" } : {}),
  };
}

interface InputProps extends SmallForm {
  readonly name: string;
  readonly id?: string;
  readonly hint?: Child;
  readonly help?: string | undefined;
  readonly autocomplete?: string | undefined;
  /** Width in figures or letters the answer usually has. */
  readonly size?: "figure" | "money" | "word" | "line" | "long";
  readonly type?: "text" | "email" | "tel" | "date" | "time" | "password";
  /** Not a word of any language: no spelling marks. */
  readonly code?: boolean | undefined;
  /** Id of a list of suggestions. */
  readonly list?: string | undefined;
  /** Which keys a screen offers, where the width does not tell. */
  readonly keys?: "numeric" | "decimal" | undefined;
  /** In place of what was typed. */
  readonly value?: string | undefined;
  /** Its label to those who do not see the head it stands under. */
  readonly spoken?: string;
}

export interface BoxProps extends InputProps {
  readonly label: Child;
  readonly rows?: number;
}

/** The box alone, for a place that labels it by other means. */
export const Input = (props: InputProps) => {
  const { name, fields, autocomplete = "off", size, type = "text", code, list, value } = props;
  const keys = props.keys ?? (size === "figure" ? "numeric" : size === "money" ? "decimal" : undefined);
  return (
    <input
      id={props.id ?? name}
      name={name}
      type={type}
      value={type === "password" ? "" : (value ?? fields.get(name) ?? "")}
      autocomplete={autocomplete}
      {...(size && { class: `size-${size}` })}
      {...(keys && { inputmode: keys })}
      {...(code && { spellcheck: false })}
      {...(list && { list })}
      {...(props.spoken && { "aria-label": props.spoken })}
      {...ties(props)}
    />
  );
};

export const Box = (props: BoxProps) => (
  <Field {...props}>
    <Input {...props} />
  </Field>
);

type FileBoxProps = FieldProps & { readonly accept: string; readonly multiple?: boolean; readonly children?: Child };

export const FileBox = ({ accept, multiple, children, ...field }: FileBoxProps) => (
  <Field {...field}>
    <input type="file" id={field.name} name={field.name} accept={accept} {...(multiple && { multiple })} {...ties(field)} />
    {children}
  </Field>
);

/** In a cell of a table, whose heads are its label to the eye. */
export const CellBox = ({ label, ...props }: BoxProps) => (
  <>
    <label class="unseen" for={props.id ?? props.name}>
      {label}
    </label>
    <Input {...props} />
    <Wrong {...props} />
  </>
);

export const Area = (props: BoxProps) => (
  <Field {...props}>
    <textarea id={props.id ?? props.name} name={props.name} rows={props.rows ?? 4} {...ties(props)}>
      {firstLineKept(props.value ?? props.fields.get(props.name) ?? "")}
    </textarea>
  </Field>
);

/** HTML drops one line break at the start of a text area. */
export const firstLineKept = (text: string): string => (/^[\r\n]/.test(text) ? `\n${text}` : text);

export type Options = readonly (readonly [value: string, name: string])[];

/** A value that is no choice is kept in view. */
export const Pick = (props: BoxProps & { options: Options }) => {
  const now = props.value ?? props.fields.get(props.name) ?? "";
  const stray = now !== "" && !props.options.some(([value]) => value === now);
  return (
    <Field {...props}>
      <select id={props.id ?? props.name} name={props.name} {...(props.size && { class: `size-${props.size}` })} {...ties(props)}>
        {[...props.options, ...(stray ? [[now, now] as const] : [])].map(([value, name]) => (
          <option value={value} selected={value === now}>
            {name}
          </option>
        ))}
      </select>
    </Field>
  );
};

interface TickProps {
  readonly name: string;
  /** Its name, unless several boxes share one. */
  readonly id?: string;
  readonly value?: string;
  readonly checked: boolean;
  readonly label: Child;
  readonly hint?: Child;
  readonly help?: string | undefined;
  readonly errors?: SmallForm["errors"];
  readonly disabled?: boolean;
  /** The form it belongs to, where it stands outside of it. */
  readonly form?: string;
}

/** A box to tick, with its label behind it; one that is not ticked sends nothing. */
export const Tick = ({
  name,
  id = name,
  value = "yes",
  checked,
  label,
  hint,
  help,
  errors = NONE,
  disabled,
  form,
}: TickProps) => (
  <div class={errors.has(id) ? "field tick field-wrong" : "field tick"}>
    <input
      type="checkbox"
      id={id}
      name={name}
      value={value}
      checked={checked}
      {...(disabled && { disabled })}
      {...(form && { form })}
      {...ties({ errors, name: id, hint })}
    />
    <label for={id}>{label}</label>
    <HelpLink help={help} label={label} />
    {hint ? (
      <p class="hint" id={`${id}-hint`}>
        {hint}
      </p>
    ) : null}
    <Wrong errors={errors} name={id} />
  </div>
);

interface TicksProps extends Named {
  readonly legend: string;
  readonly hint?: Child;
  readonly values: readonly string[];
  readonly ticked: readonly string[];
}

/** Boxes of one name: which of several. */
export const Ticks = ({ name, legend, hint, values, ticked, errors = NONE }: TicksProps) => (
  <fieldset class="ticks" id={name}>
    <legend>{legend}</legend>
    {hint ? <p class="hint">{hint}</p> : null}
    <Wrong errors={errors} name={name} />
    {values.map((value, at) => (
      <Tick id={`${name}.${at}`} name={name} value={value} checked={ticked.includes(value)} label={value} />
    ))}
  </fieldset>
);
