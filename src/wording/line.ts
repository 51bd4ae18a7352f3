import type { BoardSize, Mounting } from "../estimating/input.js";
import type { Line } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { AllowanceRule } from "./english/lines.js";
import type { Spoken } from "./tongue.js";

/** '3 medium boards behind another'. */
export const boardsName = (size: BoardSize, mounting: Mounting, count: number, { words = english }: Spoken = {}): string =>
  words.lines.boards(size, mounting, count);

/** What a line is for, without its assembly unless the assembly is all there is to say. */
export function lineTitle(line: Line, { words = english }: Spoken = {}): string {
  const say = words.lines;
  switch (line.sort) {
    case "access":
      return say.openAndRefit(opened(line, words));
    case "labour rounding":
      return `${say.rounding}${line.labourClass ? `, ${line.labourClass.name}` : ""}`;
    case "donor pull":
      return say.donorPull(line.part?.name ?? say.aPart);
    case "minimum charge":
      return say.minimumCharge;
    case "scarcity margin":
      return say.scarcityMargin(line.part?.name ?? say.aPart);
    case "allowance":
      return say.allowances[line.why?.rule as AllowanceRule] ?? say.allowance;
    case "part":
      return line.part?.name ?? say.part;
    case "fee":
      return fee(line, words);
    case "replacement":
    case "cleaning":
    case "alignment":
    case "inspection":
    case "fault finding":
    case "test":
    case "soak":
    case "other": {
      const operation = line.operation?.name ?? say.work;
      return line.part ? `${operation}: ${line.part.name}` : operation;
    }
  }
}

function opened(line: Line, words: typeof english): string {
  if (line.assembly) return line.assembly.name;
  const boards = line.from.find((source) => source.is === "boards");
  return boards ? words.lines.boards(boards.size, boards.mounting, boards.count) : words.lines.theUnit;
}

function fee({ id, amount, why }: Line, { lines }: typeof english): string {
  if (why?.rule === "storage days" || id.startsWith("fee:storage")) return lines.storage;
  return why?.rule === "credited" || amount < 0 ? lines.diagnosisFeeCredited : lines.diagnosisFee;
}
