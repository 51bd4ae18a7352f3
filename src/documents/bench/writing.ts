import type { Block, Row } from "../layout/block.js";

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
