/** What whoever is refused reads: every refusal that a test meets, of an act or of the API, is held to it. */
import type { Refusal } from "../../../src/acts/act.js";
import { AGREEMENT_FAULTS, ANSWERS, ENGINE_FAULTS, LOG_FAULTS, SHAPE_FAULTS } from "../../../src/acts/refusals.js";

/** The engine's may be of the whole. */
const ENGINES = { ...ENGINE_FAULTS, ...LOG_FAULTS };
const FAULTS = { ...ANSWERS, ...SHAPE_FAULTS, ...ENGINES, ...AGREEMENT_FAULTS };

export type Told = Pick<Refusal, "detail" | "headers" | "current"> & {
  readonly is: string;
  readonly errors?: readonly {
    readonly pointer?: string;
    readonly parameter?: string;
    readonly name: string;
    readonly detail: string;
  }[];
};

/** It may end with what somebody said, after a colon. */
const isSentence = (text: string): boolean =>
  /^\S/.test(text) && /[.?!]$|: [^:]+$/.test(text) && !/\b(undefined|NaN)\b(?!['"])|\[object /.test(text);

/** What is wrong with it; `fields`: of the act, or of the body. */
export function untold({ is, detail, errors = [], headers, current }: Told, fields?: readonly string[]): string[] {
  const version = (current as { readonly version?: unknown } | undefined)?.version;
  return [
    ...(Object.hasOwn(ANSWERS, is) ? [] : [`no answer is called '${is}'`]),
    ...(detail === undefined || detail === errors[0]?.detail || isSentence(detail)
      ? []
      : [`its detail is no sentence: '${detail}'`]),
    ...(headers?.etag === undefined || version === undefined || headers.etag === `"${version}"`
      ? []
      : [`its ETag ${headers.etag} is not of version ${version}`]),
    ...(is === "input refused" && errors.length === 0 && detail === undefined ? ["it says nothing of what is wrong"] : []),
    ...errors.flatMap(({ pointer, parameter, name, detail }) => [
      ...(Object.hasOwn(FAULTS, name) ? [] : [`no fault is called '${name}'`]),
      ...(isSentence(name === "key unknown" ? `Key ${detail}` : detail)
        ? []
        : [`the detail of '${name}' is no sentence: '${detail}'`]),
      ...(leads(name, pointer ?? `/${parameter ?? ""}`, parameter === undefined ? fields : undefined)
        ? []
        : [`'${pointer ?? parameter}' of '${name}' leads to no field`]),
    ]),
  ];
}

/** Whatever was sent may be called by any name. */
const leads = (name: string, pointer: string, fields: readonly string[] | undefined): boolean =>
  name === "key unknown" ||
  (pointer === ""
    ? OF_THE_WHOLE.includes(name) || Object.hasOwn(ENGINES, name)
    : /^(\/[^/]+)+$/.test(pointer) && (fields === undefined || [...fields, ...STORED].includes(pointer.split("/")[1]!)));

/** What an act finds wrong in what is on record, the draft it is on or the work log that a close-out rests on, or in a file sent beside it. */
const STORED = ["input", "log", "photo"];

/** Thrown, not expected: programs without a test go through here too. */
export function holdTo(lacks: readonly string[], where: string): void {
  if (lacks.length > 0) throw new Error(`${where}: ${lacks.join("; ")}`);
}

/** Of all that was sent. */
const OF_THE_WHOLE = ["nothing changed", "key missing", "wrong type", "picture unreadable", "shape unknown"];
