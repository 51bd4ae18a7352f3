/** Orders still to come, a form for what came in, what came last, and how good the sources' parts proved to be. */

import type { ShareBelief } from "../../estimating/closeout/learning/shareGood.js";
import { chance, money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { KindList, PartsFramed } from "./partsFrame.js";

export interface OrderShown {
  readonly id: string;
  readonly source: string;
  readonly orderedOn: string;
  readonly by: string;
  readonly currency: string;
  readonly goods: number;
  readonly freight: number;
  readonly total: number;
  readonly note?: string;
  readonly lines: readonly {
    readonly id: string;
    readonly name: string;
    readonly packs: number;
    readonly packSize: number;
    readonly pieces: number;
    readonly came: number;
    readonly ended: boolean;
  }[];
  readonly ending?: { readonly by: string; readonly reason: string };
}

export interface GoodsShown {
  readonly id: string;
  readonly receivedOn: string;
  readonly name: string;
  readonly source: string;
  readonly state: string;
  readonly pieces: number;
  readonly currency: string;
  readonly paid: number;
  readonly tested: { readonly good: number; readonly bad: number };
}

interface GoodsInProps extends AskedForm {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly orders: readonly OrderShown[];
  readonly goods: readonly GoodsShown[];
  readonly shares: readonly ShareBelief[];
  /** Names of part kinds and sources, to choose from while typing. */
  readonly kinds: readonly string[];
  readonly sources: readonly string[];
  /** The line of an order that the form is about. */
  readonly line?: { readonly name: string; readonly left: number };
  readonly say?: string | undefined;
}

export const GoodsInPage = (props: GoodsInProps) => {
  const { frame, errors, line, fields } = props;
  return (
    <PartsFramed frame={frame} title="Orders and goods in" here="/parts/goods-in" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={props.say} />
      <Orders {...props} />
      <form method="post" action="/parts/goods-in" id="entry" class="screen" novalidate>
        <input type="hidden" name="token" value={fields.get("token")} />
        <input type="hidden" name="orderLineId" value={fields.get("orderLineId") ?? ""} />
        <fieldset class="part">
          <legend>Goods in</legend>
          {line ? (
            <p>
              Of the order of {line.name}: {counted(line.left, "piece")} still to come.{" "}
              <a href="/parts/goods-in#entry">Not of an order</a>
            </p>
          ) : null}
          <div class="columns">
            <Ask form={props} name="kind" list="kinds" />
            <Ask form={props} name="source" list="sources" />
            <Ask form={props} name="state" />
            <Ask form={props} name="pieces" />
            <Ask form={props} name="paid" />
            <Ask form={props} name="freight" />
            <Ask form={props} name="currency" />
            <Ask form={props} name="rate" />
            <Ask form={props} name="dutyPercent" />
            <Ask form={props} name="importTaxPercent" />
            <Ask form={props} name="parcelFee" />
            <Ask form={props} name="packSize" />
            <Ask form={props} name="leadDays" />
            <Ask form={props} name="receivedOn" />
            <Ask form={props} name="by" autocomplete="name" />
            <Ask form={props} name="tested.good" />
            <Ask form={props} name="tested.bad" />
          </div>
          <Ask form={props} name="note" size="long" />
        </fieldset>
        <KindList kinds={props.kinds} />
        <datalist id="sources">
          {props.sources.map((name) => (
            <option value={name} />
          ))}
        </datalist>
        <p class="actions">
          <button type="submit" class="primary">
            Book in
          </button>
        </p>
      </form>
      <Goods {...props} />
      <Shares {...props} />
    </PartsFramed>
  );
};

const Orders = ({ orders, tongue }: GoodsInProps) => (
  <section aria-labelledby="orders-name">
    <h2 id="orders-name">Still to come</h2>
    {orders.length === 0 ? (
      <p class="empty">
        No order is open. Mark what you order on the <a href="/parts">order list</a>.
      </p>
    ) : (
      orders.map((order) => (
        <section class="card order" aria-labelledby={`order-${order.id}`}>
          <h3 id={`order-${order.id}`}>
            <a href={`/parts/orders/${order.id}`}>{order.source}</a>{" "}
            <span class="tag">ordered {day(order.orderedOn, tongue.locale)}</span>
          </h3>
          <ul class="to-come">
            {order.lines
              .filter(({ came, pieces }) => came < pieces)
              .map(({ id, name, pieces, came }) => (
                <li>
                  {`${pieces - came} × ${name}`}{" "}
                  <a href={`/parts/goods-in?line=${encodeURIComponent(id)}#entry`}>
                    Book in<span class="unseen"> {name}</span>
                  </a>
                </li>
              ))}
          </ul>
        </section>
      ))
    )}
  </section>
);

const Goods = ({ goods, tongue }: GoodsInProps) =>
  goods.length === 0 ? null : (
    <section aria-labelledby="goods-name">
      <h2 id="goods-name">Came in last</h2>
      <Table
        class="lines stacking"
        caption="Came in last"
        scroll
        heads={["Part", "Day", ...figures("Pieces", "Paid"), "Tested"]}
        rows={goods.map(({ id, name, source, state, receivedOn, pieces, paid, currency, tested: { good, bad } }) => [
          <>
            {name}
            <span class="why">
              {state}, {source}
            </span>
          </>,
          day(receivedOn, tongue.locale),
          pieces,
          money(paid, { ...tongue, currency }),
          <>
            {good + bad > 0 ? `${good} good, ${bad} bad` : ""}{" "}
            {good + bad < pieces ? (
              <a class="screen" href={`/parts/goods-in/${encodeURIComponent(id)}/tests`}>
                Enter tests<span class="unseen"> of {name}</span>
              </a>
            ) : null}
          </>,
        ])}
      />
    </section>
  );

const Shares = ({ shares, tongue: { locale } }: GoodsInProps) =>
  shares.length === 0 ? null : (
    <section aria-labelledby="shares-name">
      <h2 id="shares-name">How good they prove to be</h2>
      <p class="hint">
        The rate book's share counts like five pieces; every piece tested moves it. Eight times in ten the true share is in the
        range.
      </p>
      <Table
        class="lines stacking"
        caption="How good they prove to be"
        scroll
        heads={["Parts", ...figures("Tested", "Good", "Rate book", "Believed good", "Range")]}
        rows={shares.map(({ source, state, pieces, good, book, share, low, high }) => [
          source === undefined ? `${state}, all sources` : `${state}, ${source}`,
          pieces,
          good,
          chance(book, locale),
          chance(share, locale),
          `${chance(low, locale)} to ${chance(high, locale)}`,
        ])}
      />
    </section>
  );
