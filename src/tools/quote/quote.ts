/** One estimate on the command line. The documents are loaded only when a PDF is asked for. */
import { writeFile } from "node:fs/promises";
import { estimate } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { problemText } from "../../wording/problem.js";
import { warningText } from "../../wording/reasons.js";
import { HELP, type Options, readOptions } from "./options.js";
import { readInput, reason } from "./readInput.js";
import { sheetText } from "./sheetText.js";

const DONE = 0;
const NOT_UNDERSTOOD = 1;
const PROBLEMS = 2;
const NO_FILE = 3;

export interface Terminal {
  readonly say: (text: string) => void;
  /** On standard error. */
  readonly complain: (text: string) => void;
  /** All of standard input. */
  readonly typed: () => Promise<string>;
}

/** Answers the exit code. */
export async function quote(words: readonly string[], terminal: Terminal): Promise<number> {
  const { say, complain } = terminal;
  const options = readOptions(words);
  if (options.is === "help") {
    say(HELP);
    return DONE;
  }
  if (options.is === "not understood") {
    complain(`${options.why}\n\n${HELP}`);
    return NOT_UNDERSTOOD;
  }
  const reading = await readInput(options.file, terminal.typed);
  if (reading.is === "unreadable") {
    complain(reading.why);
    return NO_FILE;
  }
  if (reading.is === "misshapen") {
    if (options.json) say(JSON.stringify({ ok: false, problems: reading.faults }));
    for (const { pointer, detail } of reading.faults) complain(`${detail} (${pointer || "/"})`);
    return PROBLEMS;
  }
  const outcome = estimate(reading.input, { risk: true });
  if (options.json) say(JSON.stringify(outcome));
  if (!outcome.ok) {
    for (const problem of outcome.problems) complain(`${problemText(problem)} (${problem.pointer})`);
    return PROBLEMS;
  }
  if (!options.json) say(sheetText(outcome.sheet, reading.input));
  return write(options, outcome.sheet, reading.input, complain);
}

/** Tells on standard error what was written, so that --json stays JSON. */
async function write(
  options: Options & { is: "quote" },
  sheet: Sheet,
  input: EstimateInput,
  complain: Terminal["complain"],
): Promise<number> {
  const tongue = { locale: input.paperwork?.locale ?? "en-GB", currency: sheet.currency };
  const wanted = [
    { what: "Estimate", file: options.pdf, print: async () => (await import("../../documents/estimatePdf.js")).estimatePdf },
    {
      what: "Bench sheet",
      file: options.bench,
      print: async () => (await import("../../documents/benchSheetPdf.js")).benchSheetPdf,
    },
  ];
  for (const { what, file, print } of wanted) {
    if (file === undefined) continue;
    const { bytes, warnings } = await (await print())(sheet, input);
    for (const warning of warnings) complain(`${what}: ${warningText(warning, tongue)}`);
    try {
      await writeFile(file, bytes);
    } catch (error) {
      complain(`${file} could not be written (${reason(error)}); check the folder and the rights.`);
      return NO_FILE;
    }
    complain(`${what} written: ${file} (${bytes.length} bytes)`);
  }
  return DONE;
}
