import type { Line } from "../../estimating/sheet.js";
import { lineTitle, listed } from "../../wording/index.js";
import type { Subject } from "../estimate/subject.js";
import { oneLine } from "../type/shape.js";
import type { RiskShare } from "./jobRisk.js";

/** What a share of the risk is about, as the estimate names it. */
export function shareName(share: RiskShare, subject: Subject): string {
  return oneLine(share.name ?? known(share, subject) ?? share.id);
}

function known({ source, id }: RiskShare, { sheet, input }: Subject): string | undefined {
  switch (source) {
    case "condition":
      return input.rateBook.grades.find((grade) => grade.id === input.unit.grade)?.name;
    case "if found":
      return listed(sheet.ifFound.find((group) => group.id === id)?.names ?? []) || undefined;
    case "sourcing":
      return sheet.parts.find(({ kind, type }) => [kind ?? type, `part:${kind ?? type}`].includes(id))?.name;
    case "labour": {
      const line = sheet.lines.find((each) => each.id === id || each.id === `labour:${id}` || each.id === `access:${id}`);
      return line && withAssembly(line);
    }
  }
}

const withAssembly = (line: Line): string =>
  line.assembly && line.sort !== "access" ? `${line.assembly.name}: ${lineTitle(line)}` : lineTitle(line);
