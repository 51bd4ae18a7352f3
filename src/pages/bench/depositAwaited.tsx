/** Work waits for the deposit, or goes on without it because somebody decided so. */
import { money } from "../../wording/figures.js";
import { Ask } from "../frame/ask.js";
import type { BenchView } from "./view.js";

export const DepositAwaited = (view: BenchView) => {
  const { job, deposit, begunUnpaid, tongue } = view;
  const record = <a href={`/jobs/${job.id}/payments`}>Record it</a>;
  if (begunUnpaid)
    return (
      <p id="deposit-awaited">
        A deposit of {money(deposit, tongue)} is still awaited. {record}. {begunUnpaid.by} let work begin without it:{" "}
        {begunUnpaid.reason}
      </p>
    );
  const wrong = view.errors.has("begin.by") || view.errors.has("begin.reason");
  return (
    <div class="not-agreed" id="deposit-awaited">
      <p>
        <strong>A deposit of {money(deposit, tongue)} is awaited before work begins.</strong> {record} once it is paid.
      </p>
      <details open={wrong}>
        <summary>Begin without it</summary>
        <form method="post" action={`/jobs/${job.id}/bench`} novalidate>
          <input type="hidden" name="person" value={view.by} />
          <div class="columns">
            <Ask form={view} name="begin.by" value={view.fields.get("begin.by") || view.by} />
            <Ask form={view} name="begin.reason" size="long" />
          </div>
          <button type="submit" name="act" value="begin">
            Let work begin
          </button>
        </form>
      </details>
    </div>
  );
};
