/** Access and labour: minutes from fasteners, leads and time standards, then money. The last column is the line's amount. */

import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { operationIdOf } from "../../../src/estimating/resolve.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import type { Cell, Table } from "./flatOds.js";
import { column, lookUp, named, sumWhere, total } from "./formulas.js";
import { decimals, ENDS } from "./rateTables.js";

const CONDITION = `${named("condition percent")}/100`;
const ACCESS_RATE = lookUp(named("access class"), "Classes", 2);

const ends = (name: string) => ENDS.map((end) => `${name}, ${end}`);
/** PERT, Malcolm and others 1959. */
const mean = (low: string, likely: string, high: string) => `ROUND((${low}+4*${likely}+${high})/6;3)`;

export const charged = (input: EstimateInput): WorkItem[] =>
  input.items.filter(({ certainty }) => certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen));

/** `sheet` says only what comes off; which parts are pulled from donors is in the parts table. */
export function workTables(input: EstimateInput, sheet: Sheet): Table[] {
  const digits = decimals(input);
  const opened = sheet.access.removal.map(({ id }) => id);
  const pay = (minutes: string, rate: string): Cell => ({ formula: `ROUND(${minutes}*${rate}/60;${digits})` });
  return [
    { name: "Fixings", heads: ["assembly", "kind", "count", ...ends("remove"), ...ends("refit")], rows: fixings(input, opened) },
    {
      name: "Access",
      heads: ["line", "assembly", ...ends("remove"), ...ends("refit"), "minutes", "amount"],
      rows: opened.map((id, index) => {
        const at = (letter: string) => `[.${letter}${index + 2}]`;
        const minutes = (letter: string): Cell => ({
          formula: `ROUND(${sumWhere("Fixings", "A", at("B"), letter)}*${CONDITION};3)`,
        });
        return [
          `access:${id}`,
          id,
          ...["D", "E", "F", "G", "H", "I"].map(minutes),
          { formula: mean(`(${at("C")}+${at("F")})`, `(${at("D")}+${at("G")})`, `(${at("E")}+${at("H")})`) },
          pay(at("I"), ACCESS_RATE),
        ];
      }),
    },
    { name: "Labour", heads: LABOUR, rows: labour(input, pay) },
    {
      name: "Pulls",
      heads: ["line", "offer", "pieces", "minutes", "amount"],
      rows: (input.offers ?? [])
        .filter(({ pullMinutes }) => pullMinutes)
        .map(({ id }, index) => {
          const [offer, pieces, minutes] = ["B", "C", "D"].map((letter) => `[.${letter}${index + 2}]`) as [
            string,
            string,
            string,
          ];
          return [
            `pull:${id}`,
            id,
            { formula: sumWhere("Parts", "D", offer, "C") },
            { formula: `ROUND(${pieces}*${lookUp(offer, "Offers", 8)};3)` },
            pay(minutes, ACCESS_RATE),
          ];
        }),
    },
    {
      name: "Billing",
      heads: ["line", "class", "minutes", "lacking", "amount"],
      rows: input.rateBook.labourClasses
        .filter(({ attended }) => attended)
        .map(({ id }, index) => {
          const [own, minutes, lacking] = ["B", "C", "D"].map((letter) => `[.${letter}${index + 2}]`) as [string, string, string];
          const access = `${total("Access", "I")}+${total("Pulls", "D")}`;
          return [
            `rounding:${id}`,
            id,
            { formula: `ROUND(${sumWhere("Labour", "J", own, "R")}+IF(${own}=${named("access class")};${access};0);3)` },
            { formula: `IF(${named("step")}=0;0;ROUND(CEILING(${minutes};${named("step")})-${minutes};3))` },
            pay(lacking, lookUp(own, "Classes", 2)),
          ];
        }),
    },
    {
      name: "Least",
      heads: ["line", "amount"],
      rows: [
        [
          "minimum",
          {
            formula: `MAX(0;${named("least charge")}-${total("Access", "J")}-${total("Labour", "S")}-${total("Pulls", "E")}-${total("Billing", "E")})`,
          },
        ],
      ],
    },
  ];
}

