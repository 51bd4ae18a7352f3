import { withLeftIn } from "../../estimating/sheet/leftIn.js";
import type { OpenedStep } from "../../estimating/sheet.js";
import { boardsName } from "../../wording/line.js";
import { fastenersText, listed } from "../../wording/list.js";
import { reckoned, spread, whyText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import type { Subject } from "../estimate/subject.js";
import type { Block, Row } from "../layout/block.js";
import { type Agreed, isLeftIn, markOfAssembly } from "./agreed.js";

/** What comes off, in order, with its fasteners, why, and how long it should take. */
export function removal(subject: Subject, agreed: Agreed): Block[] {
  const { sheet, tongue } = subject;
  const { boards, alreadyOpen } = sheet.access;
  const { removal: steps } = withLeftIn(sheet.access, isLeftIn(agreed));
  const rows = [
    ...steps.map((step, index) => asRow(step, index, subject, agreed)),
    ...boards.map(
      ({ size, mounting, count, minutes }): Row => ({
        cells: [
          { text: boardsName(size, mounting, count), note: "by standard, refit included", box: "empty" },
          { text: "" },
          { text: duration(reckoned(minutes, sheet), tongue.locale) },
        ],
      }),
    ),
  ];
  if (rows.length === 0 && alreadyOpen.length === 0) return [];
  return [
    { is: "heading", text: "Take off, in this order" },
    ...(rows.length === 0
      ? []
      : [
          {
            is: "table",
            columns: [
              { title: "Assembly", width: "rest" },
              { title: "Fasteners", width: "rest" },
              { title: "Time", width: "fit", align: "right" },
            ],
            rows,
          } as const,
        ]),
    ...(alreadyOpen.length === 0
      ? []
      : [{ is: "paragraph", small: true, text: `Open already: ${listed(names(subject))}.` } as const]),
    {
      is: "paragraph",
      small: true,
      text: `Opening and refitting together: ${spread(sheet.access.minutes, tongue.locale)}. Mark unkeyed connectors and photograph every loom before you pull it.`,
    },
  ];
}

function asRow(step: OpenedStep, index: number, { tongue, input, sheet }: Subject, agreed: Agreed): Row {
  const { id, name, fasteners, remove, why, hazards } = step;
  const notes = input.map?.assemblies.find((assembly) => assembly.id === id)?.notes;
  const reasons = [
    ...(hazards.length > 0 ? [`Caution: ${listed(hazards)}.`] : []),
    ...(notes ? [notes] : []),
    ...why.filter(({ rule }) => rule !== "worked").map((each) => whyText(each, tongue)),
  ];
  return {
    ...markOfAssembly(agreed, id),
    cells: [
      { text: `${index + 1}. ${name}`, box: "empty", ...(reasons.length > 0 && { note: reasons.join(" ") }) },
      { text: fastenersText(fasteners) },
      { text: duration(reckoned(remove, sheet), tongue.locale) },
    ],
  };
}

function names({ sheet, input }: Subject): string[] {
  const known = new Map(input.map?.assemblies.map(({ id, name }) => [id, name]));
  return sheet.access.alreadyOpen.map((id) => known.get(id) ?? id);
}

/** What goes back, in order, and what must be back before it. */
export function refit({ sheet, input, tongue }: Subject, agreed: Agreed): Block[] {
  const steps = withLeftIn(sheet.access, isLeftIn(agreed)).refit;
  if (steps.length === 0) return [];
  const rows = steps.map(({ id, name, minutes, after }, index): Row => {
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
