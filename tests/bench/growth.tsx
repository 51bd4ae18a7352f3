/** What one estimate takes as it grows from one line to a thousand: the price, with its risk, the paper of every line, the sheet as a page. */
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { SheetView } from "../../src/pages/sheet/sheetView.js";
import { base, ofSize } from "./demoJob.js";
import { perCall } from "./perCall.js";

export const LINES = [1, 10, 100, 1000] as const;

interface Grown {
  readonly name: string;
  /** Processor time at each number of lines, ms. */
  readonly cpu: readonly number[];
}

export async function growth(): Promise<Grown[]> {
  const sizes = LINES.map(worksOf);
  const grown: Grown[] = [];
  for (const name of Object.keys(sizes[0]!)) {
    const cpu: number[] = [];
    for (const works of sizes) cpu.push((await perCall(works[name]!)).cpu);
    grown.push({ name, cpu });
  }
  return grown;
}

function worksOf(lines: number): Record<string, () => unknown> {
  const planned = ofSize(lines);
  const input: EstimateInput = {
    ...planned,
    policy: { ...base.policy, pricing: { is: "fixed price", confidencePercent: 80 } },
    paperwork: { ...base.paperwork, detail: "every line" },
  };
  const outcome = estimate(input, { risk: true });
  if (!outcome.ok) throw new Error("The grown estimate does not price.");
  const { sheet } = outcome;
  const tongue = { locale: "en-GB", currency: input.currency };
  return {
    price: () => estimate(planned),
    "price and risk": () => estimate(input, { risk: true }),
    paper: () => estimatePdf(sheet, input),
    page: () => String(<SheetView sheet={sheet} input={input} tongue={tongue} open />),
  };
}
