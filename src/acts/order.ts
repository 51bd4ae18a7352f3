/** Orders: what was ordered from a source, from the order list or by a program, and that the rest of it will not come. */
import { z } from "zod";
import { sourceKey } from "../estimating/parts/orderList.js";
import { offersWith } from "../records/offers.js";
import { endingOf, findOrder, type OrderRecord, orderRows } from "../records/orders.js";
import { partKindNames } from "../records/partKinds.js";
import { counted } from "../wording/list.js";
import { act, type Decided, type Desk, refused, wrongField } from "./act.js";
import { day, hand, line, maybe, note, whole } from "./field.js";
import { handOf } from "./hand.js";
import { keptOrder } from "./shapes/parts.js";
import { ident } from "./shapes/primitives.js";

const WHO = "Who orders";
const MOST = 1_000_000;
const pieces = z.int().min(1).max(MOST);

const told = {
  orderedOn: day("Ordered on"),
  by: hand(WHO),
  note: maybe(note("Note", { hint: "Such as the source's own order number" })),
};
const fields = z
  .strictObject({
    ...{ source: line("Source"), ...told },
    lines: z
      .array(
        z.strictObject({
          offer: ident,
          packs: whole("Packs", { least: 1, most: MOST }),
          jobs: maybe(z.array(z.strictObject({ job: ident, pieces })).max(1000)).meta({ description: "Jobs it is meant for" }),
        }),
      )
      .min(1)
      .max(500),
  })
  .meta({ id: "Order" });

export const placeOrder = act({
  name: "addOrder",
  title: "Mark parts as ordered",
  fields,
  answer: keptOrder,
  decide: (desk, order) =>
    placed(desk, order, (offer, key) => `/lines/${order.lines.findIndex((each) => each.offer === offer)}/${key}`),
});

/** The order list as it stands on the page: packs by offer, of all its sources, and the one whose button was pressed. */
export const orderFromList = act({
  name: "orderFromList",
  title: "Order list",
  fields: z.strictObject({
    ...told,
    from: maybe(line("Source")),
    packs: maybe(z.record(ident, whole("Packs", { least: 0, most: MOST, hint: "0 leaves the part out" }))),
  }),
  answer: keptOrder,
  decide: async (
    desk,
    { from, packs = {}, ...rest },
    { serves }: { readonly serves: ReadonlyMap<string, readonly { readonly job: string; readonly pieces: number }[]> },
  ) => {
    if (!from)
      return wrongField("", "key missing", "Nothing was ordered: press the button below the source that you order from.");
    const own = (await offersWith(desk.db, Object.keys(packs))).filter((offer) => sourceKey(offer) === from);
    const wanted = own.filter(({ id }) => packs[id]! > 0);
    const [first] = wanted;
    if (!first)
      return wrongField(
        "",
        "key missing",
        "Nothing to order: that source has no parts on the list any more, or all its packs are 0.",
      );
    const lines = wanted.map(({ id }) => ({ offer: id, packs: packs[id]!, jobs: [...(serves.get(id) ?? [])] }));
    return placed(desk, { ...rest, source: first.source, lines }, (offer) => `/packs/${offer}`);
  },
});

/** `at`: where an offer, or how many packs of it, was said. */
async function placed(
  desk: Desk,
  { lines, ...order }: z.output<typeof fields>,
  at: (offer: string, key: "offer" | "packs") => string,
): Promise<Decided<OrderRecord>> {
  const { db } = desk;
  const who = handOf(desk, order.by, WHO);
  if ("refused" in who) return who;
  const offers = new Map(
    (
      await offersWith(
        db,
        lines.map(({ offer }) => offer),
      )
    ).map((offer) => [offer.id, offer]),
  );
  const currency = offers.get(lines[0]!.offer)?.currency;
  for (const { offer: id, packs } of lines) {
    const offer = offers.get(id);
    const wrong = (detail: string) => wrongField(at(id, "offer"), "number out of range", detail);
    if (!offer)
      return wrongField(at(id, "offer"), "record unknown", `There is no offer '${id}' any more; look at the order list again.`);
    if (offer.source !== order.source) return wrong(`Offer '${id}' is of ${offer.source}; an order goes to one source.`);
    if (offer.currency !== currency) return wrong(`Offer '${id}' is in ${offer.currency}; an order is in one currency.`);
    const minimum = offer.minimumPacks ?? 1;
    if (packs < minimum)
      return wrongField(
        at(id, "packs"),
        "number out of range",
        `Offer '${id}' is sold from ${counted(minimum, "pack")} up, and ${packs} is fewer; order more, or none.`,
      );
  }
  const names = await partKindNames(
    db,
    [...offers.values()].map(({ kind }) => kind),
  );
  const { record, writes } = orderRows(
    db,
    { ...order, ...who, id: desk.newId(), at: desk.at, currency: currency! },
    lines.map(({ offer, packs, jobs = [] }) => ({ offer: offers.get(offer)!, packs, jobs })),
    names,
  );
  return { answer: record, writes };
}

const WHO_ENDS = "Who says so";

export const endOrder = act({
  name: "addOrderEnding",
  title: "The rest of an order will not come",
  fields: z.strictObject({ reason: line("Why"), by: hand(WHO_ENDS) }).meta({ id: "OrderEnding" }),
  answer: keptOrder,
  decide: async (desk, { reason, by }, { order: id }: { readonly order: string }) => {
    const order = await findOrder(desk.db, id);
    if (!order) return refused("not found", { detail: "There is no such order." });
    if (order.ending) return { answer: order };
    const who = handOf(desk, by, WHO_ENDS);
    if ("refused" in who) return who;
    const ending = { at: desk.at, by: who.by, reason };
    return {
      answer: { ...order, lines: order.lines.map((each) => ({ ...each, ended: true })), ending },
      writes: [endingOf(desk.db, id, ending)],
    };
  },
});
