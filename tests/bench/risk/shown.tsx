/** What page and papers of an estimate cost beside its pricing: milliseconds of processor time, the first call and a later one, and megabytes the process grew by. */
import { benchSheetPdf } from "../../../src/documents/benchSheetPdf.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { SheetView } from "../../../src/pages/sheet/sheetView.js";

export interface Shown {
  readonly what: string;
  readonly first: number;
  readonly later: number;
  readonly grown: number;
  readonly bytes: number;
}

const TONGUE = { locale: "en-GB", currency: "EUR" };

export async function shown(input: EstimateInput): Promise<readonly Shown[]> {
  const outcome = estimate(input, { risk: true });
  if (!outcome.ok) throw new Error("Only what is accepted is shown.");
  const { sheet } = outcome;
  const works: Readonly<Record<string, () => unknown>> = {
    page: () => String(<SheetView sheet={sheet} input={input} tongue={TONGUE as never} open />),
    estimate: async () => (await estimatePdf(sheet, input)).bytes,
    "bench sheet": async () => (await benchSheetPdf(sheet, input)).bytes,
  };
  const told: Shown[] = [];
  for (const [what, work] of Object.entries(works)) {
    const before = process.resourceUsage().maxRSS;
    const times: number[] = [];
    let bytes = 0;
    for (let time = 0; time < 2; time += 1) {
      const from = process.cpuUsage();
      bytes = ((await work()) as string | Uint8Array).length;
      const { user, system } = process.cpuUsage(from);
      times.push((user + system) / 1000);
    }
    told.push({ what, first: times[0]!, later: times[1]!, grown: (process.resourceUsage().maxRSS - before) / 1024, bytes });
  }
  return told;
}
