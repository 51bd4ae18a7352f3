/** Why an order or goods in are refused, as a person reads it. */
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
