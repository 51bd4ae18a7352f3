import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import { duration, partStateText } from "../../wording/index.js";
import type { Subject } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";

/** Hours and rate by kind of labour, and what was really worked. */
export function hours({ tongue, cash }: Subject, { basis, hours: billed, worked }: FinalAccount): Block[] {
  const attended = duration(worked.attended, tongue.locale);
  const beside = worked.unattended === 0 ? "" : `, and ${duration(worked.unattended, tongue.locale)} unattended`;
  if (billed.length === 0) return [];
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: "Hours and rate" },
        {
          is: "table",
          columns: [
            { title: basis === "fixed price" ? "Labour within the price" : "Labour", width: "rest" },
            { title: "Time", width: "fit", align: "right" },
            { title: "Rate per hour", width: "fit", align: "right" },
            { title: "Amount", width: "fit", align: "right" },
          ],
          rows: billed.map(({ labourClass, minutes, ratePerHour, amount }) => ({
            cells: [
              { text: labourClass.name },
              { text: duration(minutes, tongue.locale) },
              { text: cash(ratePerHour) },
              { text: cash(amount) },
            ],
          })),
        },
        { is: "paragraph", small: true, text: `Each line is rounded by itself. Really worked: ${attended} attended${beside}.` },
      ],
    },
  ];
}

/** What was fitted, and whether it was new. */
export function partsFitted({ parts }: FinalAccount): Block[] {
  if (parts.length === 0) return [];
  return [
    { is: "heading", text: "Parts fitted" },
    {
      is: "table",
      columns: [
        { title: "Part", width: "rest" },
        { title: "State", width: "fit" },
        { title: "Pieces", width: "fit", align: "right" },
      ],
      rows: parts.map(({ part, state, count }) => ({
        cells: [{ text: part.name }, { text: partStateText(state) }, { text: String(count) }],
      })),
    },
  ];
}
