import type { BoardSize, Mounting } from "../estimating/input.js";
import type { Line } from "../estimating/sheet.js";
import { counted } from "./list.js";

/** '3 medium boards behind another'. */
export const boardsName = (size: BoardSize, mounting: Mounting, count: number): string =>
  `${counted(count, `${size} board`)} ${mounting}`;

/** What a line is for, without its assembly unless the assembly is all there is to say. */
export function lineTitle(line: Line): string {
  switch (line.sort) {
    case "access":
      return `Open and refit ${opened(line)}`;
    case "labour rounding":
      return `Rounding to billed time${line.labourClass ? `, ${line.labourClass.name}` : ""}`;
    case "donor pull":
      return `Pull from a donor unit: ${line.part?.name ?? "part"}`;
    case "minimum charge":
      return "Up to the minimum charge";
    case "scarcity margin":
      return `Scarcity margin: ${line.part?.name ?? "part"}`;
    case "allowance":
      return ALLOWANCE[line.why?.rule as keyof typeof ALLOWANCE] ?? "Allowance";
    case "part":
      return line.part?.name ?? "Part";
    case "fee":
      return fee(line);
    case "replacement":
    case "cleaning":
    case "alignment":
    case "inspection":
    case "fault finding":
    case "test":
    case "soak":
    case "other": {
      const operation = line.operation?.name ?? "Work";
      return line.part ? `${operation}: ${line.part.name}` : operation;
    }
  }
}

const ALLOWANCE = {
  "labour allowance": "Allowance for work that takes longer",
  "sourcing allowance": "Allowance for parts that are hard to get",
  "if-found allowance": "Allowance for work that may prove necessary",
} as const;

function opened(line: Line): string {
  if (line.assembly) return line.assembly.name;
  const boards = line.from.find((source) => source.is === "boards");
  return boards ? boardsName(boards.size, boards.mounting, boards.count) : "the unit";
}

function fee({ id, amount, why }: Line): string {
  if (why?.rule === "storage days" || id.startsWith("fee:storage")) return "Storage";
  return why?.rule === "credited" || amount < 0 ? "Diagnosis fee credited" : "Diagnosis fee";
}
