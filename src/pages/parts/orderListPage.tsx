/** What to order for all open jobs together, source by source; each source can be marked as ordered. */

import { type OrderLine, type OrderList, type SourceOrder, sourceKey } from "../../estimating/parts/orderList.js";
import { key } from "../../wording/fieldName.js";
import { chance, money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { UNCOVERED_TEXT } from "../../wording/reasons.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { type SmallForm, ties, Wrong } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figure, figures, Table } from "../frame/table.js";
import { PartsFramed, ServedJobs } from "./partsFrame.js";

interface OrderListProps {
  readonly frame: Frame;
  readonly form: AskedForm;
  readonly tongue: Tongue;
  readonly list: OrderList;
  readonly jobs: ReadonlyMap<string, { readonly number: string; readonly unit: string }>;
  readonly say?: string | undefined;
}

const packsField = (offer: string): string => `packs.${key(offer)}`;

export const OrderListPage = (props: OrderListProps) => {
  const { frame, tongue, list, form } = props;
  const { errors, fields } = form;
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
          <button type="submit" class="unseen" name="from" value="" tabindex={-1}>
            Choose a source
          </button>
          <fieldset class="part screen" id="ordering">
            <legend>On the orders</legend>
            <div class="columns">
              <Ask form={form} name="orderedOn" />
              <Ask form={form} name="by" autocomplete="name" />
            </div>
            <Ask form={form} name="note" rows={2} />
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
      <Table
        class="lines stacking"
        caption={`To order from ${own.source}`}
        scroll
        heads={["Part", "For", figure("Wanted"), { name: "Packs", class: "packs" }, ...figures("Price of a pack", "Amount")]}
        rows={own.lines.map((line) => ({
          class: props.form.errors.has(packsField(line.offer.id)) && "row-wrong",
          cells: [
            <LineName line={line} tongue={tongue} />,
            <ServedJobs served={line.jobs} jobs={props.jobs} />,
            line.pieces,
            <Packs {...props.form} line={line} />,
            money(line.offer.price, tongue),
            money(line.cost, tongue),
          ],
        }))}
        foot={[
          ["Goods", money(own.goods, tongue)],
          ["Freight, once", money(own.freight, tongue)],
          ["Together", <strong>{money(own.total, tongue)}</strong>],
        ]}
      />
      <p class="actions">
        <button type="submit" name="from" value={sourceKey(own)}>
          Mark as ordered from {own.source}
        </button>
      </p>
    </section>
  );
};

const waits = (days: number): string => (days === 0 ? "at once" : `${counted(days, "day")} to arrive`);

const LineName = ({ line: { part, offer, chance: good }, tongue }: { line: OrderLine; tongue: Tongue }) => (
  <>
    {part.name}
    <span class="why">
      {offer.state}, offered {day(offer.on, tongue.locale)}
      {(offer.minimumPacks ?? 1) > 1 ? `, sold from ${counted(offer.minimumPacks!, "pack")} up` : ""}
      {offer.available === undefined ? "" : `, ${offer.available} to be had`}
    </span>
    {good === undefined ? null : (
      <span class="why">Some may turn out bad: with these, enough are good in {chance(good, tongue.locale)} of such orders.</span>
    )}
  </>
);

const Packs = ({ line: { part, offer, packs, spare }, fields, errors }: SmallForm & { line: OrderLine }) => {
  const name = packsField(offer.id);
  return (
    <>
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
    </>
  );
};

const UncoveredPart = ({ list, jobs, tongue }: OrderListProps) =>
  list.uncovered.length === 0 ? null : (
    <section aria-labelledby="uncovered-name">
      <h2 id="uncovered-name">No offer covers</h2>
      <Table
        class="lines"
        caption="No offer covers"
        scroll
        heads={["Part", "For", figure("Pieces")]}
        rows={list.uncovered.map(({ part, pieces, jobs: served, why, own }) => [
          <>
            {part.name}
            <span class="why">
              {UNCOVERED_TEXT[why]}
              {own
                ? `; ${own.source ? `${own.source}, ` : ""}${money(own.cost, { ...tongue, currency: own.currency })} each`
                : ""}
            </span>
          </>,
          <ServedJobs served={served} jobs={jobs} />,
          pieces,
        ])}
      />
    </section>
  );

const CoveredPart = ({ list, jobs }: OrderListProps) =>
  list.covered.length === 0 ? null : (
    <section aria-labelledby="covered-name">
      <h2 id="covered-name">Need not be ordered</h2>
      <Table
        class="lines"
        caption="Need not be ordered"
        scroll
        heads={["Part", "For", ...figures("Shelf", "On order")]}
        rows={list.covered.map(({ part, fromStock, onOrder, jobs: served }) => [
          part.name,
          <ServedJobs served={served} jobs={jobs} />,
          fromStock,
          onOrder,
        ])}
      />
    </section>
  );
