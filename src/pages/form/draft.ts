/**
 * The intake form as a person filled it in: every leaf is text as typed, valid or not, so nothing typed is ever lost.
 * `draftFrom` reads it from fields; what a name outside this shape says is ignored.
 */
import type { Fields } from "./fields.js";
import { UNIT_TEXT_NAMES } from "./unitTexts.js";

const SECTIONS = {
  owner: ["id", "name", "address", "phone", "email", "language"],
  unit: ["maker", "model", ...UNIT_TEXT_NAMES, "value", "grade", "dataHeld", "storedData", "power"],
  terms: [
    "discount",
    "discountBy",
    "discountReason",
    "discountOf",
    "rush",
    "storageDays",
    "diagnosis",
    "diagnosisLimit",
    "prepaid",
    "queue",
    "ceiling",
    "profile",
    "pricing",
    "confidence",
    "margin",
    "leastMargin",
  ],
  meta: [
    "asOf",
    "modelId",
    "modelSeen",
    "keepModel",
    "drawn",
    "fresh",
    "version",
    "estimate",
    "token",
    "undo",
    "undone",
    "boards",
  ],
} as const;

/** Keyed by whatever the shop has: hazards, columns, part types. */
const MARKS = ["caution", "show", "scarcity"] as const;

const ROWS = {
  assembly: [
    "name",
    "was",
    "sort",
    "by",
    "size",
    "mounting",
    "removeLow",
    "removeLikely",
    "removeHigh",
    "refitLow",
    "refitLikely",
    "refitHigh",
    "behind",
    "joined",
    "notes",
    "open",
    "wanted",
  ],
  line: [
    "operation",
    "assembly",
    "part",
    "count",
    "certainty",
    "probability",
    "chosen",
    "refused",
    "group",
    "reason",
    "low",
    "likely",
    "high",
    "originalType",
    "originalValue",
    "originalVolts",
    "price",
    "labour",
    "cost",
    "why",
    "brought",
    "like",
    "source",
    "state",
    "days",
    "pack",
    "minPacks",
    "good",
    "keep",
    "ownWork",
    "ownPart",
    "ownHazards",
    "ownTax",
    "workingVolts",
    "tolerance",
    "audio",
  ],
  worth: ["assembly", "operation", "part", "count", "reason"],
  fit: ["first", "then", "why"],
} as const;

/** Row and column: fasteners and hazards by assembly, the grid, the plain board counts. */
const TABLES = ["fasteners", "hazards", "cells", "cellIds", "usual", "boards"] as const;

type Section<Name extends string> = Readonly<Partial<Record<Name, string>>>;
type Table = Readonly<Record<string, Readonly<Record<string, string>>>>;

export type Draft = { readonly [S in keyof typeof SECTIONS]: Section<(typeof SECTIONS)[S][number]> } & {
  readonly [M in (typeof MARKS)[number]]: Readonly<Record<string, string>>;
} & { readonly [R in keyof typeof ROWS]: Readonly<Record<string, Section<(typeof ROWS)[R][number]>>> } & {
  readonly [T in (typeof TABLES)[number]]: Table;
};

export type AssemblyDraft = Draft["assembly"][string];
export type LineDraft = Draft["line"][string];

/** The row of the grid that stands for the unit as a whole. */
export const WHOLE_UNIT = "*";

type Branch = { [name: string]: string | Branch };
const branch = (): Branch => Object.create(null);

export function draftFrom(fields: Fields): Draft {
  const draft = branch();
  for (const head of [...Object.keys(SECTIONS), ...MARKS, ...Object.keys(ROWS), ...TABLES]) draft[head] = branch();
  for (const [name, text] of fields) {
    const parts = name.split(".");
    if (!belongs(parts)) continue;
    let at = draft;
    for (const part of parts.slice(0, -1)) {
      at[part] ??= branch();
      at = at[part] as Branch;
    }
    at[parts.at(-1)!] = text;
  }
  return draft as unknown as Draft;
}

function belongs([head = "", second = "", third, ...rest]: readonly string[]): boolean {
  if (rest.length > 0) return false;
  if (third === undefined) {
    const leaves: readonly string[] | undefined = Object.hasOwn(SECTIONS, head)
      ? SECTIONS[head as keyof typeof SECTIONS]
      : undefined;
    return leaves ? leaves.includes(second) : (MARKS as readonly string[]).includes(head);
  }
  const columns: readonly string[] | undefined = Object.hasOwn(ROWS, head) ? ROWS[head as keyof typeof ROWS] : undefined;
  return columns ? columns.includes(third) : (TABLES as readonly string[]).includes(head);
}
