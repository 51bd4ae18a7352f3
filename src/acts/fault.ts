/** zod's issues as named faults a person can act on. */
import type { z } from "zod";
import type { LogProblem, Problem } from "../estimating/problems.js";
import { plainOf, shift } from "../wording/decimal.js";
import { GIVE_EMAIL } from "../wording/email.js";
import { type Figures, money } from "../wording/figures.js";
import { problemText } from "../wording/problem.js";
import { type Saying, sayingOf, within } from "./field.js";
import type { ShapeFault } from "./refusals.js";

export interface Fault {
  /** JSON pointer (RFC 6901) into the body. */
  readonly pointer: string;
  readonly name: string;
  readonly detail: string;
}

/** The same of a query or a path. */
export type ParameterFault = Omit<Fault, "pointer"> & { readonly parameter: string };

/** The engine's problems as faults; `under` is where the engine's input stands in the body. */
export const engineFaults = (problems: readonly (Problem | LogProblem)[], under = ""): Fault[] =>
  problems.map((problem) => ({ pointer: under + problem.pointer, name: problem.name, detail: problemText(problem) }));

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

export const pointerTo = (path: Path): string =>
  path.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");

/** How amounts were written by whoever typed them; a program that sent minor units is answered in them. */
type Written = (saying: Saying) => Figures;

/** `value` is what was sent, `schema` what it should have been: a field that has a label is called by it. */
export const shapeFaults = (issues: readonly Issue[], value: unknown, schema?: z.ZodType, written?: Written): Fault[] =>
  issues.flatMap((issue) => faults(issue, [], value, schema, written));

function faults(issue: Issue, above: Path, value: unknown, schema?: z.ZodType, written?: Written): Fault[] {
  const path = [...above, ...issue.path];
  const saying = schema && sayingAt(schema, path);
  const where = saying?.label ?? readable(path);
  const amount = (figure: unknown): string | undefined => {
    if (!written || typeof figure !== "number") return undefined;
    if (saying?.share) return `${shift(plainOf(figure), 2)} %`;
    return saying?.kind === "money" && Number.isInteger(figure) ? money(figure, written(saying)) : undefined;
  };
  const given = amount(at(value, path)) ?? shown(at(value, path));
  const fault = (name: ShapeFault | "date unreadable", detail: string, to: Path = path): Fault[] => [
    { pointer: pointerTo(to), name, detail },
  ];

  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.flatMap((key) =>
        fault("key unknown", `${readable([...path, key])} is not a key of this shape; leave it out, or check its spelling.`, [
          ...path,
          key,
        ]),
      );
    case "invalid_type":
      if (at(value, path) === undefined)
        return fault("key missing", `${where} is missing; ${saying ? GIVE[saying.kind] : `give ${article(issue.expected)}`}.`);
      if (issue.expected === "int") return fault("number not whole", `${where} is ${given}; give a whole number.`);
      return fault("wrong type", `${where} is ${given}; give ${article(issue.expected)}.`);
    case "invalid_value":
      if (at(value, path) === undefined) return fault("key missing", `${where} is missing; give ${choices(issue.values)}.`);
      return fault("choice unknown", `${where} is ${asChoice(given)}; give ${choices(issue.values)}.`);
    case "invalid_union": {
      if (issue.errors.length === 0) {
        const options = "options" in issue && Array.isArray(issue.options) ? issue.options : [];
        if (at(value, path) === undefined) return fault("key missing", `${where} is missing; give ${choices(options)}.`);
        return fault("choice unknown", `${where} is ${asChoice(given)}; give ${choices(options)}.`);
      }
      const nearest = [...issue.errors].sort((a, b) => a.length - b.length)[0] ?? [];
      return nearest.flatMap((inner) => faults(inner, path, value, schema, written));
    }
    case "too_big":
      if (issue.origin === "string")
        return fault("text too long", `${where} has ${length(at(value, path))} characters; give at most ${issue.maximum}.`);
      return fault("number out of range", `${where} is ${given}; give at most ${amount(issue.maximum) ?? issue.maximum}.`);
    case "too_small":
      if (issue.origin === "string") return fault("text empty", `${where} is empty; write something.`);
      return fault("number out of range", `${where} is ${given}; give at least ${amount(issue.minimum) ?? issue.minimum}.`);
    case "invalid_format":
      if (saying?.kind === "day" || issue.format === "date")
        return fault("date unreadable", `${where} is ${given}; write a day as year, month, day, such as 2026-11-25.`);
      return fault("shape unknown", `${where} is ${given}, which fits no shape allowed here.`);
    case "custom":
      return fault(...custom(String(issue.params?.name), where, given));
    case "invalid_key":
      return fault("key unknown", `${where} is a key that cannot be used here; give a short name of one line.`);
    default:
      return fault("shape unknown", `${where} is ${given}, which fits no shape allowed here.`);
  }
}

