/** All that the page of a teardown map shows while it is edited: the fields as typed, the map they make, and what is wrong with it. */
import { type Book, readBook, standardKey } from "../../estimating/book.js";
import type { Access, Assembly, TeardownMap } from "../../estimating/input.js";
import { accessTimes } from "../../estimating/labour/access.js";
import { LIMITS } from "../../estimating/problems.js";
import { fastenersText } from "../../wording/list.js";
import { duration } from "../../wording/time.js";
import type { FormContext } from "../form/context.js";
import { type Fields, given, key } from "../form/fields.js";
import { type FormProblem, formProblemText } from "../form/problemText.js";
import type { Read } from "../form/readForm.js";
import { note, reading } from "../form/reading.js";
import { type IntakeView, viewOf } from "../intake/view.js";

export interface ModelView extends IntakeView {
  readonly book: Book;
  readonly notes?: string;
  /** As far as it can be drawn: what is referred to and not there stands in it too. */
  readonly drawn: TeardownMap;
  readonly unknown: ReadonlySet<string>;
}

/** `sent`: the problems are shown beside their fields. */
export function modelViewOf(fields: Fields, context: FormContext, action: string, sent = false): ModelView {
  const view = viewOf(fields, context, { action, makers: [], models: [], owners: [], languages: [], saved: true }, sent);
  const at = reading(context);
  const notes = note(at, "model.notes", fields.get("model.notes"));
  const own = [...missing(view.read), ...at.problems].map((problem) => ({
    field: problem.field,
    text: formProblemText(problem, view.read.draft, context),
  }));
  const errors = new Map(view.errors);
  if (sent) for (const { field, text } of own) errors.set(field, text);
  return given({
    ...view,
    complaints: [...own, ...view.complaints],
    errors,
    notes,
    book: readBook(view.read.input),
    ...withUnknown(view.read),
  });
}

function missing({ draft, input }: Read): FormProblem[] {
  const said = { "unit.maker": draft.unit.maker, "unit.model": draft.unit.model };
  const blank = Object.entries(said).flatMap(([field, text]) => (text?.trim() ? [] : [field]));
  const [first = ""] = Object.keys(draft.assembly);
  return [...blank, ...(input.map ? [] : [`assembly.${first}.name`])].map((field) => ({ name: "missing", field }));
}

/** Names that were typed and are not on the map are drawn as nodes of their own. */
function withUnknown({ input, problems }: Read): Pick<ModelView, "drawn" | "unknown"> {
  const { assemblies = [], fitBefore } = input.map ?? {};
  // The problem says so; a drawing of a thousand would help nobody.
  if (assemblies.length > LIMITS.assemblies) return { drawn: { assemblies: [] }, unknown: new Set() };
  const added = new Map<string, Assembly>();
  const drawn = assemblies.map((assembly) => {
    const behind = problems.flatMap((problem) => {
      if (problem.name !== "name unknown" || problem.field !== `assembly.${key(assembly.id)}.behind`) return [];
      const id = `?${problem.text.toLowerCase()}`;
      added.set(id, { id, name: problem.text, sort: "other", access: { by: "fasteners", fasteners: [] } });
      return [id];
    });
    return behind.length === 0 ? assembly : { ...assembly, behind: [...(assembly.behind ?? []), ...behind] };
  });
  return { drawn: given({ assemblies: [...drawn, ...added.values()], fitBefore }), unknown: new Set(added.keys()) };
}

/** What holds an assembly and how long it takes, as far as the rate book can say. */
export function heldBy(access: Access): string {
  if (access.by === "fasteners") return fastenersText(access.fasteners.filter(({ count }) => count > 0)) || "nothing";
  if (access.by === "standard") return `by standard: ${access.size} board ${access.mounting}`;
  return "measured here";
}

/** Likely minutes off and on; undefined where the rate book has no figure. */
export function minutesText(access: Access, book: Book, locale: string): string | undefined {
  if (access.by === "standard" && !book.standards.has(standardKey(access))) return undefined;
  if (access.by === "fasteners" && access.fasteners.some(({ kind }) => !book.fasteners.has(kind))) return undefined;
  const { remove, refit } = accessTimes(access, book);
  return `${duration(remove.likely / 1000, locale)} off, ${duration(refit.likely / 1000, locale)} on`;
}
