/** What stands with a part of the catalogue: shelf, last price, offers, jobs that name it, and its merging into another. */
import { chance, money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { figure, figures, Table } from "../frame/table.js";
import { KindList } from "./partsFrame.js";

/** What was paid when pieces last came in, for all of them. */
export interface LastPaid {
  readonly on: string;
  readonly source: string;
  readonly paid: number;
  readonly pieces: number;
  readonly currency: string;
}
export interface Tested {
  readonly good: number;
  readonly bad: number;
}

export const paidText = ({ paid, pieces, currency }: LastPaid, tongue: Tongue): string =>
  `${money(paid, { ...tongue, currency })}${pieces > 1 ? ` for ${pieces}` : ""}`;
export const testedText = ({ good, bad }: Tested): string => (good + bad > 0 ? `${good} of ${good + bad}` : "");

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
  type,
  kinds,
}: {
  readonly action: string;
  readonly form: AskedForm;
  /** Those of this type are looked for. */
  readonly type: string;
  readonly kinds: readonly string[];
}) => (
  <details open={form.errors.size > 0}>
    <summary>Merge it into another: it is listed twice</summary>
    <form method="post" action={action} novalidate>
      <input type="hidden" name="token" value={form.fields.get("token")} />
      <p class="hint">
        Stock, offers, orders, deliveries and open drafts move to the part that is kept. What was issued stays as it is.
      </p>
      <div class="columns">
        <Ask form={form} name="into" list="kinds" />
        <Ask form={form} name="by" id="merge-by" autocomplete="name" />
      </div>
      <KindList kinds={kinds} type={type} />
      <p class="actions">
        <button type="submit" class="danger">
          Merge them
        </button>
      </p>
    </form>
  </details>
);
