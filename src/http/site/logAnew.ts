/** The form of the work log filled with an entry that was wrong; and what it says in its own way, as the act reads it. */
import { asLogged } from "../../acts/asWork.js";
import type { JobAsItStands } from "../../acts/job.js";
import { logWork } from "../../acts/logWork.js";
import { type Typed, typedWith } from "../../acts/readForm.js";
import { writeForm } from "../../acts/writeForm.js";
import type { EstimateInput } from "../../estimating/input.js";
import { workFrom, workValue } from "../../pages/bench/view.js";
import type { Database } from "../../records/database.js";
import { partKinds } from "../../records/partKinds.js";
import type { EntryKept } from "../../records/workLog.js";
import { offered } from "../../wording/rateBookParts.js";
import type { SaidOtherwise } from "../doors/page.js";
import { overriding } from "./benchSaid.js";

/** As the list of parts names it; one of the catalogue that no revision names was logged as its type, with its name in the note, or by its name. */
export async function asTaken(db: Database, { movements }: JobAsItStands, entry: EntryKept): Promise<EntryKept> {
  const taken = movements.find(({ id }) => id === `used:${entry.id}`);
  const kept = entry.partKind !== undefined || !taken ? undefined : await partKinds.find(db, taken.kind);
  if (!kept) return entry;
  const { partType, ownPart: _, note = "", ...rest } = entry;
  return { ...rest, partKind: kept.id, note: partType === undefined ? note : note.replace(kept.name, "").replace(/^: /, "") };
}

export async function partsToName(db: Database, input: EstimateInput, chosen: string | undefined) {
  const used = new Set([chosen, ...input.items.flatMap(({ part }) => (part && "type" in part ? `type:${part.type}` : []))]);
  const parts = [
    ...(input.kinds ?? []).map(({ id, name }) => [`kind:${id}`, name] as const),
    ...offered(input.rateBook.partTypes, ({ id }) => used.has(`type:${id}`)).map(({ id, name }) => [`type:${id}`, name] as const),
  ];
  const id = chosen?.startsWith("kind:") && !parts.some(([value]) => value === chosen) ? chosen.slice(5) : undefined;
  const other = id === undefined ? undefined : await partKinds.find(db, id);
  return other ? [[`kind:${other.id}`, other.name] as const, ...parts] : parts;
}

/** A price that is no whole amount a piece is left to its newest offer. Two ends become the minutes between them. */
export function fieldsAnew(entry: EntryKept, input: EstimateInput, tongue: JobAsItStands["tongue"]): Map<string, string> {
  const { item, assembly, offer, labourClass, person, workedOn, note, partKind, partType } = entry;
  const { own, ownHazards, ownPart, partSource, partReason } = entry;
  const { partCount = 1, paidPrice, paidPer = 1, partState = "new", insteadOf = false } = entry;
  const { minutes } = asLogged(entry, input);
  const part = partKind === undefined ? partType && `type:${partType}` : `kind:${partKind}`;
  const each = paidPrice !== undefined && paidPrice % paidPer === 0 ? paidPrice / paidPer : undefined;
  const value = {
    ...{ labourClass, person, workedOn, note, own, ownHazards },
    ...(minutes !== undefined && { minutes: Math.round(minutes * 1000) / 1000 }),
    ...((part ?? ownPart) !== undefined && { ownPart, partCount, paidPrice: each, partState, partSource, partReason, insteadOf }),
  };
  return new Map([
    ...writeForm(logWork.fields, value, tongue),
    ["item", item ?? (assembly === undefined && offer === undefined ? "" : workValue({ assembly, offer }))],
    ...((part ?? ownPart) ? [["part", part ?? ""] as const] : []),
  ]);
}

/** As the form's list of work names it. */
export const workNamed = (value: string, { items }: EstimateInput) =>
  items.some(({ id }) => id === value) || !/^(access|pull):/.test(value) ? { ...(value && { item: value }) } : workFrom(value);

export function logSaid(typed: Typed, input: EstimateInput): SaidOtherwise {
  const { typed: rest, wrong } = overriding(typed);
  const [, is, id] = /^(kind|type):(.+)$/s.exec(typed.get("part") ?? "") ?? [];
  const own = typed.get("ownPart")?.trim() ? {} : NO_PART;
  const part = is === undefined ? own : is === "kind" ? { partKind: id } : { partType: id };
  const work = { item: undefined, assembly: undefined, offer: undefined, ...workNamed(typed.get("item") ?? "", input) };
  return {
    typed: typedWith(rest, { ...work, ...part }),
    names: { assembly: "item", offer: "item", partKind: "part", partType: "part" },
    wrong,
  };
}

const NO_PART = {
  ...{ ownPart: undefined, partCount: undefined, paidPrice: undefined, partState: undefined, insteadOf: undefined },
  ...{ partSource: undefined, partReason: undefined, beyond: undefined },
};
