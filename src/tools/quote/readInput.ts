import { readFile } from "node:fs/promises";
import { type Fault, shapeFaults } from "../../acts/fault.js";
import { estimateInput } from "../../acts/shapes/estimateInput.js";
import type { EstimateInput } from "../../estimating/input.js";

export type Reading =
  | { readonly is: "read"; readonly input: EstimateInput }
  | { readonly is: "misshapen"; readonly faults: readonly Fault[] }
  | { readonly is: "unreadable"; readonly why: string };

/** `file` is a path, or '-' for standard input, which is `typed`. */
export async function readInput(file: string, typed: () => Promise<string>): Promise<Reading> {
  const name = file === "-" ? "Standard input" : file;
  let written: string;
  try {
    written = file === "-" ? await typed() : await readFile(file, "utf8");
  } catch (error) {
    return { is: "unreadable", why: `${name} could not be read (${reason(error)}); check the name and the rights.` };
  }
  let value: unknown;
  try {
    value = JSON.parse(written.replace(/^\uFEFF/, ""));
  } catch (error) {
    return { is: "unreadable", why: `${name} is not JSON (${reason(error)}); see fixtures/demo for whole examples.` };
  }
  const parsed = estimateInput.safeParse(value);
  return parsed.success
    ? { is: "read", input: parsed.data }
    : { is: "misshapen", faults: shapeFaults(parsed.error.issues, value) };
}

export const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));
