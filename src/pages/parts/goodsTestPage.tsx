/** What came in, tested later. */
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import type { GoodsShown } from "./goodsInPage.js";
import { PartsFramed } from "./partsFrame.js";

interface GoodsTestProps extends AskedForm {
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
            <Ask form={props} name="good" />
            <Ask form={props} name="bad" />
            <Ask form={props} name="by" autocomplete="name" />
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
