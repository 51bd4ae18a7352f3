/** Parts without a day, on sheet, paper and owner's page. People and parts invented. */
import { describe, expect, it } from "vitest";
import { estimateBlocks, shorterBlocks } from "../../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../../src/documents/estimate/subject.js";
import type { EstimateInput, Offer, OwnPart, PartKind, PartPrice } from "../../../src/estimating/input.js";
import { unknownDelivery } from "../../../src/estimating/parts/unknownDelivery.js";
import { ownerSheet } from "../../../src/http/owner/ownerSheet.js";
import { unknownDeliveryText } from "../../../src/wording/line.js";
import { asLetter, PLAIN_COUNTS, priced } from "../../documents/support/cast.js";
import { textsOf } from "../../documents/support/texts.js";

const [TYPE] = PLAIN_COUNTS.rateBook.partTypes;
const OPERATION = PLAIN_COUNTS.rateBook.operations.find(({ sort }) => sort === "replacement")!;
const OFFER: Omit<Offer, "kind"> = {
  ...{ id: "o", source: "Farwell Surplus", on: PLAIN_COUNTS.asOf, currency: PLAIN_COUNTS.currency, price: 900, packSize: 1 },
  ...{ leadDays: 0, state: "new" },
};
const job = (
  part: { readonly type: string } | { readonly kind: string } | { readonly own: OwnPart },
  more = {},
): EstimateInput => ({
  ...PLAIN_COUNTS,
  items: [{ id: "w", operation: OPERATION.id, count: 2, part, certainty: { is: "planned" } }],
  kinds: [],
  offers: [],
  ...more,
});
const KIND: PartKind = { id: "k", type: TYPE!.id, name: "Mixer idler" };
const ofKind = (kind: Partial<PartKind> = {}, offers: readonly Offer[] = []) =>
  job({ kind: "k" }, { kinds: [{ ...KIND, ...kind }], offers });
const own = (more: Partial<OwnPart> = {}) => job({ own: { name: "Capstan sleeve", type: TYPE!.id, cost: 1200, ...more } });
const scarce = (partPrice?: PartPrice): EstimateInput => {
  const input = job({ type: TYPE!.id }, { policy: { scarcityByType: { [TYPE!.id]: "scarce" } } });
  return { ...input, items: input.items.map((item) => ({ ...item, ...(partPrice && { partPrice }) })) };
};
const unknown = (input: EstimateInput) => unknownDelivery(input, priced(input));

describe("a part whose days of delivery nobody knows", () => {
  it("is one that nobody offers, or in the shop's own words without its days", () => {
    expect(unknown(ofKind())).toEqual(["Mixer idler"]);
    expect(unknown(ofKind({ stock: 1 }))).toEqual(["Mixer idler"]);
    expect(unknown(ofKind({ scarcity: "to order" }))).toEqual(["Mixer idler"]);
    expect(unknown(own())).toEqual(["Capstan sleeve"]);
    // A listed part that is said to be hard to get is not at hand either.
    expect(unknown(scarce())).toEqual([TYPE!.name]);
    expect(unknown(scarce({ cost: 9550, reason: "wound to order" }))).toEqual([TYPE!.name]);
  });

  it("is none at a price of its line that says the days, and these are waited for", () => {
    const price = { cost: 9550, reason: "wound to order", leadDays: 21 };
    expect(unknown(scarce(price))).toEqual([]);
    expect([priced(scarce()), priced(scarce(price))].map(({ days }) => days.lead)).toEqual([0, 21]);
    const [shelf] = [ofKind({ stock: 9 }, [{ ...OFFER, kind: "k", leadDays: 4 }])].map((input) => ({
      ...input,
      items: input.items.map((item) => ({ ...item, partPrice: { ...price, leadDays: 0 } })),
    }));
    expect(priced(shelf!).days.lead).toBe(0);
  });

  it("is none on the shelf, offered, brought, in stock by word, usual, or with its days", () => {
    for (const input of [
      ofKind({ stock: 2 }),
      ofKind({ scarcity: "in stock" }),
      ofKind({}, [{ ...OFFER, kind: "k" }]),
      job({ type: TYPE!.id }),
      own({ leadDays: 0 }),
      job({ own: { name: "Capstan sleeve", type: TYPE!.id, broughtByOwner: true } }),
    ])
      expect(unknown(input)).toEqual([]);
  });

  it("is named beside the day on every paper and the owner's page, and the shop is told what to do", () => {
    const said = "Not counting the delivery of Capstan sleeve, which is not known yet.";
    const input = own();
    const sheet = priced(input);
    for (const detail of ["letter", "by assembly", "every line"] as const) {
      const subject = subjectOf(sheet, { ...asLetter(input), paperwork: { ...asLetter(input).paperwork, detail } });
      for (const blocks of [estimateBlocks(subject), ...shorterBlocks(subject)]) expect(textsOf(blocks)).toContain(said);
    }
    expect(ownerSheet(sheet, input, subjectOf(sheet, input).tongue).notCounted).toBe(said);
    expect(unknownDeliveryText(input, sheet)).toContain("count no delivery of Capstan sleeve");
    expect(unknownDeliveryText(own({ leadDays: 3 }), priced(own({ leadDays: 3 })))).toBeUndefined();
  });

  it("is none once it is fitted in all the work that takes it", () => {
    const once = own();
    const [one] = once.items;
    expect(unknownDelivery(once, priced(once), ["w"])).toEqual([]);
    const twice = {
      ...ofKind(),
      items: [
        { ...one!, part: { kind: "k" } },
        { ...one!, id: "v", part: { kind: "k" } },
      ],
    };
    expect(unknownDelivery(twice, priced(twice), ["w"])).toEqual(["Mixer idler"]);
    expect(unknownDelivery(twice, priced(twice), ["w", "v"])).toEqual([]);
  });
});
