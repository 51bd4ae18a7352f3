/** Pieces of goods that came in earlier, tested now: what is believed of the source's share of good pieces moves with it. */
import { z } from "zod";
import { addTest, findGoodsIn, tellSeen } from "../records/goodsIn.js";
import { act, refused, wrongField } from "./act.js";
import { tooManyTested } from "./bringIn.js";
import { hand, maybe, whole } from "./field.js";
import { handOf } from "./hand.js";
import { keptGoodsIn } from "./shapes/parts.js";

const WHO = "Who tested";
const MOST_PIECES = 1_000_000;

const fields = z
  .strictObject({
    good: maybe(whole("Good", { least: 0, most: MOST_PIECES })),
    bad: maybe(whole("Bad", { least: 0, most: MOST_PIECES })),
    by: hand(WHO),
  })
  .meta({ id: "GoodsTest" });

export const testGoods = act({
  name: "addGoodsTest",
  title: "Record tests of goods in",
  fields,
  answer: keptGoodsIn,
  decide: async (desk, { good = 0, bad = 0, by: named }, { goods: goodsInId }: { readonly goods: string }) => {
    const goods = await findGoodsIn(desk.db, goodsInId);
    if (!goods) return refused("not found", { detail: "No such goods came in." });
    const who = handOf(desk, named, WHO);
    if ("refused" in who) return who;
    if (good + bad === 0) return wrongField("/good", "key missing", "Good: give how many were good, or how many bad.");
    const left = goods.pieces - goods.tested.good - goods.tested.bad;
    if (good + bad > left) return wrongField("/good", "number out of range", tooManyTested(left));
    const tested = { good: goods.tested.good + good, bad: goods.tested.bad + bad };
    return {
      answer: { ...goods, tested },
      writes: [
        addTest(desk.db, { id: desk.newId(), goodsInId, at: desk.at, by: who.by, good, bad }),
        tellSeen(desk.db, goods.offerId, goods, desk.at),
      ],
    };
  },
});
