/** The time standards of a rate book, one by one, and what can be learnt about them. */
import type { BoardSize, FastenerKind, Mounting, OfferState, RateBook, ThreePoint } from "../../input.js";

export type Standard =
  /** Set-up and handling. */
  | { readonly is: "operation"; readonly id: string; readonly name: string }
  /** The five steps of a soldered lead. */
  | { readonly is: "leads" }
  | { readonly is: "part type"; readonly id: string; readonly name: string }
  | { readonly is: "fastener"; readonly kind: FastenerKind }
  | { readonly is: "access"; readonly size: BoardSize; readonly mounting: Mounting }
  | { readonly is: "grade"; readonly id: string; readonly name: string }
  | { readonly is: "share good"; readonly state: OfferState };

/** One text per standard; the id of a proposal about it. */
export function standardId(standard: Standard): string {
  switch (standard.is) {
    case "operation":
    case "part type":
    case "grade":
      return `${standard.is}:${standard.id}`;
    case "leads":
      return "leads";
    case "fastener":
      return `fastener:${standard.kind}`;
    case "access":
      return `access:${standard.size}, ${standard.mounting}`;
    case "share good":
      return `share good:${standard.state}`;
  }
}

/** The times a standard is made of, by JSON pointer into the rate book. */
export function timesOf(standard: Standard, rateBook: RateBook): readonly { pointer: string; time: ThreePoint }[] {
  const both = (list: string, at: number, entry: { remove: ThreePoint; refit: ThreePoint } | undefined) =>
    entry
      ? [
          { pointer: `/${list}/${at}/remove`, time: entry.remove },
          { pointer: `/${list}/${at}/refit`, time: entry.refit },
        ]
      : [];
  switch (standard.is) {
    case "operation": {
      const at = rateBook.operations.findIndex(({ id }) => id === standard.id);
      const entry = rateBook.operations[at];
      return entry
        ? [
            { pointer: `/operations/${at}/setup`, time: entry.setup },
            { pointer: `/operations/${at}/unit`, time: entry.unit },
          ]
        : [];
    }
    case "leads":
      return (["desolder", "clear", "fit", "solder", "inspect"] as const).map((step) => ({
        pointer: `/leads/${step}`,
        time: rateBook.leads[step],
      }));
    case "part type": {
      const at = rateBook.partTypes.findIndex(({ id }) => id === standard.id);
      const time = rateBook.partTypes[at]?.minutes;
      return time ? [{ pointer: `/partTypes/${at}/minutes`, time }] : [];
    }
    case "fastener": {
      const at = rateBook.fasteners.findIndex(({ kind }) => kind === standard.kind);
      return both("fasteners", at, rateBook.fasteners[at]);
    }
    case "access": {
      const at = rateBook.accessStandards.findIndex(
        ({ size, mounting }) => size === standard.size && mounting === standard.mounting,
      );
      return both("accessStandards", at, rateBook.accessStandards[at]);
    }
    case "grade":
    case "share good":
      return [];
  }
}

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
