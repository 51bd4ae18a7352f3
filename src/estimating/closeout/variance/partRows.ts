/** Parts by work item: a part's line is shared over the items that take it, by count, and so are its variances. */
import type { EstimateInput, Minor } from "../../input.js";
import { split } from "../../money/split.js";
import type { Line } from "../../sheet.js";
import { type PartsDone, partKey } from "../actual/partsDone.js";
import type { ChargedRevision } from "../jobDone.js";
import { figures, type Row } from "./row.js";
import { type AllowedPieces, partsVariance } from "./variance.js";

interface Allotted extends AllowedPieces {
  readonly line: Line;
  readonly items: ReadonlyMap<string, { readonly pieces: number; readonly amount: Minor }>;
}

interface Revisions {
  readonly quoted: ChargedRevision;
  readonly agreed: ChargedRevision;
  readonly allowed: ChargedRevision;
}

const NOTHING = { pieces: 0, amount: 0 };

export function partRows(revisions: Revisions, parts: readonly PartsDone[]): Row[] {
  const [quoted, agreed, allowed] = [allotted(revisions.quoted), allotted(revisions.agreed), allotted(revisions.allowed)];
  const used = new Map<string, PartsDone[]>();
  for (const part of parts) if (part.agreed) used.set(part.as, [...(used.get(part.as) ?? []), part]);
  const places = placesOf([revisions.quoted.input, revisions.agreed.input, revisions.allowed.input]);
  return [...new Set([...allowed.keys(), ...agreed.keys(), ...quoted.keys(), ...used.keys()])].flatMap((key) => {
    const [q, a, s, done] = [quoted.get(key), agreed.get(key), allowed.get(key), used.get(key) ?? []];
    const standard = s ?? { ...NOTHING, worthE4: 0n };
    const actual = sharesOf(done);
    const pieces = done.reduce((sum, each) => sum + each.pieces, 0);
    const amount = done.reduce((sum, each) => sum + each.amount, 0);
    const { flexed } = partsVariance(standard, { pieces, amount });
    const takers = [...actual.keys()];
    const flexedShares = new Map(
      split(
        flexed,
        takers.map((item) => actual.get(item)!.pieces),
      ).map((share, index) => [takers[index]!, share]),
    );
    const line = (s ?? a ?? q)?.line ?? done[0]!.line;
    const items = new Set([s, a, q].flatMap((each) => [...(each?.items.keys() ?? [])]).concat(takers));
    return [...items].map((item): Row => {
      const at = (all: Pick<Allotted, "items"> | undefined) => all?.items.get(item) ?? NOTHING;
      const real = actual.get(item) ?? NOTHING;
      const assembly = places.get(item);
      return {
        id: `${line.id} ${item}`,
        category: "parts",
        is: { line },
        item,
        ...(assembly && { assembly }),
        pieces: { quoted: at(q).pieces, agreed: at(a).pieces, allowed: at(s).pieces, actual: real.pieces },
        ...figures({ quoted: at(q).amount, agreed: at(a).amount, allowed: at(s).amount, actual: real.amount }, "usage", {
          price: real.amount - (flexedShares.get(item) ?? 0),
        }),
      };
    });
  });
}

/** What a sheet charges for each part, and each item's share of it. */
function allotted({ input, sheet }: ChargedRevision): Map<string, Allotted> {
  const counts = new Map(input.items.map(({ id, count }) => [id, count]));
  const byPart = new Map<string, Line[]>();
  for (const line of sheet.lines)
    if (line.sort === "part" && line.part) byPart.set(partKey(line.part), [...(byPart.get(partKey(line.part)) ?? []), line]);
  return new Map(
    [...byPart].map(([key, lines]) => {
      const amount = lines.reduce((sum, line) => sum + line.amount, 0);
      const takers = [
        ...new Set(lines.flatMap(({ from }) => from.flatMap((source) => (source.is === "item" ? [source.id] : [])))),
      ];
      const weights = takers.map((item) => counts.get(item) ?? 0);
      const shares = split(amount, weights);
      return [
        key,
        {
          line: lines[0]!,
          amount,
          pieces: weights.reduce((sum, count) => sum + count, 0),
          worthE4: lines.reduce((sum, { count = 0, unitPriceE4 = 0 }) => sum + BigInt(count) * BigInt(unitPriceE4), 0n),
          items: new Map(takers.map((item, index) => [item, { pieces: weights[index]!, amount: shares[index]! }])),
        },
      ];
    }),
  );
}

/** Pieces and money of each item, price by price. */
function sharesOf(done: readonly PartsDone[]): Map<string, { pieces: number; amount: Minor }> {
  const shares = new Map<string, { pieces: number; amount: Minor }>();
  for (const { used, amount } of done)
    split(
      amount,
      used.map(({ count }) => count),
    ).forEach((share, index) => {
      const { item, count } = used[index]!;
      const before = shares.get(item) ?? NOTHING;
      shares.set(item, { pieces: before.pieces + count, amount: before.amount + share });
    });
  return shares;
}

function placesOf(inputs: readonly EstimateInput[]): Map<string, { id: string; name: string }> {
  return new Map(
    inputs.flatMap(({ items, map }) => {
      const names = new Map((map?.assemblies ?? []).map(({ id, name }) => [id, { id, name }]));
      return items.flatMap(({ id, assembly }) => {
        const place = names.get(assembly ?? "");
        return place ? [[id, place] as const] : [];
      });
    }),
  );
}
