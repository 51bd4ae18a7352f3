import type { PartResult, Sheet } from "../../estimating/sheet.js";
import { counted, listed } from "../../wording/list.js";
import { scarcityText } from "../../wording/reasons.js";
import type { Subject } from "../estimate/subject.js";
import type { Block, Row } from "../layout/block.js";
import { type Agreed, markOfPart } from "./agreed.js";

/** Parts to fetch from the shelf or to order. */
export function pickList(subject: Subject, agreed: Agreed): Block[] {
  const { sheet, tongue } = subject;
  if (sheet.parts.length === 0) return [];
  const rows = sheet.parts.map((part): Row => {
    const { name, needed, charged, scarcity, because, source, leadDays } = part;
    const hard = scarcity === "scarce" || scarcity === "donor only";
    return {
      ...markOfPart(agreed, part, subject),
      cells: [
        { text: name, box: "empty", ...(hard && { note: `${scarcity}: ${scarcityText(because, tongue)}` }) },
        { text: String(needed) },
        { text: String(charged) },
        { text: ownSource(part, sheet) ?? source ?? (because.is === "on the shelf" ? "shelf" : "to be found") },
        { text: leadDays === 0 ? "" : counted(leadDays, "day") },
      ],
    };
  });
  return [
    { is: "heading", text: "Parts to pick" },
    {
      is: "table",
      columns: [
        { title: "Part", width: "rest" },
        { title: "Needed", width: "fit", align: "right" },
        { title: "Charged", width: "fit", align: "right" },
        { title: "From", width: "fit" },
        { title: "Wait", width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}

/** Where the line that has this price of its own says that it is bought. */
function ownSource({ type, kind, cost, charged }: PartResult, { lines }: Sheet): string | undefined {
  const sources = lines.flatMap(({ part, why }) =>
    why?.rule === "price of this line" && part?.type === type && part.kind === kind && why.cost * charged === cost
      ? (why.source ?? [])
      : [],
  );
  return sources.length === 0 ? undefined : listed([...new Set(sources)], "or");
}

const READINGS = 8;
const NOTE_LINES = 8;

/** Room for readings, notes and who did the work. */
export function writing(): Block[] {
  const empty: Row = { cells: ["", "", "", ""].map((text) => ({ text })) };
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: "Readings" },
        {
          is: "table",
          columns: [
            { title: "Test point", width: "rest" },
            { title: "Should be", width: 90 },
            { title: "Before", width: 90 },
            { title: "After", width: 90 },
          ],
          rows: Array.from({ length: READINGS }, () => empty),
        },
      ],
    },
    {
      is: "together",
      blocks: [
        { is: "heading", text: "Notes, and faults found beyond the estimate" },
        { is: "ruled", lines: NOTE_LINES },
        { is: "blanks", labels: ["Work done by", "Safety test by", "Date"] },
      ],
    },
  ];
}