export const NO_OWN_WORK =
  "Dangers are said of work in your own words, and there is none; say what the work is, or leave them out.";

function custom(name: string, where: string, given: string): [ShapeFault, string] {
  switch (name) {
    case "line broken":
      return [name, `${where} is ${given}, with a line break or control character in it; write it on one line.`];
    case "control character":
      return [name, `${where} holds a control character; take it out.`];
    case "e-mail unreadable":
      return [name, `${where} is ${given}; ${GIVE_EMAIL}.`];
    case "locale unreadable":
      return [name, `${where} is ${given}; give a language tag such as en-GB.`];
    case "time zone unreadable":
      return [name, `${where} is ${given}; give a time zone such as Europe/Prague.`];
    case "entry empty":
      return [name, "There is nothing to log; give minutes, a start and an end, or a part."];
    case "time given twice":
      return [name, "minutes stands beside startedAt or endedAt; give the minutes, or the two moments."];
    case "end missing":
      return [name, `${where} is missing; timed work has a start and an end, and a timer that runs is started as a timer.`];
    case "part given twice":
      return [name, "The part is named in two ways; give one of partKind, partType and ownPart."];
    case "work given twice":
      return [name, `${where} is ${given}, beside work of the list; give one of the two.`];
    case "own work missing":
      return [name, NO_OWN_WORK];
    case "price given twice":
      return [name, `${where} stands beside a price; give one of the two.`];
    case "work of the part missing":
      return [name, "item is missing; say which work item used the part."];
    case "rate of nothing":
      return [
        "number out of range",
        `${where} is ${given}, and every estimate would come to nothing; give what an hour at your bench costs.`,
      ];
    case "minutes of nothing":
      return ["number out of range", `${where} is 0; give what it took, or leave it empty where only a part was used.`];
    case "reason missing":
      return [name, `${where} is missing; say it for the record.`];
    default:
      return ["shape unknown", `${where} is ${given}, which is not allowed here.`];
  }
}

/** What to do about a field that is not there. */
const GIVE: Readonly<Record<Saying["kind"], string>> = {
  line: "write something",
  note: "write something",
  secret: "type it",
  lines: "write at least one line",
  whole: "give a whole number",
  decimal: "give a number",
  exact: "give a number",
  money: "give an amount",
  day: "give a day, such as 2026-11-25",
  tick: "say yes or no",
  choice: "choose one",
  several: "choose some",
};

/** What is said of the field that a path leads to, or of the list it is an entry of. */
function sayingAt(schema: z.ZodType, path: Path): Saying | undefined {
  let [saying, at]: [Saying | undefined, z.ZodType | undefined] = [undefined, schema];
  for (const step of path) {
    at = at && within(at, String(step));
    saying = (at && sayingOf(at)) ?? saying;
  }
  return saying;
}

const at = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (inner, step) =>
      typeof inner === "object" && inner !== null && Object.hasOwn(inner, step)
        ? (inner as Record<PropertyKey, unknown>)[step]
        : undefined,
    value,
  );

/** items[3].count */
const readable = (path: Path): string =>
  path.length === 0
    ? "The body"
    : path
        .map((step, index) => (typeof step === "number" ? `[${step}]` : index === 0 ? String(step) : `.${String(step)}`))
        .join("");

function shown(value: unknown): string {
  if (value === undefined) return "nothing";
  // Never the inside: it may be deep without end.
  if (typeof value === "object" && value !== null) return Array.isArray(value) ? "a list" : "an object";
  const text = typeof value === "string" ? value.slice(0, 60) : value;
  return JSON.stringify(text) + (typeof value === "string" && value.length > 60 ? "..." : "");
}

const length = (value: unknown): number => (typeof value === "string" ? value.length : 0);

const choices = (values: readonly unknown[]): string =>
  values.length === 1 ? quoted(values[0]) : `one of ${values.map(quoted).join(", ")}`;

/** Beside what could be chosen, and quoted as that is. */
const asChoice = (given: string): string => given.replace(/^"(.*)"/, "'$1'");
const quoted = (value: unknown): string => (typeof value === "string" ? `'${value}'` : String(value));

function article(expected: string): string {
  if (expected === "array") return "a list";
  if (expected === "object" || expected === "record") return "an object";
  if (expected === "boolean") return "true or false";
  if (expected === "int") return "a whole number";
  return expected === "string" ? "a text" : `a ${expected}`;
}