function fixings(input: EstimateInput, opened: readonly string[]): Cell[][] {
  const rows: Cell[][] = [];
  const timed = (assembly: string, kind: string, count: number) => {
    const row = rows.length + 2;
    const minutes = (nth: number): Cell => ({ formula: `[.C${row}]*${lookUp(`[.B${row}]`, "Fasteners", nth)}` });
    rows.push([assembly, kind, count, ...[2, 3, 4, 5, 6, 7].map(minutes)]);
  };
  for (const { id, access } of (input.map?.assemblies ?? []).filter((assembly) => opened.includes(assembly.id))) {
    if (access.by === "measured") {
      const { remove, refit } = access;
      rows.push([id, "measured", 1, ...ENDS.map((end) => remove[end]), ...ENDS.map((end) => refit[end])]);
    } else if (access.by === "standard") timed(id, `${access.size} ${access.mounting}`, 1);
    else for (const { kind, count } of access.fasteners) timed(id, kind, count);
  }
  return rows;
}

const LABOUR = [
  ...["line", "assembly", "operation", "count", "part type", "leads of the kind", ...ends("own minutes"), "class", "set-ups"],
  ...[...ends("each"), ...ends("all"), "minutes", "amount", "kind or type"],
];

/** In the order of the item ids: of the items that share a set-up the first bears it. */
function labour(input: EstimateInput, pay: (minutes: string, rate: string) => Cell): Cell[][] {
  const kinds = new Map((input.kinds ?? []).map((kind) => [kind.id, kind]));
  const items = [...charged(input)].sort((a, b) => (a.id < b.id ? -1 : 1));
  return items.map((item, index) => {
    const row = index + 2;
    const at = (letter: string) => `[.${letter}${row}]`;
    const above = (letter: string) => `[.${letter}$2:.${letter}${row}]`;
    const kind = item.part && "kind" in item.part ? kinds.get(item.part.kind)! : undefined;
    const type = item.part && "type" in item.part ? item.part.type : (kind?.type ?? "");
    const leads = `IF(${at("F")}="";${lookUp(at("E"), "Types", 2)};${at("F")})`;
    const each = ENDS.map((_, end): Cell => {
      const own = at("GHI"[end]!);
      const byLead = `${leads}*${total("Leads", "BCD"[end]!)}`;
      const part = `IF(${at("E")}="";0;IF(${lookUp(at("E"), "Types", 2)}="";${lookUp(at("E"), "Types", 3 + end)};${byLead}))`;
      const standard = `${lookUp(at("C"), "Operations", 6 + end)}+${lookUp(at("C"), "Operations", 9)}*${part}`;
      return { formula: `IF(${own}="";${standard};${own})` };
    });
    const all = ENDS.map((_, end): Cell => {
      const bare = `${at("K")}*${lookUp(at("C"), "Operations", 3 + end)}+${at("D")}*${at("LMN"[end]!)}`;
      return { formula: `ROUND((${bare})*IF(${lookUp(at("J"), "Classes", 3)}=1;${CONDITION};1);3)` };
    });
    return [
      `labour:${item.id}`,
      item.assembly ?? "the unit",
      operationIdOf(item),
      item.count,
      type,
      kind?.leads ?? "",
      ...ENDS.map((end) => item.minutes?.[end] ?? ""),
      { formula: lookUp(at("C"), "Operations", 2) },
      { formula: `IF(COUNTIFS(${above("B")};${at("B")};${above("C")};${at("C")})=1;1;0)` },
      ...each,
      ...all,
      { formula: mean(at("O"), at("P"), at("Q")) },
      pay(at("R"), lookUp(at("J"), "Classes", 2)),
      kind?.id ?? type,
    ];
  });
}

export const labourTotal = `(${total("Access", "J")}+${total("Labour", "S")}+${total("Pulls", "E")}+${total("Billing", "E")}+${total("Least", "B")})`;
export const neededOf = (kind: string) => `SUMIF(${column("Labour", "T")};${kind};${column("Labour", "D")})`;
