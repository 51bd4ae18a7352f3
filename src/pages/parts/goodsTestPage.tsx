/** What came in, tested later. */

import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Box, type SmallForm } from "../frame/box.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import type { GoodsShown } from "./goodsInPage.js";
import { PartsFramed } from "./partsFrame.js";

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
