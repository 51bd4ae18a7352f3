/** The account as it would be. */

import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import type { Minor } from "../../estimating/input.js";
import { limitText, notChargedText } from "../../wording/account.js";
import { money } from "../../wording/figures.js";
import { adjustmentTitle, lineTitle } from "../../wording/line.js";
import type { Tongue } from "../../wording/tongue.js";
import { figure, Table } from "../frame/table.js";

export const AccountPreview = ({ account, tongue }: { account: FinalAccount; tongue: Tongue }) => {
  const { lines, adjustments, held, totals, payments } = account;
  const cash = (amount: Minor) => money(amount, tongue);
  const row = (name: string, amount: Minor) => [name, cash(amount)];
  const notCharged = notChargedText(account, tongue);
  return (
    <section class="card" id="account" aria-labelledby="account-name">
      <h2 id="account-name">The account as it stands</h2>
      <dl class="facts">
        <div>
          <dt>Total, tax included</dt>
          <dd id="total">
            <strong>{cash(totals.total)}</strong>
          </dd>
        </div>
        <div>
          <dt>Paid already</dt>
          <dd>{cash(totals.prepaid)}</dd>
        </div>
        <div>
          <dt>{totals.due < 0 ? "To be paid back" : "Still to pay"}</dt>
          <dd id="due">
            <strong>{cash(Math.abs(totals.due))}</strong>
          </dd>
        </div>
      </dl>
      {held.over > 0 ? <p>{limitText(account, tongue)}</p> : null}
      {notCharged ? <p>{notCharged}</p> : null}
      <details class="fold">
        <summary>Line by line</summary>
        <Table
          class="lines"
          caption="The account, line by line"
          heads={["For", figure("Amount")]}
          rows={[
            ...lines.map((line) => row([line.assembly?.name, lineTitle(line)].filter(Boolean).join(": "), line.amount)),
            ...adjustments.map((each) => row(adjustmentTitle(each, tongue), each.charge ? each.amount : -each.amount)),
            ...held.allowances.map(({ amount }) => row("Above the limit agreed, not charged", -amount)),
            ...(totals.pricesIncludeTax ? [] : [row("Tax", totals.tax)]),
            row("Total, tax included", totals.total),
            ...payments.map((payment) => row(`Paid: ${payment.for}`, -payment.amount)),
            row("Due", totals.due),
          ]}
        />
      </details>
    </section>
  );
};
