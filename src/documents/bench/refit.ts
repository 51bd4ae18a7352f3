import { listed } from "../../wording/list.js";
import { duration } from "../../wording/time.js";
import type { Subject } from "../estimate/subject.js";
import type { Block, Row } from "../layout/block.js";

/** What goes back, in order, and what must be back before it. */
export function refit({ sheet, input, tongue }: Subject): Block[] {
  if (sheet.access.refit.length === 0) return [];
  const rows = sheet.access.refit.map(({ id, name, minutes, after }, index): Row => {
    const why = (input.map?.fitBefore ?? []).flatMap((pair) => (pair.then === id && pair.why ? [pair.why] : []));
    return {
      cells: [
        { text: `${index + 1}. ${name}`, box: "empty" },
        { text: listed(after), ...(why.length > 0 && { note: why.join("; ") }) },
        { text: duration(minutes, tongue.locale) },
      ],
    };
  });
  return [
    { is: "heading", text: "Refit, in this order" },
    {
      is: "table",
      columns: [
        { title: "Assembly", width: "rest" },
        { title: "Only after", width: "rest" },
        { title: "Time", width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}
