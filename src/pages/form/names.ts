/** What is typed as the name of something, read as its id; and what a form can name. */
import { foundByName, type Named } from "../../wording/named.js";
import type { FormContext } from "./context.js";
import { type AssemblyDraft, type Draft, WHOLE_UNIT } from "./draft.js";
import { idOf } from "./fields.js";
import type { Reading } from "./reading.js";

/** An id from a name (or an id) as typed. */
export function named(at: Reading, field: string, text: string | undefined, among: readonly Named[]): string | undefined {
  const wanted = text?.trim() ?? "";
  if (wanted === "") return undefined;
  const found = foundByName(wanted, among);
  if (!found) at.problems.push({ name: "name unknown", field, text: wanted, known: among.map(({ name }) => name) });
  return found?.id;
}

/** Several names, parted by semicolons. */
export const namedList = (at: Reading, field: string, text: string | undefined, among: readonly Named[]): readonly string[] =>
  (text ?? "")
    .split(/[;\n]/)
    .map((part) => named(at, field, part, among))
    .filter((id) => id !== undefined);

/** Everything a form refers to by name: assemblies of this unit, operations, parts. */
export interface AssemblyRow extends Named {
  /** Its part of a field name. */
  readonly key: string;
  readonly draft: AssemblyDraft;
}

/** The assemblies that say anything, in the order of the page. A row that was counted but not named is called by its place. */
export const assemblyRows = (draft: Draft): readonly AssemblyRow[] =>
  Object.entries(draft.assembly)
    .filter(([key, row]) => !isBlank(draft, key, row))
    .map(([key, row], index) => {
      const name = row.name?.trim() || `Assembly ${index + 1}`;
      return { key, id: idOf(key), name, draft: row, ...(row.was ? { was: row.was } : {}) };
    });

const PRESET = new Set(["was", "sort", "by", "size", "mounting"]);

function isBlank(draft: Draft, key: string, row: AssemblyDraft): boolean {
  const said = (texts: object | undefined, except: ReadonlySet<string> = new Set()) =>
    Object.entries(texts ?? {}).some(([name, text]) => !except.has(name) && text.trim() !== "");
  return (
    key === WHOLE_UNIT ||
    !(
      said(row, PRESET) ||
      said(draft.cells[key]) ||
      said(draft.fasteners[key]) ||
      said(draft.hazards[key]) ||
      said(draft.usual[key])
    )
  );
}

export const operationNames = ({ rateBook }: FormContext): readonly Named[] => rateBook.operations;

/** Operations of the rate book, then its services; the id says which. */
export const workNames = ({ rateBook: { operations, services = [] } }: FormContext): readonly Named[] => [
  ...operations,
  ...services.map(({ id, name }) => ({ id: `service:${id}`, name })),
];

/** Part kinds of the catalogue, then part types of the rate book; the id says which. */
export const partNames = ({ kinds, rateBook }: FormContext): readonly Named[] => [
  ...kinds.map(({ id, name }) => ({ id: `kind:${id}`, name })),
  ...rateBook.partTypes.map(({ id, name }) => ({ id: `type:${id}`, name })),
];

/** The same, without types that were retired. */
export const partsOffered = (context: FormContext): readonly Named[] => {
  const retired = new Set(
    context.rateBook.partTypes.flatMap(({ id, retiredOn }) => (retiredOn === undefined ? [] : [`type:${id}`])),
  );
  return partNames(context).filter(({ id }) => !retired.has(id));
};

export const typeNames = ({ rateBook }: FormContext): readonly Named[] => rateBook.partTypes;

export const partFrom = (id: string): { readonly kind: string } | { readonly type: string } =>
  id.startsWith("kind:") ? { kind: id.slice(5) } : { type: id.slice(5) };

export const partId = (part: { readonly kind: string } | { readonly type: string }): string =>
  "kind" in part ? `kind:${part.kind}` : `type:${part.type}`;
