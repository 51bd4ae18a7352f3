import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { cautionAlone, DEFER } from "../../wording/caution.js";
import { warningText } from "../../wording/reasons.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { wrapped } from "./columns.js";
import { riskLines } from "./riskText.js";
import { choicesText, type Section, termsText, totalsText } from "./totalsText.js";
import { accessText, fastenerText, feesText, labourText, partsText } from "./workText.js";

const WIDE = 110;

/** The whole sheet as a person reads it in a terminal. Sections with nothing in them are left out. */
export function sheetText(sheet: Sheet, { unit, paperwork, rateBook }: EstimateInput): string {
  const tongue: Tongue = { locale: paperwork?.locale ?? "en-GB", currency: sheet.currency };
  const serial = unit.serial === undefined ? "" : `, serial ${unit.serial}`;
  const number = paperwork?.number === undefined ? "" : ` ${paperwork.number}, revision ${paperwork.revision ?? 1}`;
  const { name, version } = sheet.rateBook;
  const sections: readonly Section[] = [
    [
      `${unit.maker} ${unit.model}${serial}`,
      [
        `Estimate${number}, as of ${day(sheet.asOf, tongue.locale)}, rate book '${name}' version ${version}, in ${sheet.currency}`,
      ],
    ],
    ["Access", accessText(sheet, tongue)],
    ["Fasteners", fastenerText(sheet)],
    ["Labour", labourText(sheet, tongue)],
    ["Parts", partsText(sheet, tongue)],
    ["Fees", feesText(sheet, tongue)],
    ["Totals", totalsText(sheet, tongue)],
    ["Terms", termsText(sheet, tongue)],
    ...choicesText(sheet, rateBook, tongue),
    ["Warnings", sheet.warnings.flatMap((warning) => bullet(warningText(warning, tongue)))],
    ["Cautions", cautions(sheet)],
    ["For the shop only: what the job may cost you", sheet.risk ? riskLines(sheet.risk, sheet, tongue) : []],
  ];
  return sections
    .filter(([, lines]) => lines.length > 0)
    .map(([title, lines]) => [title, ...lines].join("\n"))
    .join("\n\n");
}

const cautions = ({ hazards }: Sheet): string[] =>
  hazards.length === 0 ? [] : [...hazards.flatMap(({ hazard }) => bullet(cautionAlone(hazard))), DEFER];

const bullet = (text: string): string[] =>
  wrapped(text, WIDE, "  ").map((line, at) => (at === 0 ? `- ${line.trimStart()}` : line));
