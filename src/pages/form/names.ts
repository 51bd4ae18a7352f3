/** Everything a form refers to by name: assemblies of this unit, operations, parts. */
import type { FormContext } from "./context.js";
import { type AssemblyDraft, type Draft, WHOLE_UNIT } from "./draft.js";
import { idOf } from "./fields.js";
import type { Named } from "./named.js";

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

/** Part kinds of the catalogue, then part types of the rate book; the id says which. */
export const partNames = ({ kinds, rateBook }: FormContext): readonly Named[] => [
  ...kinds.map(({ id, name }) => ({ id: `kind:${id}`, name })),
  ...rateBook.partTypes.map(({ id, name }) => ({ id: `type:${id}`, name })),
];

export const typeNames = ({ rateBook }: FormContext): readonly Named[] => rateBook.partTypes;

export const partFrom = (id: string): { readonly kind: string } | { readonly type: string } =>
  id.startsWith("kind:") ? { kind: id.slice(5) } : { type: id.slice(5) };

export const partId = (part: { readonly kind: string } | { readonly type: string }): string =>
  "kind" in part ? `kind:${part.kind}` : `type:${part.type}`;
