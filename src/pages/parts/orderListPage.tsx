/** What to order for all open jobs together, source by source; each source can be marked as ordered. */

import type { OrderLine, OrderList, SourceOrder } from "../../estimating/parts/orderList.js";
import { chance, money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { UNCOVERED_TEXT } from "../../wording/reasons.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { key } from "../form/fields.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Area, Box, type SmallForm, ties, Wrong } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figure, Heads } from "../frame/table.js";
import { PartsFramed, ServedJobs } from "./partsFrame.js";

export interface OrderListProps extends SmallForm {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly list: OrderList;
  readonly jobs: ReadonlyMap<string, { readonly number: string; readonly unit: string }>;
  readonly say?: string | undefined;
}

/** How a source is named where its order is sent. */
export const sourceKey = ({ source, currency }: Pick<SourceOrder, "source" | "currency">): string => `${currency} ${source}`;
export const packsField = (offer: string): string => `packs.${key(offer)}`;

export const OrderListPage = (props: OrderListProps) => {
  const { frame, tongue, list, errors, fields } = props;
  const { sources, uncovered, covered, totals } = list;
  const nothing = sources.length + uncovered.length + covered.length === 0;
  return (
    <PartsFramed frame={frame} title="Order list" here="/parts" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={props.say} />
      {nothing ? (
        <p class="empty">
          Nothing is to be ordered. Parts stand here once an owner agrees to an estimate; count the shelf on the{" "}
          <a href="/parts/stock">stock page</a>.
        </p>
      ) : (
        <>
          <p>
            What {counted(props.jobs.size, "job")} agreed and not closed still {props.jobs.size === 1 ? "wants" : "want"}, less
            the shelf and what is on order. As of {day(list.asOf, tongue.locale)}.
          </p>
          <p class="links screen">
            <a href="/parts/order-list.csv">Order list as CSV</a>
          </p>
        </>
      )}
      {sources.length > 0 ? (
        <form method="post" action="/parts/orders" novalidate>
          <input type="hidden" name="token" value={fields.get("token")} />
          {/* Enter in a box presses the first button of a form: it must not order from the first source. */}
          <button type="submit" class="unseen" name="intent" value="" tabindex={-1}>
            Choose a source
          </button>
          <fieldset class="part screen" id="ordering">
            <legend>On the orders</legend>
            <div class="columns">
              <Box fields={fields} errors={errors} name="orderedOn" label="Ordered on" type="date" />
              <Box fields={fields} errors={errors} name="by" label="Who orders" autocomplete="name" />
            </div>
            <Area
              fields={fields}
              errors={errors}
              name="note"
              label="Note"
              hint="Such as the source's own order number"
              rows={2}
            />
          </fieldset>
          {sources.map((source, at) => (
            <SourcePart {...props} source={source} at={at} />
          ))}
          {totals.map(({ currency, sources: count, goods, freight, total }) => (
            <p class="order-total">
              {counted(count, "source")}: goods {money(goods, { ...tongue, currency })}, freight{" "}
              {money(freight, { ...tongue, currency })}, together <strong>{money(total, { ...tongue, currency })}</strong>
            </p>
          ))}
        </form>
      ) : null}
      <UncoveredPart {...props} />
      <CoveredPart {...props} />
    </PartsFramed>
  );
};

const SourcePart = (props: OrderListProps & { source: SourceOrder; at: number }) => {
  const { source: own, at } = props;
  const tongue = { ...props.tongue, currency: own.currency };
  return (
    <section class="card order" aria-labelledby={`source-${at}`}>
      <h2 id={`source-${at}`}>
        {own.source} <span class="tag">{waits(own.leadDays)}</span>
      </h2>
      <section class="scroll" aria-labelledby={`source-${at}`} tabindex={0}>
        <table class="lines stacking">
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col">For</th>
              <th scope="col" class="figure">
                Wanted
              </th>
              <th scope="col" class="packs">
                Packs
              </th>
              <th scope="col" class="figure">
                Price of a pack
              </th>
              <th scope="col" class="figure">
                Amount
              </th>
            </tr>
          </thead>
          <tbody>
            {own.lines.map((line) => (
              <LineRow {...props} line={line} tongue={tongue} />
            ))}
          </tbody>
          <tfoot>
            <Sum name="Goods" text={money(own.goods, tongue)} />
            <Sum name="Freight, once" text={money(own.freight, tongue)} />
            <Sum name="Together" text={money(own.total, tongue)} strong />
          </tfoot>
        </table>
      </section>
      <p class="actions">
        <button type="submit" name="intent" value={sourceKey(own)}>
          Mark as ordered from {own.source}
        </button>
      </p>
    </section>
  );
};

