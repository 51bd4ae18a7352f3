import type { Line } from "../../estimating/sheet.js";
import { ONLY_SAVED, SAVE_FIRST, saveFirstText } from "../../wording/caution.js";
import { lineTitle } from "../../wording/line.js";
import { listed } from "../../wording/list.js";
import { warningText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import type { Subject } from "../estimate/subject.js";
import type { Block, Column, Row } from "../layout/block.js";
import { type Agreed, markOfItems, markOfLine, whyDone } from "./agreed.js";

const WHOLE = "The unit as a whole";
/** After everything is back in place. */
const AFTER_REFIT: readonly Line["sort"][] = ["test", "soak"];
const NOT_WORK: readonly Line["sort"][] = [
  "access",
  "part",
  "scarcity margin",
  "allowance",
  "labour rounding",
  "minimum charge",
  "fee",
];

const COLUMNS: readonly Column[] = [
  { title: "Work", width: "rest" },
  { title: "Count", width: "fit", align: "right" },
  { title: "Time", width: "fit", align: "right" },
  { title: "Really took", width: 58, align: "right" },
];

/** Work behind a service stands in its place: the service itself is a price. */
const toDo = ({ sheet: { lines, behind = [] } }: Subject): readonly Line[] =>
  behind.length === 0 ? lines : [...lines.filter(({ why }) => !(why?.rule === "fixed price" && why.service)), ...behind];

const savesMemory = ({ sheet: { memory } }: Subject, line: Line): boolean => {
  const item = line.from.find((source) => source.is === "item");
  return item !== undefined && (memory?.saved.includes(item.id) ?? false);
};

/** Before anything comes off. Where nobody planned it, it is to be done all the same. */
export function memoryFirst(subject: Subject, agreed: Agreed): Block[] {
  const { memory } = subject.sheet;
  if (!memory) return [];
  const rows = grouped(
    toDo(subject).filter((line) => savesMemory(subject, line)),
    subject,
    agreed,
  ).filter(({ kind }) => kind !== "group");
  return [
    { is: "heading", text: SAVE_FIRST },
    { is: "paragraph", text: saveFirstText(subject.input.unit) },
    {
      is: "table",
      columns: COLUMNS,
      rows:
        rows.length > 0
          ? rows
          : [{ cells: [{ text: "Memory saved, or known to be empty", box: "empty" }, { text: "" }, { text: "" }, { text: "" }] }],
    },
  ];
}

/** What is to be done on each assembly; tests and soak come after refitting. */
export function work(subject: Subject, agreed: Agreed): Block[] {
  const lines = toDo(subject).filter(
    (line) => !NOT_WORK.includes(line.sort) && !AFTER_REFIT.includes(line.sort) && !savesMemory(subject, line),
  );
  const rows = grouped(lines, subject, agreed);
  const watch = subject.sheet.warnings
    .filter(({ is }) => WATCHED.includes(is))
    .map((warning): Block => ({ is: "paragraph", text: warningText(warning, subject.tongue) }));
  return [
    ...(rows.length === 0 ? [] : [{ is: "heading", text: "Work" } as const, { is: "table", columns: COLUMNS, rows } as const]),
    ...(watch.length === 0 ? [] : [{ is: "heading", text: "Look twice at these parts" } as const, ...watch]),
  ];
}

const WATCHED: readonly string[] = [
  "lower voltage",
  "derating",
  "polarised",
  "not audio grade",
  "value off",
  "value unreadable",
  "not enough offered",
  "old offer",
];

/** Agreed in advance; done, and charged, only when it proves necessary. */
export function workIfFound({ sheet, tongue }: Subject, agreed: Agreed): Block[] {
  if (sheet.ifFound.length === 0) return [];
  const keepsMemory = (items: readonly string[]) => items.some((id) => sheet.memory?.cells.includes(id));
  const rows = sheet.ifFound.map(
    ({ items, names, reason, minutes }): Row => ({
      ...markOfItems(agreed, items),
      cells: [
        {
          text: listed(names),
          box: "empty",
          ...whyDone(agreed, items[0], [keepsMemory(items) ? ONLY_SAVED : "", reason ?? ""].filter(Boolean).join(" ")),
        },
        { text: "" },
        { text: duration(minutes, tongue.locale) },
        { text: "" },
      ],
    }),
  );
  return [
    { is: "heading", text: "Only if found necessary" },
    { is: "table", columns: COLUMNS, rows },
  ];
}

export function testAndSoak(subject: Subject, agreed: Agreed): Block[] {
  const lines = toDo(subject).filter(({ sort }) => AFTER_REFIT.includes(sort));
  const rows = grouped(lines, subject, agreed);
  return rows.length === 0
    ? []
    : [
        { is: "heading", text: "Test and soak" },
        { is: "table", columns: COLUMNS, rows },
      ];
}

function grouped(lines: readonly Line[], { sheet, input, tongue }: Subject, agreed: Agreed): Row[] {
  const reasons = new Map(input.items.map(({ id, reason }) => [id, reason]));
  const hazards = new Map(sheet.access.removal.map(({ id, hazards: list }) => [id, list]));
  const byAssembly = new Map<string | undefined, Line[]>();
  for (const line of lines) byAssembly.set(line.assembly?.id, [...(byAssembly.get(line.assembly?.id) ?? []), line]);
  return [...byAssembly].flatMap(([id, group]): Row[] => {
    const dangers = (id && hazards.get(id)) || [];
    return [
      {
        kind: "group",
        cells: [{ text: group[0]!.assembly?.name ?? WHOLE, ...(dangers.length > 0 && { note: `Caution: ${listed(dangers)}.` }) }],
      },
      ...group.map((line): Row => {
        const item = line.from.find((source) => source.is === "item");
        const first = item && sheet.memory?.cells.includes(item.id) ? ONLY_SAVED : "";
        const reason = [first, (item && reasons.get(item.id)) ?? ""].filter(Boolean).join(" ");
        return {
          ...markOfLine(agreed, line),
          cells: [
            { text: lineTitle(line), box: "empty", ...whyDone(agreed, item?.id, reason) },
            { text: line.count === undefined ? "" : String(line.count) },
            { text: line.minutes === undefined ? "" : duration(line.minutes, tongue.locale) },
            { text: "" },
          ],
        };
      }),
    ];
  });
}
