/** One estimate on the command line. The documents are loaded only when a PDF is asked for. */
import { readFile, writeFile } from "node:fs/promises";
import { estimate } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet, Warning } from "../../estimating/sheet.js";
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
  const lined = await withLines(reading.input, options.lines);
  if (!lined.ok) {
    for (const why of lined.why) complain(why);
    return lined.code;
  }
  const { input } = lined;
  const outcome = estimate(input, { risk: true });
  if (options.json) say(JSON.stringify(outcome));
  if (!outcome.ok) {
    for (const problem of outcome.problems) complain(`${problemText(problem)} (${problem.pointer})`);
    return PROBLEMS;
  }
  if (!options.json) say(sheetText(outcome.sheet, input));
  return write(options, outcome.sheet, input, complain);
}

type Lined =
  | { readonly ok: true; readonly input: EstimateInput }
  | { readonly ok: false; readonly code: number; readonly why: readonly string[] };

/** The input with the lines of a CSV file in it, all of them or none. */
async function withLines(input: EstimateInput, file: string | undefined): Promise<Lined> {
  if (file === undefined) return { ok: true, input };
  const { LINES, linesRead } = await import("../../acts/importLines.js");
  const { faultsTold, isSound } = await import("../../acts/importTable.js");
  const { mapColumns } = await import("../../acts/tableRows.js");
  const { fileRead } = await import("../../http/dataIn/table.js");
  let text: string;
  try {
    text = await readFile(file, "utf8");
  } catch (error) {
    return { ok: false, code: NO_FILE, why: [`${file} could not be read (${reason(error)}); check the name and the rights.`] };
  }
  const read = fileRead({ text });
  if (!read.ok) return { ok: false, code: PROBLEMS, why: read.why.map((why) => `${file}: ${why}`) };
  const mapping = mapColumns(LINES, read.table, undefined, {}, ".");
  const { kinds = [], offers = [], exchange = [] } = input;
  const done = linesRead(read.table, mapping, input, { kinds, offers, exchange });
  return isSound(done)
    ? { ok: true, input: done.input }
    : { ok: false, code: PROBLEMS, why: faultsTold(done.rows).map((why) => `${file}: ${why}`) };
}

interface Paper {
  readonly what: string;
  readonly file: string | undefined;
  readonly print: () => Promise<
    (sheet: Sheet, input: EstimateInput) => Promise<{ readonly bytes: Uint8Array; readonly warnings: readonly Warning[] }>
  >;
}

/** Tells on standard error what was written, so that --json stays JSON. */
async function write(
  options: Options & { is: "quote" },
  sheet: Sheet,
  input: EstimateInput,
  complain: Terminal["complain"],
): Promise<number> {
  const tongue = { locale: input.paperwork?.locale ?? "en-GB", currency: sheet.currency };
  const wanted: readonly Paper[] = [
    { what: "Estimate", file: options.pdf, print: async () => (await import("../../documents/estimatePdf.js")).estimatePdf },
    {
      what: "Bench sheet",
      file: options.bench,
      print: async () => (await import("../../documents/benchSheetPdf.js")).benchSheetPdf,
    },
    {
      ...{ what: "Lines", file: options["lines-out"] },
      print: async () => {
        const { linesCsv } = await import("../../http/dataOut/lines.js");
        return async () => ({ bytes: new TextEncoder().encode(linesCsv(input)), warnings: [] });
      },
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
