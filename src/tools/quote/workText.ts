/** The sheet's lines: access in the order of removal, then labour, parts and fees. */
import type { Line, Sheet } from "../../estimating/sheet.js";
import { money, unitPrice } from "../../wording/figures.js";
import { lineTitle } from "../../wording/line.js";
import { counted, fastenersText, listed } from "../../wording/list.js";
import { detailText, reckoned, spread, whyText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { columns, wrapped } from "./columns.js";

const WIDE = 110;

export function accessText(sheet: Sheet, tongue: Tongue): string[] {
  const { access, detail, lines } = sheet;
  const { locale } = tongue;
  const amounts = new Map(
    lines.filter(({ sort }) => sort === "access").map((line) => [line.assembly?.id, money(line.amount, tongue)]),
  );
  const steps = access.removal.map((step, at) => [
    String(at + 1),
    step.name,
    duration(reckoned(step.remove, sheet), locale),
    duration(reckoned(step.refit, sheet), locale),
    amounts.get(step.id) ?? "open already",
    step.why.map((why) => whyText(why, tongue)).join(" "),
  ]);
  const boards = lines
    .filter(({ sort, assembly }) => sort === "access" && !assembly)
    .map((line) => [
      lineTitle(line),
      duration(line.minutes ?? 0, locale),
      money(line.amount, tongue),
      line.why ? whyText(line.why, tongue) : "",
    ]);
  const head = ["", "Comes off", "off", "back on", "", "Why"];
  return [
    ...wrapped(`Access is reckoned ${detailText(detail.access)}.`, WIDE),
    ...(steps.length > 0 ? columns([head, ...steps], [">", "<", ">", ">", ">", "<"]) : []),
    ...columns(boards, ["<", ">", ">", "<"]),
    ...(access.refit.length > 0 ? wrapped(`Back on in this order: ${listed(access.refit.map(({ name }) => name))}.`, WIDE) : []),
    ...(access.alreadyOpen.length > 0 ? [`Open already: ${listed(access.alreadyOpen)}.`] : []),
    `Off and back on together: ${spread(access.minutes, locale)}.`,
  ];
}

export function fastenerText({ access }: Sheet): string[] {
  const rows = access.removal.filter(({ fasteners }) => fasteners.length > 0);
  return columns(
    rows.map(({ name, fasteners }) => [name, fastenersText(fasteners)]),
    ["<", "<"],
  );
}

export function labourText({ lines, time, detail }: Sheet, tongue: Tongue): string[] {
  const { attended, unattended } = time.charged ?? time;
  const { locale } = tongue;
  const rows = lines
    .filter(({ taxClass, sort }) => taxClass === "labour" && sort !== "access")
    .map((line) => [
      line.assembly?.name ?? "Whole unit",
      lineTitle(line),
      line.count === undefined ? "" : String(line.count),
      line.minutes === undefined ? "" : duration(line.minutes, locale),
      money(line.amount, tongue),
      line.why ? whyText(line.why, tongue) : "",
    ]);
  return [
    `Work is counted ${detailText(detail.work)}.`,
    ...columns([["Where", "What", "count", "time", "", "Why"], ...rows], ["<", "<", ">", ">", ">", "<"]),
    `At the bench ${duration(attended, locale)}, nobody attending ${duration(unattended, locale)}, billed ${duration(time.billed, locale)} in all.`,
  ];
}

export function partsText(sheet: Sheet, tongue: Tongue): string[] {
  const wanted = sheet.lines.filter(({ taxClass }) => taxClass === "parts");
  if (wanted.length === 0) return ["None."];
  const title = (line: Line) => (line.sort === "part" ? lineTitle(line) : `  ${lineTitle(line)}`);
  return columns(
    [
      ["Part", "count", "each", "", "Why"],
      ...wanted.map((line) => [
        title(line),
        line.count === undefined ? "" : String(line.count),
        line.unitPriceE4 === undefined ? "" : unitPrice(line.unitPriceE4, tongue),
        money(line.amount, tongue),
        line.why ? whyText(line.why, tongue) : "",
      ]),
    ],
    ["<", ">", ">", ">", "<"],
  );
}

export const feesText = ({ lines }: Sheet, tongue: Tongue): string[] =>
  columns(
    lines
      .filter(({ taxClass }) => taxClass === "fees")
      .map((line) => [lineTitle(line), money(line.amount, tongue), line.why ? whyText(line.why, tongue) : ""]),
    ["<", ">", "<"],
  );

export const daysText = ({ days }: Sheet): string =>
  `${counted(days.total, "day")}: ${days.queue} in the queue, ${days.lead} for parts, ${days.bench} at the bench`;
