/** Assemblies, how each is reached, and what must go back first. */
import type {
  Access,
  Assembly,
  AssemblySort,
  BoardSize,
  FastenerKind,
  Hazard,
  Mounting,
  TeardownMap,
  ThreePoint,
  WorthDoing,
} from "../../estimating/input.js";
import { ASSEMBLY_SORTS, BOARD_SIZES, FASTENER_KINDS, HAZARDS, MOUNTINGS } from "../../estimating/lists.js";
import type { AssemblyDraft, Draft } from "./draft.js";
import { given, idOf, key } from "./fields.js";
import { type AssemblyRow, assemblyRows, named, namedList, operationNames, typeNames } from "./names.js";
import { choice, count, line, marked, note, number, type Reading } from "./reading.js";

export function readMap(at: Reading, draft: Draft): TeardownMap | undefined {
  const rows = assemblyRows(draft);
  if (rows.length === 0) return undefined;
  const fitBefore = readFits(at, draft, rows);
  const assemblies = rows.map((row, index) => readAssembly(at, draft, rows, row, `/map/assemblies/${index}`));
  return given({ assemblies, fitBefore: fitBefore.length > 0 ? fitBefore : undefined });
}

function readAssembly(at: Reading, draft: Draft, rows: readonly AssemblyRow[], row: AssemblyRow, pointer: string): Assembly {
  const field = `assembly.${row.key}`;
  const mine = row.draft;
  at.where.set(pointer, `${field}.name`);
  at.where.set(`${pointer}/behind`, `${field}.behind`);
  at.where.set(`${pointer}/joined`, `${field}.joined`);
  if (!mine.name?.trim()) at.problems.push({ name: "missing", field: `${field}.name` });
  const behind = namedList(at, `${field}.behind`, mine.behind, rows);
  const joined = namedList(at, `${field}.joined`, mine.joined, rows);
  const hazards = marked<Hazard>(draft.hazards[row.key], HAZARDS);
  const usual = readUsual(at, draft, row.key, pointer);
  const worthDoing = readWorth(at, draft, rows, row, pointer);
  return given({
    id: row.id,
    name: line(at, `${field}.name`, mine.name) ?? row.name,
    sort: choice<AssemblySort>(at, `${field}.sort`, mine.sort, ASSEMBLY_SORTS) ?? "board",
    access: readAccess(at, draft, row, `${pointer}/access`),
    behind: behind.length > 0 ? behind : undefined,
    joined: joined.length > 0 ? joined : undefined,
    hazards: hazards.length > 0 ? hazards : undefined,
    notes: note(at, `${field}.notes`, mine.notes),
    counts: usual,
    worthDoing: worthDoing.length > 0 ? worthDoing : undefined,
  });
}

/** The counts the model usually has, as the grid was started with. */
function readUsual(at: Reading, draft: Draft, rowKey: string, pointer: string): Readonly<Record<string, number>> | undefined {
  const usual: Record<string, number> = Object.create(null);
  for (const [column, text] of Object.entries(draft.usual[rowKey] ?? {})) {
    const counted = count(at, `usual.${rowKey}.${column}`, text);
    if (counted === undefined) continue;
    const id = idOf(column).slice(2);
    usual[id] = counted;
    at.where.set(`${pointer}/counts/${id}`, `usual.${rowKey}.${column}`);
  }
  return Object.keys(usual).length > 0 ? { ...usual } : undefined;
}

function readWorth(
  at: Reading,
  draft: Draft,
  rows: readonly AssemblyRow[],
  { id }: AssemblyRow,
  pointer: string,
): readonly WorthDoing[] {
  const found: WorthDoing[] = [];
  for (const [worthKey, mine] of Object.entries(draft.worth)) {
    const field = `worth.${worthKey}`;
    const quiet = { ...at, problems: [] };
    if (named(quiet, field, mine.assembly, rows) !== id) continue;
    const operation = named(at, `${field}.operation`, mine.operation, operationNames(at.context));
    if (operation === undefined) continue;
    const partType = named(at, `${field}.part`, mine.part, typeNames(at.context));
    at.where.set(`${pointer}/worthDoing/${found.length}`, `${field}.count`);
    found.push(
      given({
        operation,
        count: count(at, `${field}.count`, mine.count) ?? 1,
        partType,
        reason: line(at, `${field}.reason`, mine.reason) ?? "",
      }),
    );
  }
  return found;
}

function readFits(at: Reading, draft: Draft, rows: readonly AssemblyRow[]) {
  return Object.entries(draft.fit).flatMap(([fitKey, mine]) => {
    const field = `fit.${fitKey}`;
    if (!mine.first?.trim() && !mine.then?.trim()) return [];
    for (const end of ["first", "then"] as const) {
      if (!mine[end]?.trim()) at.problems.push({ name: "missing", field: `${field}.${end}` });
    }
    const first = named(at, `${field}.first`, mine.first, rows);
    const then = named(at, `${field}.then`, mine.then, rows);
    if (first === undefined || then === undefined) return [];
    at.where.set("/map/fitBefore", `${field}.first`);
    return [given({ first, then, why: line(at, `${field}.why`, mine.why) })];
  });
}

/** How one assembly's removal and refit are timed. Unless told which, access goes by the fasteners if any are counted, else by the standard. */
function readAccess(at: Reading, draft: Draft, { key: rowKey, draft: mine }: AssemblyRow, pointer: string): Access {
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
