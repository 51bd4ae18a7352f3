/** Orders still to come, a form for what came in, what came last, and how good the sources' parts proved to be. */
import type { ShareBelief } from "../../estimating/closeout/learning/shareGood.js";
import type { OfferState } from "../../estimating/input.js";
import { chance, counted, day, money, type Tongue } from "../../wording/index.js";
import { Box, Pick, type SmallForm } from "../frame/box.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { PartsFramed } from "./partsFrame.js";

export const STATES: readonly OfferState[] = ["new", "new old stock", "used", "donor pull", "reproduction"];

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

export interface GoodsInProps extends SmallForm {
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
            <Box {...props} name="kind" label="Part" list="kinds" />
            <Box {...props} name="source" label="Source" list="sources" />
            <Pick {...props} name="state" label="State" options={STATES.map((state) => [state, state] as const)} />
            <Box {...props} name="pieces" label="Pieces" size="figure" />
            <Box {...props} name="paid" label="Price paid for all of them, without freight" size="money" />
            <Box {...props} name="freight" label="Freight paid" hint="Empty: as this source asked before" size="money" />
            <Box {...props} name="packSize" label="Pieces in a pack" hint="Empty: as this source sold it before" size="figure" />
            <Box {...props} name="leadDays" label="Days from order to arrival" hint="Empty: as before" size="figure" />
            <Box {...props} name="receivedOn" label="Came in on" type="date" />
            <Box {...props} name="by" label="Who took it in" autocomplete="name" />
            <Box {...props} name="good" label="Tested good" hint="Can be entered later" size="figure" />
            <Box {...props} name="bad" label="Tested bad" size="figure" />
          </div>
          <Box {...props} name="note" label="Note" size="long" />
        </fieldset>
        <datalist id="kinds">
          {props.kinds.map((name) => (
            <option value={name} />
          ))}
        </datalist>
        <datalist id="sources">
          {props.sources.map((name) => (
            <option value={name} />
          ))}
        </datalist>
        <p class="actions">
          <button type="submit" class="primary">
            Take it in
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
                    Take in<span class="unseen"> {name}</span>
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
      <section class="scroll" aria-labelledby="goods-name" tabindex={0}>
        <table class="lines stacking">
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col">Day</th>
              <th scope="col" class="figure">
                Pieces
              </th>
              <th scope="col" class="figure">
                Paid
              </th>
              <th scope="col">Tested</th>
            </tr>
          </thead>
          <tbody>
            {goods.map(({ id, name, source, state, receivedOn, pieces, paid, currency, tested: { good, bad } }) => (
              <tr>
                <th scope="row">
                  {name}
                  <span class="why">
                    {state}, {source}
                  </span>
                </th>
                <td data-name="Came in">{day(receivedOn, tongue.locale)}</td>
                <td class="figure" data-name="Pieces">
                  {pieces}
                </td>
                <td class="figure" data-name="Paid">
                  {money(paid, { ...tongue, currency })}
                </td>
                <td data-name="Tested">
                  {good + bad > 0 ? `${good} good, ${bad} bad` : ""}{" "}
                  {good + bad < pieces ? (
                    <a class="screen" href={`/parts/goods-in/${encodeURIComponent(id)}/tests`}>
                      Enter tests<span class="unseen"> of {name}</span>
                    </a>
                  ) : null}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );

const Shares = ({ shares, tongue: { locale } }: GoodsInProps) =>
  shares.length === 0 ? null : (
    <section aria-labelledby="shares-name">
      <h2 id="shares-name">How good they prove to be</h2>
      <p class="hint">
        The rate book's share counts like five pieces; every piece tested moves it. Eight times in ten the true share lies in the
        range.
      </p>
      <section class="scroll" aria-labelledby="shares-name" tabindex={0}>
        <table class="lines stacking">
          <thead>
            <tr>
              <th scope="col">Parts</th>
              <th scope="col" class="figure">
                Tested
              </th>
              <th scope="col" class="figure">
                Good
              </th>
              <th scope="col" class="figure">
                Rate book
              </th>
              <th scope="col" class="figure">
                Believed good
              </th>
              <th scope="col" class="figure">
                Range
              </th>
            </tr>
          </thead>
          <tbody>
            {shares.map(({ source, state, pieces, good, book, share, low, high }) => (
              <tr>
                <th scope="row">{source === undefined ? `${state}, all sources` : `${state}, ${source}`}</th>
                <td class="figure" data-name="Tested">
                  {pieces}
                </td>
                <td class="figure" data-name="Good">
                  {good}
                </td>
                <td class="figure" data-name="Rate book">
                  {chance(book, locale)}
                </td>
                <td class="figure" data-name="Believed good">
                  {chance(share, locale)}
                </td>
                <td class="figure" data-name="Range">{`${chance(low, locale)} to ${chance(high, locale)}`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );

export interface GoodsTestProps extends SmallForm {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly goods: GoodsShown;
}

export const GoodsTestPage = (props: GoodsTestProps) => {
  const { frame, goods, errors, tongue } = props;
  const left = goods.pieces - goods.tested.good - goods.tested.bad;
  return (
    <PartsFramed frame={frame} title="Tests of goods in" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <p>
        {goods.name}, {goods.state}, from {goods.source}, {day(goods.receivedOn, tongue.locale)}: {counted(goods.pieces, "piece")}
        , {goods.tested.good} good and {goods.tested.bad} bad so far, {left} not tested.
      </p>
      <form method="post" action={`/parts/goods-in/${encodeURIComponent(goods.id)}/tests`} novalidate>
        <input type="hidden" name="token" value={props.fields.get("token")} />
        <fieldset class="part">
          <legend>Tested now</legend>
          <div class="columns">
            <Box {...props} name="good" label="Good" size="figure" />
            <Box {...props} name="bad" label="Bad" size="figure" />
            <Box {...props} name="by" label="Who tested" autocomplete="name" />
          </div>
        </fieldset>
        <p class="actions">
          <button type="submit" class="primary">
            Record the tests
          </button>
        </p>
      </form>
    </PartsFramed>
  );
};

export interface OrderProps extends SmallForm {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly order: OrderShown;
}

export const OrderPage = (props: OrderProps) => {
  const { frame, order, errors } = props;
  const tongue = { ...props.tongue, currency: order.currency };
  const open = order.lines.some(({ came, pieces, ended }) => came < pieces && !ended);
  return (
    <PartsFramed frame={frame} title={`Order from ${order.source}`} wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <p>
        Ordered on {day(order.orderedOn, tongue.locale)} by {order.by}.{order.note ? ` ${order.note}` : ""}
        {order.ending ? ` Ended by ${order.ending.by}: ${order.ending.reason}.` : ""}
      </p>
      <section class="scroll" aria-label="Lines of the order" tabindex={0}>
        <table class="lines">
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col" class="figure">
                Packs
              </th>
              <th scope="col" class="figure">
                Pieces
              </th>
              <th scope="col" class="figure">
                Came in
              </th>
            </tr>
          </thead>
          <tbody>
            {order.lines.map(({ name, packs, packSize, pieces, came }) => (
              <tr>
                <th scope="row">{name}</th>
                <td class="figure">{packSize > 1 ? `${packs} of ${packSize}` : packs}</td>
                <td class="figure">{pieces}</td>
                <td class="figure">{came}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p class="order-total">
        Goods {money(order.goods, tongue)}, freight {money(order.freight, tongue)}, together{" "}
        <strong>{money(order.total, tongue)}</strong>
      </p>
      {open ? (
        <form method="post" action={`/parts/orders/${encodeURIComponent(order.id)}/ending`} class="screen" novalidate>
          <fieldset class="part">
            <legend>The rest will not come</legend>
            <div class="columns">
              <Box {...props} name="reason" label="Why" />
              <Box {...props} name="by" label="Who says so" autocomplete="name" />
            </div>
          </fieldset>
          <p class="actions">
            <button type="submit">End the order</button>
          </p>
        </form>
      ) : null}
    </PartsFramed>
  );
};
