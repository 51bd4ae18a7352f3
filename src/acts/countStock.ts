/** What a look at the shelf found: pieces of a kind, or of each kind on a page. A movement brings the count there. */
import { z } from "zod";
import { LIMITS } from "../estimating/problems.js";
import { partKindNames } from "../records/partKinds.js";
import { countedRow, lastMovements, type Movement } from "../records/stock.js";
import { act, type Decided, type Desk, wrongField } from "./act.js";
import { hand, line, maybe, whole } from "./field.js";
import { handOf } from "./hand.js";
import { movement } from "./shapes/parts.js";
import { ident } from "./shapes/primitives.js";

const WHO = "Who counted";
const pieces = whole("Counted now", { least: 0, most: LIMITS.stock });
const why = {
  reason: line("Why the count is corrected", { hint: "Such as: shelf counted, dropped and broken" }),
  by: hand(WHO),
};

export const countKind = act({
  name: "addStockCount",
  title: "What a look at the shelf found",
  fields: z.strictObject({ kind: ident, counted: pieces, ...why }).meta({ id: "StockCount" }),
  answer: movement,
  decide: async (desk, { kind, counted, ...rest }): Promise<Decided<Movement>> => {
    const done = await counts(desk, { ...rest, counted: { [kind]: counted } }, () => "/kind");
    return "refused" in done ? done : { ...done, answer: done.answer[0]! };
  },
});

export const countShelf = act({
  name: "countShelf",
  title: "Stock",
  fields: z.strictObject({ counted: maybe(z.record(ident, pieces)), ...why }),
  answer: z.array(movement),
  decide: (desk, { counted, ...rest }) =>
    counted && Object.keys(counted).length > 0
      ? counts(desk, { counted, ...rest }, (kind) => `/counted/${kind}`)
      : Promise.resolve(wrongField("", "key missing", "Nothing was counted: type a number beside a part first.")),
});

async function counts(
  desk: Desk,
  { counted, reason, by }: { readonly counted: Readonly<Record<string, number>>; readonly reason: string; readonly by?: string },
  at: (kind: string) => string,
): Promise<Decided<readonly Movement[]>> {
  const who = handOf(desk, by, WHO);
  if ("refused" in who) return who;
  const kinds = Object.keys(counted);
  const [known, last] = await Promise.all([partKindNames(desk.db, kinds), lastMovements(desk.db, kinds)]);
  const unknown = kinds.find((kind) => !known.has(kind));
  if (unknown !== undefined) return wrongField(at(unknown), "record unknown", `There is no part kind '${unknown}' any more.`);
  const moves = kinds.map((kind, n): Movement => {
    const standsAt = counted[kind]!;
    const change = standsAt - (last.standing.get(kind) ?? 0);
    const row = { id: desk.newId(), kind, why: "counted", change, beyond: 0, standsAt, reason } as const;
    return { number: last.number + n + 1, ...row, at: desk.at, by: who.by };
  });
  return { answer: moves, writes: moves.map((move) => countedRow(desk.db, move)) };
}
