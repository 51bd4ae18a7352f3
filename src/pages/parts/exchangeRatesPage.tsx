/** The exchange rates on record, with a form for the next. */
import { decimal } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { PartsFramed } from "./partsFrame.js";

interface RateShown {
  readonly id: string;
  readonly currency: string;
  readonly into: string;
  readonly rate: string;
  readonly on: string;
  readonly source: string;
}

interface ExchangeRatesProps {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly form: AskedForm;
  /** Newest first. */
  readonly rates: readonly RateShown[];
  readonly say?: string | undefined;
}

export const ExchangeRatesPage = ({ frame, tongue, form, rates, say }: ExchangeRatesProps) => (
  <PartsFramed frame={frame} title="Exchange rates" here="/parts/rates" wrong={form.errors.size > 0}>
    <ErrorSummary errors={form.errors} />
    <Said say={say} />
    <form method="post" action="/parts/rates" novalidate>
      <input type="hidden" name="token" value={form.fields.get("token")} />
      <fieldset class="part">
        <legend>Today's rate</legend>
        <p class="hint">
          What one of another currency costs in {tongue.currency}. An estimate takes the newest rate that is not after its own
          day, and keeps it.
        </p>
        <div class="columns">
          {["currency", "rate", "on", "source"].map((name) => (
            <Ask form={form} name={name} />
          ))}
        </div>
      </fieldset>
      <p class="actions">
        <button type="submit" class="primary">
          Save
        </button>
      </p>
    </form>
    <Rates rates={rates} tongue={tongue} />
  </PartsFramed>
);

const Rates = ({ rates, tongue }: { readonly rates: readonly RateShown[]; readonly tongue: Tongue }) => (
  <section aria-labelledby="rates-name">
    <h2 id="rates-name">Rates on record</h2>
    <Table
      class="lines"
      caption="Exchange rates, newest first"
      scroll
      empty="None yet: offers in another currency need one."
      heads={["Currency", "Day", ...figures("Rate"), "Source"]}
      rows={rates.map(({ id, currency, into, rate, on, source }) => [
        <a href={`/parts/rates/${encodeURIComponent(id)}`}>{currency}</a>,
        day(on, tongue.locale),
        `${decimal(rate, tongue.locale, { maximumFractionDigits: 12 })} ${into}`,
        source,
      ])}
    />
    <p class="links">
      <a href="/data/in/exchange-rates">Import rates from CSV</a>
    </p>
  </section>
);
