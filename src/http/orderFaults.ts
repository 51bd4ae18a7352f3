/** Why an order or goods in are refused, as a person reads it. */
import type { GoodsInOutcome } from "../records/goodsIn.js";
import type { OrderFault } from "../records/orders.js";
import { counted } from "../wording/list.js";

export function orderFaultText(fault: OrderFault): string {
  switch (fault.is) {
    case "offer unknown":
      return `There is no offer '${fault.offer}' any more; look at the order list again.`;
    case "other source":
      return `Offer '${fault.offer}' is of ${fault.source}; an order goes to one source.`;
    case "other currency":
      return `Offer '${fault.offer}' is in ${fault.currency}; an order is in one currency.`;
    case "below minimum":
      return `Offer '${fault.offer}' is sold from ${counted(fault.minimum, "pack")} up, and ${fault.packs} is fewer; order more, or none.`;
  }
}

export type GoodsInFault = Exclude<GoodsInOutcome, { is: "in" }>;

/** The field it is about, and what to do. */
export function goodsInFault(fault: GoodsInFault): { readonly field: string; readonly text: string } {
  switch (fault.is) {
    case "unknown":
      return { field: fault.field, text: `There is no '${fault.id}'; choose one that is on record.` };
    case "other part":
      return { field: "kind", text: `That line of the order is for '${fault.kind}'; choose that part, or no order.` };
    case "missing":
      return fault.field === "packSize"
        ? { field: "packSize", text: "Pieces in a pack: this source has not offered the part before, so say how many." }
        : {
            field: "leadDays",
            text: "Days from order to arrival: this source has not offered the part before, so say how many.",
          };
    case "too many tested":
      return {
        field: "good",
        text: `Tested: only ${counted(fault.pieces, "piece")} can still be tested; good and bad together are more.`,
      };
  }
}
