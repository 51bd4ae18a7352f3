/** Ours beside LibreOffice Calc: the same estimate priced and printed, which must come to the same totals, to the cent. */
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { estimate } from "../../../src/estimating/estimate.js";
import { perCall, type Taken } from "../perCall.js";
import { inOffice } from "./office.js";
import { cameTo, pricedWithRisk, sixtyWorks, TOTALS, totalsOf, workbookFile } from "./workbook.js";

interface BesideOffice {
  readonly ours: Readonly<Record<"all" | "price" | "price and risk" | "paper", Taken>>;
  readonly office: Readonly<Record<string, Taken>>;
  readonly said: string;
}

/** A sentence: why it was not measured. */
export async function besideOffice(): Promise<BesideOffice | string> {
  const input = sixtyWorks();
  const sheet = pricedWithRisk(input);
  const office = await inOffice(workbookFile(input, sheet), TOTALS);
  if (!office) return "there is no soffice here (Debian package libreoffice-calc-nogui)";
  const ours = {
    all: await perCall(() => estimatePdf(pricedWithRisk(input), input)),
    price: await perCall(() => estimate(input)),
    "price and risk": await perCall(() => pricedWithRisk(input)),
    paper: await perCall(() => estimatePdf(sheet, input)),
  };
  const fresh = { "a new office: open, work out, print": office.fresh };
  const { resident } = office;
  if (typeof resident === "string") return { ours, office: fresh, said: `A resident office was left out: ${resident}.` };
  const [own, theirs] = [cameTo(sheet.totals), totalsOf(resident.totals, input)];
  if (TOTALS.some((name) => own[name] !== theirs[name]))
    throw new Error(`The workbook comes to ${JSON.stringify(theirs)}, the estimate to ${JSON.stringify(own)}.`);
  return {
    ours,
    office: {
      ...fresh,
      "a resident one: open, work out, print, close": resident.anew,
      "a resident one, kept open: work out, print": resident.again,
      "a resident one, kept open: work out": resident.calculated,
    },
    said: `Both come to the same ${TOTALS.length} totals, to the cent.`,
  };
}
