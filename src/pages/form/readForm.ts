/**
 * The one reader of the intake form, shared by the server and the browser: text to an input, with everything that could not be
 * read named beside its field. What cannot be read is left out of the input; the rest can still be priced.
 */

import { isDay } from "../../estimating/day.js";
import type { BoardCount, EstimateInput, Hazard, Party, Unit } from "../../estimating/input.js";
import { BOARD_SIZES, HAZARDS, MOUNTINGS, POWERS } from "../../estimating/lists.js";
import { ratesTaken } from "../../estimating/money/landed.js";
import type { FormContext } from "./context.js";
import { type AssemblyDraft, type Draft, draftFrom } from "./draft.js";
import { type Fields, given, key } from "./fields.js";
import { assemblyRows } from "./names.js";
import type { FormProblem } from "./problemText.js";
import { readItems } from "./readItems.js";
import { choice, count, email, line, lines, marked, money, note, type Reading, reading } from "./reading.js";
import { readMap } from "./readMap.js";
import { readTerms } from "./terms.js";
import { unclearNext } from "./typedLine.js";
import { UNIT_TEXT_NAMES, UNIT_TEXTS, type UnitTexts } from "./unitTexts.js";

export interface Read {
  readonly fields: Fields;
  readonly draft: Draft;
  readonly input: EstimateInput;
  readonly problems: readonly FormProblem[];
  /** The field behind a JSON pointer into the input, if a field is behind it. */
  readonly fieldAt: (pointer: string) => string | undefined;
}

export function readForm(fields: Fields, context: FormContext): Read {
  const draft = draftFrom(fields);
  const at = reading(context);
  at.where.set("/asOf", "meta.asOf");
  const owner = readOwner(at, draft);
  const items = readItems(at, draft);
  const used = new Set(items.flatMap(({ part }) => (part && "kind" in part ? [part.kind] : [])));
  const asOf = line(at, "meta.asOf", draft.meta.asOf) ?? context.today;
  const offers = context.offers.filter(({ kind }) => used.has(kind));
  const input: EstimateInput = given({
    schema: 1 as const,
    asOf,
    currency: context.currency,
    unit: readUnit(at, draft),
    map: readMap(at, draft),
    boards: readBoards(at, draft),
    alreadyOpen: those(draft, ({ open }) => open === "already"),
    openAtNoCharge: those(draft, ({ open }) => open === "free"),
    toOpen: those(draft, ({ wanted }) => Boolean(wanted)),
    items,
    kinds: context.kinds.filter(({ id }) => used.has(id)),
    offers,
    exchange: ratesTaken({ asOf, currency: context.currency, offers }, context.exchange.known, context.exchange.kept),
    rateBook: context.rateBook,
    policy: readTerms(at, draft),
    paperwork: given({ ...context.paperwork, owner }),
  });
  if (isDay(asOf) && asOf > context.today) at.problems.push({ name: "figure wrong", field: "meta.asOf", why: AHEAD });
  for (const { field, why } of unclearNext(fields, context)) at.problems.push({ name: "figure wrong", field, why });
  return { fields, draft, input, problems: once(at.problems), fieldAt: (pointer) => nearest(at.where, pointer) };
}

const AHEAD = "this day is still to come; give today, or a day before.";

function those(draft: Draft, picked: (row: AssemblyDraft) => boolean): readonly string[] | undefined {
  const ids = assemblyRows(draft)
    .filter((row) => picked(row.draft))
    .map(({ id }) => id);
  return ids.length > 0 ? ids : undefined;
}

function nearest(where: ReadonlyMap<string, string>, pointer: string): string | undefined {
  for (let at = pointer; at !== ""; at = at.slice(0, at.lastIndexOf("/"))) {
    const field = where.get(at);
    if (field) return field;
  }
  return undefined;
}

/** One complaint a field: the first says what to put right. */
const once = (problems: readonly FormProblem[]): readonly FormProblem[] =>
  problems.filter(({ field }, index) => problems.findIndex((other) => other.field === field) === index);

/** The unit and its owner. */
export function readUnit(at: Reading, { unit, caution }: Draft): Unit {
  at.where.set("/unit/grade", "unit.grade");
  at.where.set("/unit/declaredValue", "unit.value");
  const hazards = marked<Hazard>(caution, HAZARDS);
  const grades = at.context.rateBook.grades.map(({ id }) => id);
  return given({
    maker: line(at, "unit.maker", unit.maker) ?? "",
    model: line(at, "unit.model", unit.model) ?? "",
    ...readTexts(at, unit),
    declaredValue: money(at, "unit.value", unit.value),
    grade: choice(at, "unit.grade", unit.grade, grades),
    storedData: readStoredData(at, unit),
    hazards: hazards.length > 0 ? hazards : undefined,
    power: choice(at, "unit.power", unit.power, POWERS),
  });
}

const READ = { line, lines, note };

const readTexts = (at: Reading, unit: Draft["unit"]): UnitTexts =>
  Object.fromEntries(UNIT_TEXT_NAMES.map((name) => [name, READ[UNIT_TEXTS[name].as](at, `unit.${name}`, unit[name])]));

/** What is written wins over 'none'. */
function readStoredData(at: Reading, unit: Draft["unit"]): string | undefined {
  const written = note(at, "unit.storedData", unit.storedData);
  if (unit.dataHeld === "held" && written === undefined) at.problems.push({ name: "missing", field: "unit.storedData" });
  return written ?? (unit.dataHeld === "none" ? "" : undefined);
}

export function readOwner(at: Reading, { owner }: Draft): Party | undefined {
  const party = given({
    name: line(at, "owner.name", owner.name) ?? "",
    address: lines(at, "owner.address", owner.address),
    phone: line(at, "owner.phone", owner.phone),
    email: email(at, "owner.email", owner.email),
  });
  return party.name === "" && Object.keys(party).length === 1 ? undefined : party;
}

/** Boards that are counted and not named. */
function readBoards(at: Reading, draft: Draft): readonly BoardCount[] | undefined {
  const boards: BoardCount[] = [];
  for (const size of BOARD_SIZES) {
    for (const mounting of MOUNTINGS) {
      const cell = `boards.${size}.${key(mounting)}`;
      const counted = count(at, cell, draft.boards[size]?.[key(mounting)]);
      if (counted === undefined || counted === 0) continue;
      at.where.set(`/boards/${boards.length}`, cell);
      boards.push({ size, mounting, count: counted });
    }
  }
  return boards.length > 0 ? boards : undefined;
}
