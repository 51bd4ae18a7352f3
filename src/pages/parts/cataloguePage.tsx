/** The parts catalogue looked through, a part with what stands with it, and the forms of a part and of an offer. */
import type { Child } from "hono/jsx";
import { chance, money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Options } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figure, figures, Table } from "../frame/table.js";
import { PartsFramed } from "./partsFrame.js";

/** What was paid when pieces last came in, for all of them. */
interface LastPaid {
  readonly on: string;
  readonly source: string;
  readonly paid: number;
  readonly pieces: number;
  readonly currency: string;
}
interface Tested {
  readonly good: number;
  readonly bad: number;
}

const paidText = ({ paid, pieces, currency }: LastPaid, tongue: Tongue): string =>
  `${money(paid, { ...tongue, currency })}${pieces > 1 ? ` for ${pieces}` : ""}`;
const testedText = ({ good, bad }: Tested): string => (good + bad > 0 ? `${good} of ${good + bad}` : "");

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
          <a href="/data/in/part-kinds">Take in a CSV file</a>
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
  if (all === 0) return withdrawn ? "Nothing was withdrawn." : "The catalogue is empty. Add a part, or take in a CSV file.";
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
          {["token", "version", "kind", "currency"]
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

interface OfferShown {
  readonly id: string;
  readonly source: string;
  readonly state: string;
  readonly on: string;
  readonly currency: string;
  readonly price: number;
  readonly packSize: number;
  readonly minimumPacks?: number;
  readonly available?: number;
  readonly leadDays: number;
  /** Share believed good by now, and how it was seen. */
  readonly share: number;
  readonly seenGood?: Tested;
  /** Id of the donor unit that the pieces stand in. */
  readonly donor?: string;
}

const donorAt = (id: string): string => `/parts/donors/${encodeURIComponent(id)}`;

interface PartStandingProps {
  readonly id: string;
  readonly tongue: Tongue;
  readonly stock: number;
  readonly onOrder: number;
  readonly lastPaid?: LastPaid | undefined;
  readonly tested: Tested;
  readonly offers: readonly OfferShown[];
}

/** Shelf, last price and offers of a part. */
export const PartStanding = ({ id, tongue, stock, onOrder, lastPaid, tested, offers }: PartStandingProps) => (
  <>
    <dl class="facts">
      <div>
        <dt>On the shelf</dt>
        <dd>
          {counted(stock, "piece")} <a href={`/parts/stock/${encodeURIComponent(id)}`}>Its movements</a>
        </dd>
      </div>
      {onOrder > 0 ? (
        <div>
          <dt>On order</dt>
          <dd>{counted(onOrder, "piece")}</dd>
        </div>
      ) : null}
      <div>
        <dt>Last paid</dt>
        <dd>
          {lastPaid
            ? `${paidText(lastPaid, tongue)}, ${day(lastPaid.on, tongue.locale)}, ${lastPaid.source}`
            : "Nothing came in yet"}
        </dd>
      </div>
      <div>
        <dt>Tested good</dt>
        <dd>{testedText(tested) || "None tested yet"}</dd>
      </div>
    </dl>
    <section aria-labelledby="offers-name">
      <h2 id="offers-name">Offers</h2>
      <Table
        class="lines stacking"
        caption="Offers of this part, newest first"
        empty="Nobody offers it yet."
        heads={["Source", "Offered on", ...figures("Price", "Days", "Share good"), { name: "Still so?", class: "screen" }]}
        rows={offers.map(({ id: offer, ...one }) => [
          <>
            <a href={one.donor === undefined ? `/parts/offers/${encodeURIComponent(offer)}` : donorAt(one.donor)}>{one.source}</a>{" "}
            <span class="why">{one.state}</span>
          </>,
          day(one.on, tongue.locale),
          <>
            {`${money(one.price, { ...tongue, currency: one.currency })}${one.packSize > 1 ? ` for ${counted(one.packSize, "piece")}` : ""}`}
            {one.minimumPacks !== undefined && one.minimumPacks > 1 ? (
              <span class="why">at least {counted(one.minimumPacks, "pack")}</span>
            ) : null}
            {one.available !== undefined ? <span class="why">{counted(one.available, "piece")} to be had</span> : null}
          </>,
          one.leadDays,
          <>
            {chance(one.share, tongue.locale)}
            {one.seenGood ? <span class="why">{testedText(one.seenGood)} tested</span> : null}
          </>,
          one.donor === undefined ? (
            <a href={`/parts/offers/${encodeURIComponent(offer)}/confirmation`}>
              Confirm<span class="unseen"> the offer of {one.source}</span>
            </a>
          ) : (
            <a href={donorAt(one.donor)}>
              Pull<span class="unseen"> from {one.source}</span>
            </a>
          ),
        ])}
      />
      <p class="links">
        <a href={`/parts/kinds/${encodeURIComponent(id)}/offers`}>Add an offer</a>
      </p>
    </section>
  </>
);

interface UsedProps {
  readonly jobs: readonly {
    readonly id: string;
    readonly number: string;
    readonly unit: string;
    readonly state: string;
    readonly wanted: number;
  }[];
}

export const UsedOn = ({ jobs }: UsedProps) => (
  <section aria-labelledby="used-name">
    <h2 id="used-name">Where used</h2>
    <Table
      class="lines stacking"
      caption="Jobs whose estimates name it, newest first"
      empty="No estimate names it."
      heads={["Job", "Stands at", figure("Still wanted")]}
      rows={jobs.map(({ id, number, unit, state, wanted }) => [
        <>
          <a href={`/jobs/${id}`}>{number}</a> <span class="why">{unit}</span>
        </>,
        state,
        wanted > 0 ? counted(wanted, "piece") : "–",
      ])}
    />
  </section>
);

export const Merge = ({
  action,
  form,
  kinds,
}: {
  readonly action: string;
  readonly form: AskedForm;
  readonly kinds: readonly string[];
}) => (
  <details open={form.errors.size > 0}>
    <summary>Merge it into another: it stands here twice</summary>
    <form method="post" action={action} novalidate>
      <input type="hidden" name="token" value={form.fields.get("token")} />
      <p class="hint">
        Shelf, offers, orders, goods in and open drafts go over to the part that is kept. What was issued keeps its words.
      </p>
      <div class="columns">
        <Ask form={form} name="into" list="kinds" />
        <Ask form={form} name="by" id="merge-by" autocomplete="name" />
      </div>
      <datalist id="kinds">
        {kinds.map((name) => (
          <option value={name} />
        ))}
      </datalist>
      <p class="actions">
        <button type="submit" class="danger">
          Merge them
        </button>
      </p>
    </form>
  </details>
);

export const Withdraw = ({ action, form }: { readonly action: string; readonly form: AskedForm }) => (
  <details open={form.errors.size > 0}>
    <summary>Retire it: a mistake, or not got any more</summary>
    <form method="post" action={action} novalidate>
      <p class="hint">It stays on record, with who, when and why, and is offered no more.</p>
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