const waits = (days: number): string => (days === 0 ? "at once" : `${counted(days, "day")} to arrive`);

const LineRow = ({ line, jobs, tongue, fields, errors }: OrderListProps & { line: OrderLine }) => {
  const { part, offer, pieces, packs, spare, cost, jobs: served, chance: good } = line;
  const name = packsField(offer.id);
  const minimum = offer.minimumPacks ?? 1;
  return (
    <tr class={errors.has(name) ? "row-wrong" : ""}>
      <th scope="row">
        {part.name}
        <span class="why">
          {offer.state}, offered {day(offer.on, tongue.locale)}
          {minimum > 1 ? `, sold from ${counted(minimum, "pack")} up` : ""}
          {offer.available === undefined ? "" : `, ${offer.available} to be had`}
        </span>
        {good === undefined ? null : (
          <span class="why">
            Some may turn out bad: with these, enough are good in {chance(good, tongue.locale)} of such orders.
          </span>
        )}
      </th>
      <td data-name="For">
        <ServedJobs served={served} jobs={jobs} />
      </td>
      <td class="figure" data-name="Wanted">
        {pieces}
      </td>
      <td class="packs" data-name="Packs">
        <label class="unseen" for={name}>
          Packs of {part.name}
        </label>
        <input
          id={name}
          name={name}
          class="size-figure screen"
          inputmode="numeric"
          autocomplete="off"
          value={fields.get(name) ?? String(packs)}
          {...ties({ errors, name })}
        />
        <span class="on-paper">{packs}</span>
        {offer.packSize > 1 ? ` of ${offer.packSize}` : ""}
        {spare > 0 ? <span class="why">{spare} to spare</span> : null}
        <Wrong errors={errors} name={name} />
      </td>
      <td class="figure" data-name="Price of a pack">
        {money(offer.price, tongue)}
      </td>
      <td class="figure" data-name="Amount">
        {money(cost, tongue)}
      </td>
    </tr>
  );
};

const Sum = ({ name, text, strong = false }: { name: string; text: string; strong?: boolean }) => (
  <tr>
    <th scope="row" colspan={5}>
      {name}
    </th>
    <td class="figure">{strong ? <strong>{text}</strong> : text}</td>
  </tr>
);

const UncoveredPart = ({ list, jobs }: OrderListProps) =>
  list.uncovered.length === 0 ? null : (
    <section aria-labelledby="uncovered-name">
      <h2 id="uncovered-name">No offer covers</h2>
      <section class="scroll" aria-labelledby="uncovered-name" tabindex={0}>
        <table class="lines">
          <Heads of={["Part", "For", figure("Pieces")]} />
          <tbody>
            {list.uncovered.map(({ part, pieces, jobs: served, why }) => (
              <tr>
                <th scope="row">
                  {part.name}
                  <span class="why">{UNCOVERED_TEXT[why]}</span>
                </th>
                <td>
                  <ServedJobs served={served} jobs={jobs} />
                </td>
                <td class="figure">{pieces}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );

const CoveredPart = ({ list, jobs }: OrderListProps) =>
  list.covered.length === 0 ? null : (
    <section aria-labelledby="covered-name">
      <h2 id="covered-name">Need not be ordered</h2>
      <section class="scroll" aria-labelledby="covered-name" tabindex={0}>
        <table class="lines">
          <Heads of={["Part", "For", figure("Shelf"), figure("On order")]} />
          <tbody>
            {list.covered.map(({ part, fromStock, onOrder, jobs: served }) => (
              <tr>
                <th scope="row">{part.name}</th>
                <td>
                  <ServedJobs served={served} jobs={jobs} />
                </td>
                <td class="figure">{fromStock}</td>
                <td class="figure">{onOrder}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
