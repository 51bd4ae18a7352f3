/**
 * The one reader of the intake form, shared by the server and the browser: text to an input, with everything that could not be
 * read named beside its field. What cannot be read is left out of the input; the rest can still be priced.
 */
import type { EstimateInput } from "../../estimating/input.js";
import type { FormContext } from "./context.js";
import { type AssemblyDraft, type Draft, draftFrom } from "./draft.js";
import type { Fields } from "./fields.js";
import { given } from "./given.js";
import { assemblyRows } from "./names.js";
import type { FormProblem } from "./problem.js";
import { readBoards } from "./readBoards.js";
import { readItems } from "./readItems.js";
import { line, reading } from "./reading.js";
import { readMap } from "./readMap.js";
import { readTerms } from "./readTerms.js";
import { readOwner, readUnit } from "./readUnit.js";

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
  const input: EstimateInput = given({
    schema: 1 as const,
    asOf: line(at, "meta.asOf", draft.meta.asOf) ?? context.today,
    currency: context.currency,
    unit: readUnit(at, draft),
    map: readMap(at, draft),
    boards: readBoards(at, draft),
    alreadyOpen: those(draft, ({ open }) => open === "already"),
    openAtNoCharge: those(draft, ({ open }) => open === "free"),
    toOpen: those(draft, ({ wanted }) => Boolean(wanted)),
    items,
    kinds: context.kinds.filter(({ id }) => used.has(id)),
    offers: context.offers.filter(({ kind }) => used.has(kind)),
    rateBook: context.rateBook,
    policy: readTerms(at, draft),
    paperwork: given({ ...context.paperwork, owner }),
  });
  return { fields, draft, input, problems: once(at.problems), fieldAt: (pointer) => nearest(at.where, pointer) };
}

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
