import type { Child } from "hono/jsx";
import { Field } from "../frame/field.js";

/** The way between the pages about who gets in. */
const ENTRIES = [
  ["/account", "Your account"],
  ["/staff", "Staff"],
  ["/tokens", "API tokens"],
] as const;

interface PeopleMenuProps {
  readonly at: (typeof ENTRIES)[number][0];
  /** Of a manager: a technician has only the first. */
  readonly all: boolean;
}

export const PeopleMenu = ({ at, all }: PeopleMenuProps) =>
  all ? (
    <nav aria-label="Who gets in" class="beside people">
      {ENTRIES.map(([href, name]) => (
        <a href={href} {...(at === href ? { "aria-current": "page" } : {})}>
          {name}
        </a>
      ))}
    </nav>
  ) : null;

/** A form that was sent by someone whose sign-in had ended: it waits until they are in again. */
export interface HeldForm {
  readonly path: string;
  /** multipart: it had files, which a browser has to be given again. */
  readonly kind: "plain" | "multipart";
  readonly fields: readonly (readonly [name: string, value: string])[];
  /** Names of the fields that held files. */
  readonly files: readonly string[];
}

/** How passkeys can be used where this page was opened. */
export type PasskeyPlace =
  | { readonly is: "here" }
  /** An address without a name cannot have passkeys; this one can. */
  | { readonly is: "at"; readonly href: string }
  | { readonly is: "nowhere" };

export interface Look {
  readonly style: string;
  readonly icon: string;
  /** The script that asks for passkeys. */
  readonly script: string;
}

interface ShownOnceProps {
  /** Id of the box. */
  readonly name: string;
  readonly title: string;
  readonly label: "Token" | "Link";
  readonly value: string;
  readonly children: Child;
}

/** A secret that is shown now and never again, with a button to copy it. */
export const ShownOnce = ({ name, title, label, value, children }: ShownOnceProps) => (
  <section class="card once" aria-labelledby="once-name">
    <h2 id="once-name">{title}</h2>
    <p>{children}</p>
    <Field name={name} label={label}>
      <input id={name} value={value} readonly spellcheck={false} />
    </Field>
    <p class="actions">
      <button type="button" data-copy={name} hidden>
        Copy the {label.toLowerCase()}
      </button>
      <span id="copied" role="status" />
    </p>
  </section>
);
