import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import { partStateText } from "../../wording/account.js";
import { duration } from "../../wording/time.js";
import type { Subject } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";

/** Hours and rate by kind of labour, and what was really worked. */
export function hours({ tongue, cash, words }: Subject, { basis, hours: billed, worked }: FinalAccount): Block[] {
  const say = words.account.paper;
  const attended = duration(worked.attended, tongue.locale);
  const unattended = worked.unattended === 0 ? undefined : duration(worked.unattended, tongue.locale);
  if (billed.length === 0) return [];
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: say.hours },
        {
          is: "table",
          columns: [
            { title: basis === "fixed price" ? say.labourWithin : say.labour, width: "rest" },
            { title: say.time, width: "fit", align: "right" },
            { title: say.ratePerHour, width: "fit", align: "right" },
            { title: say.amount, width: "fit", align: "right" },
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
        { is: "paragraph", small: true, text: say.worked(attended, unattended) },
      ],
    },
  ];
}

/** What was fitted, and whether it was new. */
export function partsFitted({ tongue, words }: Subject, { parts }: FinalAccount): Block[] {
  if (parts.length === 0) return [];
  const say = words.account.paper;
  return [
    { is: "heading", text: say.partsFitted },
    {
      is: "table",
      columns: [
        { title: say.part, width: "rest" },
        { title: say.state, width: "fit" },
        { title: say.pieces, width: "fit", align: "right" },
      ],
      rows: parts.map(({ part, state, count }) => ({
        cells: [{ text: part.name }, { text: partStateText(state, tongue) }, { text: String(count) }],
      })),
    },
  ];
}
