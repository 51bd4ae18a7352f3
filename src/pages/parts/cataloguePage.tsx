/** The parts catalogue looked through, and the forms of a part and of an offer. */
import type { Child } from "hono/jsx";
import { counted } from "../../wording/list.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Options } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { type LastPaid, paidText, type Tested, testedText } from "./partStanding.js";
import { PartsFramed } from "./partsFrame.js";

interface CatalogueProps {
  readonly frame: Frame;
  readonly script: string;
  readonly tongue: Tongue;
  readonly typed: string;
  /** Those that were withdrawn, in place of the others. */
  readonly withdrawn: boolean;
  readonly rows: readonly {
    readonly id: string;
    readonly name: string;
    /** Type, value, rating, form. */
    readonly facts: string;
    readonly stock: number;
    readonly offers: number;
    readonly lastPaid?: LastPaid;
    readonly tested?: Tested;
  }[];
  /** Parts before the first that is shown, and of how many. */
  readonly from: number;
  readonly all: number;
  readonly before?: string;
  readonly next?: string;
}

export const CataloguePage = (props: CatalogueProps) => {
  const { frame, script, tongue, typed, withdrawn, rows, from, all, before, next } = props;
  return (
    <PartsFramed frame={frame} title="Catalogue" here="/parts/kinds" script={script}>
      <search>
        <form method="get" action="/parts/kinds" id="find">
          <label for="q">Name, type, value, rating, form, notes or source</label>
          <p class="hint" id="q-hint">
            Any words in any order.
          </p>
          <div class="find-row">
            <input id="q" name="q" type="search" value={typed} aria-describedby="q-hint" autocomplete="off" spellcheck={false} />
            <button type="submit">Find</button>
          </div>
        </form>
      </search>
      <p class="actions screen">
        <a class="button primary" href="/parts/kinds/new">
          Add a part
        </a>
      </p>
      <div id="found">
        <p role="status" id="found-said">
          {shownText(typed, withdrawn, { from, shown: rows.length, all })}
        </p>
        {rows.length > 0 ? (
          <Table
            class="lines stacking"
            caption="Parts of the catalogue"
            heads={["Part", ...figures("On the shelf", "Offers", "Last paid", "Tested good")]}
            rows={rows.map(({ id, name, facts, stock, offers, lastPaid, tested }) => [
              <>
                <a href={`/parts/kinds/${encodeURIComponent(id)}`}>{name}</a>
                <span class="why">{facts}</span>
              </>,
              stock,
              offers,
              lastPaid ? paidText(lastPaid, tongue) : "–",
              (tested && testedText(tested)) || "–",
            ])}
          />
        ) : null}
        <p class="links screen">
          {before ? <a href={before}>Parts before these</a> : null}
          {next ? <a href={next}>More parts</a> : null}
          {withdrawn ? <a href="/parts/kinds">The catalogue</a> : <a href="/parts/kinds?withdrawn=yes">Withdrawn parts</a>}
          <a href="/data/in/part-kinds">Read in a CSV file</a>
        </p>
      </div>
    </PartsFramed>
  );
};

function shownText(
  typed: string,
  withdrawn: boolean,
  { from, shown, all }: { readonly from: number; readonly shown: number; readonly all: number },
): string {
  const what = withdrawn ? "withdrawn part" : "part";
  if (all === 0 && typed !== "") return "No part has all of these words. Try fewer, or a piece of a word.";
  if (all === 0) return withdrawn ? "Nothing was withdrawn." : "The catalogue is empty. Add a part, or read in a CSV file.";
  if (shown === all) return counted(all, what);
  return shown === 0
    ? `${counted(all, what)}; no more than these.`
    : `${counted(all, what)}; ${from + 1} to ${from + shown} by name.`;
}

interface FormPageProps {
  readonly frame: Frame;
  readonly title: string;
  /** Where the form is sent. */
  readonly action: string;
  readonly form: AskedForm;
  /** Asked for in this order. */
  readonly asked: readonly string[];
  readonly options?: Readonly<Record<string, Options>>;
  /** What the button says. */
  readonly button?: string;
  /** The form of a withdrawal, of what stands. */
  readonly withdrawal?: AskedForm | undefined;
  /** It was withdrawn, and is only looked at. */
  readonly withdrawn?: { readonly by: string; readonly reason: string } | undefined;
  readonly back: { readonly href: string; readonly name: string };
  readonly say?: string | undefined;
  /** Above the form. */
  readonly lead?: Child;
  /** Below it. */
  readonly children?: Child;
  /** Problems of forms below it. */
  readonly wrong?: ReadonlyMap<string, string> | undefined;
}

/** A part, or an offer: added, changed, withdrawn. */
export const RecordPage = (props: FormPageProps) => {
  const { frame, title, action, form, asked, options = {}, withdrawal, withdrawn, back, say } = props;
  const errors = new Map([...form.errors, ...(props.wrong ?? []), ...(withdrawal?.errors ?? [])]);
  return (
    <PartsFramed frame={frame} title={title} wrong={errors.size > 0}>
      <p class="links back">
        <a href={back.href}>{back.name}</a>
      </p>
      <ErrorSummary errors={errors} />
      <Said say={withdrawn ? `Withdrawn by ${withdrawn.by}: ${withdrawn.reason}` : say} />
      {props.lead}
      {withdrawn ? null : (
        <form method="post" action={action} novalidate>
          {["token", "version", "drawn", "kind", "currency"]
            .filter((name) => !asked.includes(name))
            .map((name) => (
              <input type="hidden" name={name} value={form.fields.get(name)} />
            ))}
          <fieldset class="part">
            <legend>{props.lead ? "What it is" : title}</legend>
            <div class="columns">
              {asked.map((name) => (
                <Ask form={form} name={name} {...(options[name] && { options: options[name] })} />
              ))}
            </div>
          </fieldset>
          <p class="actions">
            <button type="submit" class="primary">
              {props.button ?? "Save"}
            </button>
          </p>
        </form>
      )}
      {props.children}
      {withdrawal && !withdrawn ? <Withdraw action={`${action}/withdrawal`} form={withdrawal} /> : null}
    </PartsFramed>
  );
};

export const Withdraw = ({ action, form }: { readonly action: string; readonly form: AskedForm }) => (
  <details open={form.errors.size > 0}>
    <summary>Retire it: a mistake, or no longer available</summary>
    <form method="post" action={action} novalidate>
      <p class="hint">It stays on record, with who, when and why, but is no longer offered.</p>
      <div class="columns">
        <Ask form={form} name="reason" />
        <Ask form={form} name="by" autocomplete="name" />
      </div>
      <p class="actions">
        <button type="submit" class="danger">
          Withdraw it
        </button>
      </p>
    </form>
  </details>
);
