import type { BoardSize, FastenerKind, Mounting, OfferState, RateBook } from "../../input.js";
import type { Standard } from "./standard.js";

/** The standard whose `standardId` this is. What the rate book no longer has goes by its id. */
export function standardNamed(id: string, { operations, partTypes, grades }: RateBook): Standard {
  const cut = id.indexOf(":");
  const [is, rest] = cut < 0 ? [id, ""] : [id.slice(0, cut), id.slice(cut + 1)];
  const named = (list: readonly { readonly id: string; readonly name: string }[]) => ({
    id: rest,
    name: list.find((each) => each.id === rest)?.name ?? rest,
  });
  switch (is) {
    case "operation":
      return { is, ...named(operations) };
    case "part type":
      return { is, ...named(partTypes) };
    case "grade":
      return { is, ...named(grades) };
    case "leads":
      return { is };
    case "fastener":
      return { is, kind: rest as FastenerKind };
    case "access": {
      const [size, mounting] = rest.split(", ") as [BoardSize, Mounting];
      return { is, size, mounting };
    }
    case "share good":
      return { is, state: rest as OfferState };
    default:
      throw new Error(`'${id}' is not the id of a standard.`);
  }
}
