/** A new row, empty but for what is usual. */
import type { Fields } from "../fields.js";
import type { Acted } from "./act.js";

export function addAssembly(fields: Fields): Acted {
  const row = freeKey(fields, "assembly", "a");
  return {
    fields: withFields(fields, [
      [`assembly.${row}.name`, ""],
      [`assembly.${row}.sort`, "board"],
    ]),
    focus: `assembly.${row}.name`,
    say: "A row for one more assembly was added.",
  };
}

/** `operation`: its name, when the button says which work. */
export function addLine(fields: Fields, operation: string): Acted {
  const row = freeKey(fields, "line", "l");
  return {
    fields: withFields(fields, [
      [`line.${row}.operation`, operation],
      [`line.${row}.count`, "1"],
      [`line.${row}.certainty`, "planned"],
    ]),
    focus: `line.${row}.${operation === "" ? "operation" : "count"}`,
    say: operation === "" ? "A line was added." : `A line was added: ${operation}.`,
  };
}

export function addFit(fields: Fields): Acted {
  const row = freeKey(fields, "fit", "f");
  return { fields: withFields(fields, [[`fit.${row}.first`, ""]]), focus: `fit.${row}.first`, say: "A line was added." };
}

export function addWorth(fields: Fields): Acted {
  const row = freeKey(fields, "worth", "w");
  return {
    fields: withFields(fields, [[`worth.${row}.assembly`, ""]]),
    focus: `worth.${row}.assembly`,
    say: "A line was added.",
  };
}

export const withFields = (fields: Fields, pairs: Iterable<readonly [string, string]>): Map<string, string> =>
  new Map([...fields, ...pairs]);

/** The first of a1, a2, ... that is not in use, nor kept to be put back. */
export function freeKey(fields: Fields, section: string, letter: string): string {
  const names = [...fields.keys(), fields.get("meta.undo") ?? ""].join("\n");
  for (let number = 1; ; number += 1) {
    if (!names.includes(`${section}.${letter}${number}.`)) return `${letter}${number}`;
  }
}
