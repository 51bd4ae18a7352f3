/** Which standards of the rate book the time of a line is made of, before the condition grade. */
import { readBook } from "../../book.js";
import type { Access, BoardCount, EstimateInput, RateBook } from "../../input.js";
import { accessTimes } from "../../labour/access.js";
import { setupsOf } from "../../labour/labourLine.js";
import { perLead, type ReadItem } from "../../labour/readItem.js";
import { inMilli, NO_TIME, plus, type Times, times } from "../../labour/times.js";
import { resolvedFrom } from "../../resolve.js";
import { type Standard, standardId } from "./standard.js";

type Rest = { readonly standard: Standard; readonly milli: Times };

/** By line id. */
export function standardsBehind(
  input: EstimateInput,
  items: readonly ReadItem[],
  opened: readonly number[],
): ReadonlyMap<string, readonly Rest[]> {
  const { boards = [], toOpen = [], map, rateBook } = input;
  const counted = boards.reduce((sum, { count }) => sum + count, 0) + new Set(toOpen).size;
  const setups = setupsOf(items, counted, rateBook);
  return new Map([
    ...items.map((read) => [`labour:${read.item.id}`, behindItem(read, setups.get(read) ?? 0, rateBook)] as const),
    ...opened.map((place) => {
      const { id, access } = map!.assemblies[place]!;
      return [`access:${id}`, behindAccess(access, 1, input)] as const;
    }),
    ...boards.map((row, at) => [`access:boards:${at}`, behindBoards(row, input)] as const),
  ]);
}

function behindItem({ item, takes }: ReadItem, setups: number, rateBook: RateBook): Rest[] {
  if (item.minutes) return [];
  const { operation, part, leads } = takes;
  const given = resolvedFrom(rateBook);
  if (operation.at >= given.operations) return [];
  const { id, name } = operation.is;
  const own = plus(times(takes.setup, setups), times(inMilli(operation.is.unit), item.count));
  const type = part?.type.is;
  const replaced = operation.is.sort === "replacement" && type !== undefined && part!.type.at < given.partTypes;
  return some([
    { standard: { is: "operation", id, name }, milli: own },
    ...(replaced && leads !== undefined
      ? [{ standard: { is: "leads" } as const, milli: times(perLead(rateBook.leads), leads * item.count) }]
      : []),
    ...(replaced && leads === undefined
      ? [
          {
            standard: { is: "part type", id: type.id, name: type.name } as const,
            milli: times(inMilli(type.minutes!), item.count),
          },
        ]
      : []),
  ]);
}

function behindAccess(access: Access, count: number, input: EstimateInput): Rest[] {
  if (access.by === "measured") return [];
  const book = readBook(input);
  const timeOf = (one: Access) => {
    const { remove, refit } = accessTimes(one, book);
    return times(plus(remove, refit), count);
  };
  if (access.by === "standard") {
    const { size, mounting } = access;
    return some([{ standard: { is: "access", size, mounting }, milli: timeOf(access) }]);
  }
  return some(
    access.fasteners.map((fastener) => ({
      standard: { is: "fastener", kind: fastener.kind },
      milli: timeOf({ by: "fasteners", fasteners: [fastener] }),
    })),
  );
}

const behindBoards = ({ size, mounting, count }: BoardCount, input: EstimateInput): Rest[] =>
  behindAccess({ by: "standard", size, mounting }, count, input);

/** Those that take time, each standard once. */
function some(rests: readonly Rest[]): Rest[] {
  const merged = new Map<string, Rest>();
  for (const rest of rests) {
    const key = standardId(rest.standard);
    merged.set(key, { standard: rest.standard, milli: plus(merged.get(key)?.milli ?? NO_TIME, rest.milli) });
  }
  return [...merged.values()].filter(({ milli }) => milli.likely > 0);
}
