import { parseArgs } from "node:util";

export const HELP = `Examples
  npm run quote -- fixtures/demo/tape-echo.json
  npm run quote -- fixtures/demo/tape-echo.json --pdf estimate.pdf --bench bench.pdf
  npm run --silent quote -- fixtures/demo/tape-echo.json --json > sheet.json
  npm run --silent quote -- - < input.json
  npm run quote -- fixtures/demo/tape-echo.json --lines lines.csv --lines-out lines-again.csv

Prices the estimate input in FILE ('-': standard input) and prints the sheet as a table.

  --pdf OUT.pdf     also writes the estimate for the owner
  --bench OUT.pdf   also writes the bench sheet
  --lines IN.csv    first takes in lines of work: a row with the id of a line of FILE says it anew,
                    another adds one
  --lines-out OUT.csv   also writes every line of the estimate, as --lines reads them
  --json            prints the outcome as JSON instead: the sheet, or the problems
  -h, --help        this text

Exit code: 0 done; 1 the command was not understood; 2 the input has problems, each named on
standard error; 3 a file could not be read or written.`;

export type Options =
  | { readonly is: "help" }
  | { readonly is: "not understood"; readonly why: string }
  | ({ readonly is: "quote"; readonly file: string; readonly json: boolean } & {
      readonly [K in "pdf" | "bench" | "lines" | "lines-out"]?: string;
    });

export function readOptions(words: readonly string[]): Options {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        pdf: { type: "string" },
        bench: { type: "string" },
        lines: { type: "string" },
        "lines-out": { type: "string" },
        json: { type: "boolean" },
        help: { type: "boolean", short: "h" },
      },
    });
    if (values.help) return { is: "help" };
    const [file, ...more] = positionals;
    if (file === undefined) return { is: "not understood", why: "Name the file to price, such as fixtures/demo/tape-echo.json." };
    if (more.length > 0) return { is: "not understood", why: `One file at a time: leave out ${more.join(", ")}.` };
    const { json = false, help: _, ...files } = values;
    return { is: "quote", file, json, ...files };
  } catch (error) {
    return { is: "not understood", why: error instanceof Error ? error.message : String(error) };
  }
}
