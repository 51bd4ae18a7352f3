/** Labelled fields of a small form: label above, hint, problem, box. The name of the field is its id. */
import type { Child } from "hono/jsx";

export interface SmallForm {
  readonly fields: ReadonlyMap<string, string>;
  /** Field -> what is wrong with it. */
  readonly errors: ReadonlyMap<string, string>;
}

export interface BoxProps extends SmallForm {
  readonly name: string;
  readonly label: string;
  readonly hint?: string | undefined;
  readonly autocomplete?: string;
  readonly size?: "figure" | "money" | "word" | "line" | "long";
  readonly type?: "text" | "tel" | "date" | "time" | "password";
  /** Not a word of any language: no spelling marks. */
  readonly code?: boolean;
  /** Id of a list of suggestions. */
  readonly list?: string;
  readonly rows?: number;
}

export const Around = ({ errors, name, label, hint, children }: BoxProps & { children: Child }) => (
  <div class={errors.has(name) ? "field field-wrong" : "field"}>
    <label for={name}>{label}</label>
    {hint ? (
      <p class="hint" id={`${name}-hint`}>
        {hint}
      </p>
    ) : null}
    {errors.has(name) ? (
      <p class="wrong" id={`${name}-wrong`}>
        <span class="unseen">Error: </span>
        {errors.get(name)}
      </p>
    ) : null}
    {children}
  </div>
);

/** Ties hint and problem to the box. */
export function told({ errors, name, hint }: Pick<BoxProps, "errors" | "name" | "hint">) {
  const ids = [...(hint ? [`${name}-hint`] : []), ...(errors.has(name) ? [`${name}-wrong`] : [])];
  return {
    ...(ids.length > 0 ? { "aria-describedby": ids.join(" ") } : {}),
    ...(errors.has(name) ? { "aria-invalid": "true" } : {}),
  };
}

const KEYS = { figure: "numeric", money: "decimal" } as const;

export const Box = (props: BoxProps) => {
  const { name, fields, autocomplete = "off", size, type = "text", code, list } = props;
  return (
    <Around {...props}>
      <input
        id={name}
        name={name}
        type={type}
        value={fields.get(name) ?? ""}
        autocomplete={autocomplete}
        {...(size ? { class: `size-${size}` } : {})}
        {...(size === "figure" || size === "money" ? { inputmode: KEYS[size] } : {})}
        {...(code ? { spellcheck: false } : {})}
        {...(list ? { list } : {})}
        {...told(props)}
      />
    </Around>
  );
};

export const Area = (props: BoxProps) => (
  <Around {...props}>
    <textarea id={props.name} name={props.name} rows={props.rows ?? 4} {...told(props)}>
      {firstLineKept(props.fields.get(props.name) ?? "")}
    </textarea>
  </Around>
);

/** HTML drops one line break at the start of a text area. */
const firstLineKept = (text: string): string => (/^[\r\n]/.test(text) ? `\n${text}` : text);

export type Options = readonly (readonly [value: string, name: string])[];

export const Pick = (props: BoxProps & { options: Options }) => (
  <Around {...props}>
    <select id={props.name} name={props.name} {...told(props)}>
      {props.options.map(([value, name]) => (
        <option value={value} selected={(props.fields.get(props.name) ?? "") === value}>
          {name}
        </option>
      ))}
    </select>
  </Around>
);

/** Yes when ticked; a box that is not ticked sends nothing. */
export const Tick = (props: BoxProps) => (
  <Around {...props}>
    <input
      type="checkbox"
      id={props.name}
      name={props.name}
      value="yes"
      checked={props.fields.has(props.name)}
      {...told(props)}
    />
  </Around>
);
