/** A part of the catalogue with the offers of it, and one offer: added, changed, withdrawn. */
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Options } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { PartsFramed } from "./partsFrame.js";

interface CataloguePageProps {
  readonly frame: Frame;
  readonly title: string;
  /** Where the form is sent. */
  readonly action: string;
  readonly form: AskedForm;
  /** Asked for in this order. */
  readonly asked: readonly string[];
  readonly options?: Readonly<Record<string, Options>>;
  /** The form of a withdrawal, of what stands. */
  readonly withdrawal?: AskedForm | undefined;
  /** It was withdrawn, and is only looked at. */
  readonly withdrawn?: { readonly by: string; readonly reason: string } | undefined;
  readonly back?: { readonly href: string; readonly name: string };
  readonly say?: string | undefined;
  /** Of a part. */
  readonly offers?: { readonly add: string; readonly rows: readonly OfferShown[]; readonly tongue: Tongue } | undefined;
}

export interface OfferShown {
  readonly id: string;
  readonly source: string;
  readonly state: string;
  readonly on: string;
  readonly currency: string;
  readonly price: number;
  readonly packSize: number;
  readonly leadDays: number;
}

export const CataloguePage = (props: CataloguePageProps) => {
  const { frame, title, action, form, asked, options = {}, withdrawal, withdrawn, back, say, offers } = props;
  const errors = new Map([...form.errors, ...(withdrawal?.errors ?? [])]);
  return (
    <PartsFramed frame={frame} title={title} wrong={errors.size > 0}>
      {back ? (
        <p class="links back">
          <a href={back.href}>{back.name}</a>
        </p>
      ) : null}
      <ErrorSummary errors={errors} />
      <Said say={withdrawn ? `Withdrawn by ${withdrawn.by}: ${withdrawn.reason}` : say} />
      {withdrawn ? null : (
        <form method="post" action={action} novalidate>
          <input type="hidden" name="token" value={form.fields.get("token")} />
          <input type="hidden" name="version" value={form.fields.get("version")} />
          <input type="hidden" name="kind" value={form.fields.get("kind")} />
          <input type="hidden" name="currency" value={form.fields.get("currency")} />
          <fieldset class="part">
            <legend>{title}</legend>
            <div class="columns">
              {asked.map((name) => (
                <Ask form={form} name={name} {...(options[name] && { options: options[name] })} />
              ))}
            </div>
          </fieldset>
          <p class="actions">
            <button type="submit" class="primary">
              Save
            </button>
          </p>
        </form>
      )}
      {offers && !withdrawn ? <Offers {...offers} /> : null}
      {withdrawal && !withdrawn ? <Withdraw action={`${action}/withdrawal`} form={withdrawal} /> : null}
    </PartsFramed>
  );
};

const Offers = ({ add, rows, tongue }: NonNullable<CataloguePageProps["offers"]>) => (
  <section aria-labelledby="offers-name">
    <h2 id="offers-name">Offers</h2>
    <Table
      class="lines"
      caption="Offers of this part, newest first"
      scroll
      empty="Nobody offers it yet."
      heads={["Source", "Offered on", ...figures("Price", "Days")]}
      rows={rows.map(({ id, source, state, on, currency, price, packSize, leadDays }) => [
        <>
          <a href={`/parts/offers/${encodeURIComponent(id)}`}>{source}</a> <span class="why">{state}</span>
        </>,
        day(on, tongue.locale),
        `${money(price, { ...tongue, currency })}${packSize > 1 ? ` for ${counted(packSize, "piece")}` : ""}`,
        leadDays,
      ])}
    />
    <p class="links">
      <a href={add}>Add an offer</a>
    </p>
  </section>
);

const Withdraw = ({ action, form }: { readonly action: string; readonly form: AskedForm }) => (
  <details open={form.errors.size > 0}>
    <summary>Withdraw it: it was a mistake</summary>
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
