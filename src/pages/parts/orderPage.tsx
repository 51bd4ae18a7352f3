/** One order: its lines, what came of them, and its ending. */

import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import type { OrderShown } from "./goodsInPage.js";
import { PartsFramed } from "./partsFrame.js";

interface OrderProps {
  readonly frame: Frame;
  readonly form: AskedForm;
  readonly tongue: Tongue;
  readonly order: OrderShown;
}

export const OrderPage = (props: OrderProps) => {
  const { frame, order, form } = props;
  const tongue = { ...props.tongue, currency: order.currency };
  const open = order.lines.some(({ came, pieces, ended }) => came < pieces && !ended);
  return (
    <PartsFramed frame={frame} title={`Order from ${order.source}`} wrong={form.errors.size > 0}>
      <ErrorSummary errors={form.errors} />
      <p>
        Ordered on {day(order.orderedOn, tongue.locale)} by {order.by}.{order.note ? ` ${order.note}` : ""}
        {order.ending ? ` Ended by ${order.ending.by}: ${order.ending.reason}.` : ""}
      </p>
      <Table
        class="lines"
        caption="Lines of the order"
        scroll
        heads={["Part", ...figures("Packs", "Pieces", "Came in")]}
        rows={order.lines.map(({ name, packs, packSize, pieces, came }) => [
          name,
          packSize > 1 ? `${packs} of ${packSize}` : packs,
          pieces,
          came,
        ])}
      />
      <p class="order-total">
        Goods {money(order.goods, tongue)}, freight {money(order.freight, tongue)}, together{" "}
        <strong>{money(order.total, tongue)}</strong>
      </p>
      {open ? (
        <form method="post" action={`/parts/orders/${encodeURIComponent(order.id)}/ending`} class="screen" novalidate>
          <fieldset class="part">
            <legend>The rest is not coming</legend>
            <div class="columns">
              <Ask form={form} name="reason" />
              <Ask form={form} name="by" autocomplete="name" />
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
