/** The form of the work log filled with an entry that was withdrawn, and the part as it is read from it. */
import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import type { EstimateInput } from "../../estimating/input.js";
import { decimalsOf } from "../../estimating/money/currency.js";
import { workFrom, workValue } from "../../pages/bench/view.js";
import { choice, count, money, type Reading } from "../../pages/form/reading.js";
import { asLogged } from "../../records/asWork.js";
import type { Database } from "../../records/database.js";
import { partKinds } from "../../records/partKinds.js";
import { kindTaken } from "../../records/stock.js";
import type { EntryKept, LogEntryValue } from "../../records/workLog.js";
import { decimalMark, shift, typed } from "../../wording/decimal.js";
import type { Tongue } from "../../wording/tongue.js";

/** As the list of parts names it; one of the catalogue that no revision names was logged as its type, with its name in the note. */
export async function asTaken(db: Database, entry: EntryKept): Promise<EntryKept> {
  const kind = entry.partType === undefined ? undefined : await kindTaken(db, entry.id);
  const kept = kind === undefined ? undefined : await partKinds.find(db, kind);
  if (!kept) return entry;
  const { partType: _, note = "", ...rest } = entry;
  return { ...rest, partKind: kept.id, note: note.replace(kept.name, "").replace(/^: /, "") };
}

export async function partsToName(db: Database, input: EstimateInput, chosen: string | undefined) {
  const parts = [
    ...(input.kinds ?? []).map(({ id, name }) => [`kind:${id}`, name] as const),
    ...input.rateBook.partTypes.map(({ id, name }) => [`type:${id}`, name] as const),
  ];
  const id = chosen?.startsWith("kind:") && !parts.some(([value]) => value === chosen) ? chosen.slice(5) : undefined;
  const other = id === undefined ? undefined : await partKinds.find(db, id);
  return other ? [[`kind:${other.id}`, other.name] as const, ...parts] : parts;
}

/** A price that is no whole amount a piece is left to its newest offer. Two ends become the minutes between them. */
export function fieldsAnew(entry: EntryKept, input: EstimateInput, { locale, currency }: Tongue): Map<string, string> {
  const { item, assembly, offer, labourClass, person, workedOn, note = "", partKind, partType, partCount = 1 } = entry;
  const { paidPrice, paidPer = 1, partState = "new", insteadOf } = entry;
  const { minutes } = asLogged(entry, input);
  const mark = decimalMark(locale);
  const part = partKind === undefined ? partType && `type:${partType}` : `kind:${partKind}`;
  const each = paidPrice !== undefined && paidPrice % paidPer === 0 ? paidPrice / paidPer : undefined;
  return new Map([
    ["item", item ?? (assembly === undefined && offer === undefined ? "" : workValue({ assembly, offer }))],
    ["minutes", minutes === undefined ? "" : typed(String(Math.round(minutes * 1000) / 1000), mark)],
    ["labourClass", labourClass ?? ""],
    ...([
      ["person", person],
      ["workedOn", workedOn],
      ["note", note],
    ] as const),
    ...(part
      ? ([
          ["part", part],
          ["pieces", String(partCount)],
          ["paid", each === undefined ? "" : typed(shift(String(each), -(decimalsOf(currency) ?? 2)), mark)],
          ["state", partState],
          ["instead", insteadOf ? "yes" : ""],
        ] as const)
      : []),
  ]);
}

/** As the form's list of work names it. */
export const workNamed = (value: string, { items }: EstimateInput) =>
  items.some(({ id }) => id === value) || !/^(access|pull):/.test(value) ? { ...(value && { item: value }) } : workFrom(value);

/** Undefined where the form names no part. */
export function partAnew(at: Reading, fields: ReadonlyMap<string, string>): Partial<LogEntryValue> | undefined {
  const [, is, id] = /^(kind|type):(.+)$/s.exec(fields.get("part") ?? "") ?? [];
  if (id === undefined) return undefined;
  const [pieces, paid] = [count(at, "pieces", fields.get("pieces")), money(at, "paid", fields.get("paid"))];
  const state = choice(at, "state", fields.get("state"), PART_STATES);
  return {
    ...(is === "kind" ? { partKind: id } : { partType: id }),
    partCount: pieces ?? 1,
    ...(paid !== undefined && { paidPrice: paid, paidPer: 1 }),
    ...(state && { partState: state }),
    ...(fields.get("instead") === "yes" && { insteadOf: true as const }),
  };
}
