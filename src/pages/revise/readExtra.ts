/** One line of work found while the unit is open, from a form of seven fields. */
import type { Certainty, EstimateInput, Offer, PartKind, WorkItem } from "../../estimating/input.js";
import type { Problem } from "../../estimating/problems.js";
import { problemText } from "../../wording/problem.js";
import { CERTAINTIES, type FormContext, replacementIn } from "../form/context.js";
import { type Fields, given } from "../form/fields.js";
import { named, operationNames, partFrom, partNames } from "../form/names.js";
import { choice, count, LENGTHS, line, number, type Reading, reading } from "../form/reading.js";
import { errorsIn } from "./smallForm.js";

const EXTRA_FIELDS = ["reason", "part", "count", "work", "where", "certainty", "chance"] as const;

interface ReadExtra {
  /** The job's input with the catalogue entries that the new part needs. */
  readonly base: EstimateInput;
  /** Absent while something has to be put right. */
  readonly item?: WorkItem;
  readonly errors: ReadonlyMap<string, string>;
}

/** A part without a kind of work is replaced; work without a place is for the whole unit; no count is one. */
export function readExtra(fields: Fields, input: EstimateInput, context: FormContext): ReadExtra {
  const at = reading(context);
  const text = (field: (typeof EXTRA_FIELDS)[number]) => fields.get(field);
  const part = named(at, "part", text("part"), partNames(context));
  const typed = named(at, "work", text("work"), operationNames(context));
  const assembly = named(at, "where", text("where"), input.map?.assemblies ?? []);
  const counted = text("count")?.trim() ? count(at, "count", text("count")) : 1;
  const reason = line(at, "reason", text("reason"), LENGTHS.note);
  const certainty = readCertainty(at, fields);
  if (!reason) at.problems.push({ name: "missing", field: "reason" });
  if (!text("part")?.trim() && !text("work")?.trim()) at.problems.push({ name: "missing", field: "work" });
  const errors = errorsIn(at);
  const base = withCatalogue(input, context, part);
  const operation = typed ?? (part === undefined ? undefined : replacementIn(context.rateBook));
  if (errors.size > 0 || operation === undefined || counted === undefined || !certainty) return { base, errors };
  const item: WorkItem = given({
    id: freshId(input),
    assembly,
    operation,
    count: counted,
    part: part === undefined ? undefined : partFrom(part),
    certainty,
    reason,
  });
  return { base, item, errors };
}

function readCertainty(at: Reading, fields: Fields): Certainty | undefined {
  const is = choice(at, "certainty", fields.get("certainty"), CERTAINTIES) ?? "planned";
  if (is === "planned") return { is };
  if (is === "optional") return { is, chosen: false };
  if (!fields.get("chance")?.trim()) at.problems.push({ name: "missing", field: "chance" });
  const probability = number(at, "chance", fields.get("chance"), 10, -2);
  return probability === undefined ? undefined : { is, probability };
}

/** Its own id, whatever revision it comes into. */
function freshId({ items }: EstimateInput): string {
  const taken = new Set(items.map(({ id }) => id));
  for (let next = items.length + 1; ; next += 1) if (!taken.has(`extra${next}`)) return `extra${next}`;
}

function withCatalogue(input: EstimateInput, { kinds, offers }: FormContext, part: string | undefined): EstimateInput {
  const wanted = part?.startsWith("kind:") ? part.slice(5) : undefined;
  if (wanted === undefined || input.kinds?.some(({ id }) => id === wanted)) return input;
  const known = new Set(input.offers?.map(({ id }) => id));
  return {
    ...input,
    kinds: [...(input.kinds ?? []), ...kinds.filter(({ id }: PartKind) => id === wanted)],
    offers: [...(input.offers ?? []), ...offers.filter(({ id, kind }: Offer) => kind === wanted && !known.has(id))],
  };
}

const FIELD: readonly (readonly [pointer: RegExp, field: string])[] = [
  [/\/count$/, "count"],
  [/\/part/, "part"],
  [/\/assembly$/, "where"],
  [/\/operation$/, "work"],
  [/\/certainty/, "certainty"],
];

/** The engine's own complaints about the new line, beside its fields; about anything else of the job, under ''. */
export function engineErrors(problems: readonly Problem[], itemsBefore: number): Map<string, string> {
  const errors = new Map<string, string>();
  for (const problem of problems) {
    const own = problem.pointer.startsWith(`/items/${itemsBefore}`);
    const field = own ? (FIELD.find(([pattern]) => pattern.test(problem.pointer))?.[1] ?? "work") : "";
    if (!errors.has(field)) errors.set(field, problemText(problem));
  }
  return errors;
}
