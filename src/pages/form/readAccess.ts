/** How one assembly's removal and refit are timed. */
import type { Access, BoardSize, FastenerKind, Mounting, ThreePoint } from "../../estimating/input.js";
import { BOARD_SIZES, FASTENER_KINDS, MOUNTINGS } from "../../estimating/lists.js";
import type { AssemblyDraft, Draft } from "./draft.js";
import { key } from "./fields.js";
import type { AssemblyRow } from "./names.js";
import { choice, count, number, type Reading } from "./reading.js";

/** Unless told which, access goes by the fasteners if any are counted, else by the standard. */
export function readAccess(at: Reading, draft: Draft, { key: rowKey, draft: mine }: AssemblyRow, pointer: string): Access {
  const field = `assembly.${rowKey}`;
  at.where.set(pointer, `${field}.by`);
  const fasteners: { kind: FastenerKind; count: number }[] = [];
  for (const kind of FASTENER_KINDS) {
    const cell = `fasteners.${rowKey}.${key(kind)}`;
    const counted = count(at, cell, draft.fasteners[rowKey]?.[key(kind)]);
    if (counted === undefined) continue;
    at.where.set(`${pointer}/fasteners/${fasteners.length}`, cell);
    fasteners.push({ kind, count: counted });
  }
  const by =
    choice(at, `${field}.by`, mine.by, ["fasteners", "standard", "measured"]) ??
    (fasteners.length > 0 ? "fasteners" : "standard");
  if (by === "fasteners") return { by, fasteners };
  if (by === "measured") {
    at.where.set(`${pointer}/remove`, `${field}.removeLikely`);
    at.where.set(`${pointer}/refit`, `${field}.refitLikely`);
    return { by, remove: readTime(at, field, "remove", mine), refit: readTime(at, field, "refit", mine) };
  }
  return {
    by,
    size: choice<BoardSize>(at, `${field}.size`, mine.size, BOARD_SIZES) ?? "medium",
    mounting: choice<Mounting>(at, `${field}.mounting`, mine.mounting, MOUNTINGS) ?? "on top",
  };
}

function readTime(at: Reading, field: string, what: "remove" | "refit", mine: AssemblyDraft): ThreePoint {
  if (!mine[`${what}Likely`]?.trim()) at.problems.push({ name: "missing", field: `${field}.${what}Likely` });
  const read = (end: "Low" | "Likely" | "High") => number(at, `${field}.${what}${end}`, mine[`${what}${end}`], 3);
  const likely = read("Likely") ?? 0;
  return { low: read("Low") ?? likely, likely, high: read("High") ?? likely };
}
