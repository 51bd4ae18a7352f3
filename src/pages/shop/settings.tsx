/** The shop itself: who it is, and how it writes figures. */
import { type Frame, Page } from "../frame/layout.js";

export type SettingsFields = ReadonlyMap<string, string>;

export interface SettingsPageProps {
  readonly frame: Frame;
  readonly fields: SettingsFields;
  /** Field -> what is wrong with it. */
  readonly errors: ReadonlyMap<string, string>;
  readonly say?: string;
  readonly books: readonly { readonly id: string; readonly name: string }[];
  readonly currencies: readonly string[];
}

export const SettingsPage = (props: SettingsPageProps) => {
  const { frame, errors, say, books, currencies } = props;
  return (
    <Page frame={frame} title="Shop" at="/settings" wrong={errors.size > 0}>
      <h1>Shop</h1>
      {errors.size > 0 ? (
        <section class="summary" aria-labelledby="summary-name" tabindex={-1}>
          <div role="alert">
            <h2 id="summary-name">There is a problem</h2>
            <ul>
              {[...errors].map(([field, text]) => (
                <li>
                  <a href={`#${field}`}>{text}</a>
                </li>
              ))}
            </ul>
          </div>
        </section>
      ) : null}
      <p role="status" class={say ? "said" : "said empty-said"}>
        {say ?? ""}
      </p>
      <form method="post" action="/settings" novalidate>
        <input type="hidden" name="version" value={props.fields.get("version")} />
        <fieldset class="part">
          <legend>On every document</legend>
          <div class="columns">
            <Box {...props} name="name" label="Name of the shop" />
            <Box {...props} name="phone" label="Telephone" autocomplete="tel" />
            <Box {...props} name="email" label="E-mail" autocomplete="email" />
            <Box {...props} name="taxNumber" label="Tax number" />
            <Box
              {...props}
              name="registration"
              label="Registration"
              hint="Licence or register number, where the law asks for one."
            />
            <Area {...props} name="address" label="Address" />
          </div>
          <Area {...props} name="terms" label="Terms" hint="One a line; printed at the end of each estimate." rows={8} />
        </fieldset>
        <fieldset class="part">
          <legend>Figures and paper</legend>
          <div class="columns">
            <Pick
              {...props}
              name="rateBookId"
              label="Rate book of new estimates"
              options={books.map(({ id, name }) => [id, name] as const)}
            />
            <Pick {...props} name="currency" label="Currency" options={currencies.map((code) => [code, code] as const)} />
            <Box {...props} name="locale" label="Language tag for figures and dates" hint="Such as en-GB or de-DE." />
            <Box {...props} name="timeZone" label="Time zone" hint="Such as Europe/London." />
            <Pick
              {...props}
              name="paper"
              label="Paper"
              options={[
                ["A4", "A4"],
                ["Letter", "Letter"],
              ]}
            />
            <Box {...props} name="benchQueueDays" label="Days until the bench is free" figure />
          </div>
        </fieldset>
        <p class="actions">
          <button type="submit" class="primary">
            Save
          </button>
        </p>
      </form>
    </Page>
  );
};

interface BoxProps extends SettingsPageProps {
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly autocomplete?: string;
  readonly figure?: boolean;
  readonly rows?: number;
}

const Around = ({ errors, name, label, hint, children }: BoxProps & { children: unknown }) => (
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

const told = ({ errors, name, hint }: BoxProps) => {
  const ids = [...(hint ? [`${name}-hint`] : []), ...(errors.has(name) ? [`${name}-wrong`] : [])];
  return {
    ...(ids.length > 0 ? { "aria-describedby": ids.join(" ") } : {}),
    ...(errors.has(name) ? { "aria-invalid": "true" } : {}),
  };
};

const Box = (props: BoxProps) => (
  <Around {...props}>
    <input
      id={props.name}
      name={props.name}
      value={props.fields.get(props.name) ?? ""}
      autocomplete={props.autocomplete ?? "off"}
      {...(props.figure ? { inputmode: "numeric", class: "size-figure" } : {})}
      {...told(props)}
    />
  </Around>
);

const Area = (props: BoxProps) => (
  <Around {...props}>
    <textarea id={props.name} name={props.name} rows={props.rows ?? 4} {...told(props)}>
      {props.fields.get(props.name) ?? ""}
    </textarea>
  </Around>
);

const Pick = (props: BoxProps & { options: readonly (readonly [string, string])[] }) => (
  <Around {...props}>
    <select id={props.name} name={props.name} {...told(props)}>
      {props.options.map(([value, name]) => (
        <option value={value} selected={props.fields.get(props.name) === value}>
          {name}
        </option>
      ))}
    </select>
  </Around>
);
