/** What a line of a sheet is called, what it stands under, and what is noted below it. */
import type { BoardSize, EstimateInput, Minor, Mounting, OfferState, TaxRules, WorkItem } from "../estimating/input.js";
import { unknownDelivery } from "../estimating/parts/unknownDelivery.js";
import { ownPartOf, resolve } from "../estimating/resolve.js";
import { belowCost } from "../estimating/sheet/belowCost.js";
import { declinedWithTax } from "../estimating/sheet/terms.js";
import type { Adjustment, IfDeclined, Line, Sheet } from "../estimating/sheet.js";
import type { Words } from "./english/index.js";
import { type AllowanceRule, englishOfSheet as english, type SpokenOfSheet } from "./english/sheet.js";
import { money, percent } from "./figures.js";
import { listed } from "./list.js";
import { whyText } from "./reasons.js";
import type { Tongue } from "./tongue.js";

/** '3 medium boards behind another'. */
export const boardsName = (size: BoardSize, mounting: Mounting, count: number, { words = english }: SpokenOfSheet = {}): string =>
  words.lines.boards(size, mounting, count);

/** What a line is for, without its assembly unless the assembly is all there is to say. */
export function lineTitle(line: Line, { words = english }: SpokenOfSheet = {}): string {
  const texts = words.lines;
  switch (line.sort) {
    case "access":
      return texts.openAndRefit(opened(line, words));
    case "labour rounding":
      return `${texts.rounding}${line.labourClass ? `, ${line.labourClass.name}` : ""}`;
    case "donor pull":
      return texts.donorPull(line.part?.name ?? texts.aPart);
    case "minimum charge":
      return texts.minimumCharge;
    case "scarcity margin":
      return texts.scarcityMargin(line.part?.name ?? texts.aPart);
    case "allowance":
      return texts.allowances[line.why?.rule as AllowanceRule] ?? texts.allowance;
    case "part":
      return line.part?.name ?? texts.part;
    case "fee":
      return fee(line, words);
    case "replacement":
    case "cleaning":
    case "alignment":
    case "inspection":
    case "fault finding":
    case "test":
    case "soak":
    case "other": {
      const operation = line.operation?.name ?? texts.work;
      return line.part ? `${operation}: ${line.part.name}` : operation;
    }
  }
}

function opened(line: Line, words: typeof english): string {
  if (line.assembly) return line.assembly.name;
  const boards = line.from.find((source) => source.is === "boards");
  return boards ? words.lines.boards(boards.size, boards.mounting, boards.count) : words.lines.theUnit;
}

function fee({ id, amount, why }: Line, { lines }: typeof english): string {
  if (why?.rule === "storage days" || id.startsWith("fee:storage")) return lines.storage;
  return why?.rule === "credited" || amount < 0 ? lines.diagnosisFeeCredited : lines.diagnosisFee;
}

/** Diagnosis and opening as who pays them reads them: '£54.00 (£45.00 before tax)', or one figure where tax makes no difference. */
export function declinedTexts(owed: IfDeclined, rules: TaxRules, tongue: Tongue): { diagnosis: string; access: string } {
  const paid = declinedWithTax(owed, rules);
  const { beforeTax } = (tongue.words ?? english).lines;
  const text = (of: "diagnosis" | "access") =>
    paid[of] === owed[of] ? money(paid[of], tongue) : `${money(paid[of], tongue)} (${beforeTax(money(owed[of], tongue))})`;
  return { diagnosis: text("diagnosis"), access: text("access") };
}

/** Warns the shop where agreeing costs the owner less than declining, as a fee that is wholly credited can make it. */
export function belowDecliningText({ totals, ifDeclined, detail }: Sheet, tongue: Tongue): string | undefined {
  const counted = detail.work !== "none" || detail.access !== "none";
  if (!counted || totals.total >= ifDeclined.amount) return undefined;
  const [total, owed] = [money(totals.total, tongue), money(ifDeclined.amount, tongue)];
  return `Agreeing costs the owner ${total}, less than the ${owed} owed if declined. Check the diagnosis fee and what is taken off the price.`;
}

/** Warns the shop of parts and freight that earn less than nothing once the tax is taken out of their price. */
export function belowCostText(sheet: Sheet, tongue: Tongue): string | undefined {
  const parts = belowCost(sheet).map(({ name, freight, price, withoutTax, cost }) => {
    const [paid, left, spent] = [price, withoutTax, cost].map((each) => money(each, tongue));
    return `${freight ? `freight from ${name}` : name} costs the shop ${spent}, and of ${paid} that the owner pays for it ${left} is left without tax`;
  });
  if (parts.length === 0) return undefined;
  return `Sold for less than it costs: ${parts.join("; ")}. Give what a part costs without tax that you get back, and a mark-up that covers the tax in your prices.`;
}

/** What an owner reads beside the day where parts are yet to be got and nobody knows when they come. */
export function notCountedText(input: EstimateInput, sheet: Sheet, words: Words, fitted?: readonly string[]): string | undefined {
  const parts = unknownDelivery(input, sheet, fitted);
  return parts.length === 0 ? undefined : words.paper.inShort.notCounted(parts);
}

/** The same for the shop, with what to do. */
export function unknownDeliveryText(input: EstimateInput, sheet: Sheet, fitted?: readonly string[]): string | undefined {
  const parts = unknownDelivery(input, sheet, fitted);
  if (parts.length === 0) return undefined;
  return `The days to complete count no delivery of ${listed(parts)}, and the owner reads that. Say it with an offer of the part, or as 'Days to arrive' on its line: 0 where it is at hand.`;
}

/** What a line stands under. */
export function lineHeading({ sort, assembly }: Line, { words = english }: SpokenOfSheet = {}): string {
  const { headings } = words.lines;
  switch (sort) {
    case "access":
      return headings.access;
    case "part":
      return headings.parts;
    case "scarcity margin":
    case "donor pull":
      return headings.hardToGet;
    case "labour rounding":
    case "minimum charge":
      return headings.billedTime;
    case "allowance":
      return headings.allowances;
    case "fee":
      return headings.fees;
    default:
      return assembly?.name ?? headings.wholeUnit;
  }
}

/** Each heading once, where it first stands, with the sum of its lines. */
export function headingSums(
  lines: readonly Line[],
  spoken: SpokenOfSheet = {},
): { readonly heading: string; readonly amount: Minor }[] {
  const sums = new Map<string, Minor>();
  for (const line of lines) {
    const heading = lineHeading(line, spoken);
    sums.set(heading, (sums.get(heading) ?? 0) + line.amount);
  }
  return [...sums].map(([heading, amount]) => ({ heading, amount }));
}

/** What the owner should read under a line: why an assembly comes off, why the work is done, why a charge is made. How the minutes came about stays with the shop. */
export function lineNote(line: Line, input: EstimateInput, tongue: Tongue): string | undefined {
  if (line.sort === "part") {
    const state = stateOf(line, resolve(input).offers ?? [], tongue);
    // What the shop pays stays with the shop; that the price is another, and why, does not.
    const why = line.why?.rule === "price of this line" ? line.why.reason : line.why && whyText(line.why, tongue);
    return [why, state].filter(Boolean).join(" ") || undefined;
  }
  if (line.why && !["worked", "leads", "each"].includes(line.why.rule)) return whyText(line.why, tongue);
  const item = line.from.find((source) => source.is === "item");
  return item && input.items.find(({ id }) => id === item.id)?.reason;
}

function stateOf(
  line: Line,
  offers: readonly { readonly id: string; readonly state: OfferState }[],
  { words = english }: SpokenOfSheet,
): string | undefined {
  const states = line.from.flatMap((source) =>
    source.is === "offer" ? (offers.find(({ id }) => id === source.id)?.state ?? []) : [],
  );
  return [...new Set(states)].flatMap((state) => words.lines.states[state] ?? []).join("; ") || undefined;
}

/** 'Voice board: Replace, electrolytic capacitor × 12', by the names of the input itself. */
export function workTitle(item: WorkItem, { map, rateBook, kinds }: EstimateInput): string {
  const { assembly, count } = item;
  const part = ownPartOf(item) ?? item.part;
  const place = assembly === undefined ? "" : `${named(map?.assemblies, assembly)}: `;
  const fitted = part === undefined ? "" : `, ${"name" in part ? part.name : fittedName(part, rateBook, kinds)}`;
  return `${place}${workName(item, rateBook)}${fitted}${count > 1 ? ` × ${count}` : ""}`;
}

/** What is done, by the operation, the service, or the shop's own words. */
export const workName = (
  { operation = "", own, service }: WorkItem,
  { operations, services }: EstimateInput["rateBook"],
): string => own?.name ?? (service === undefined ? named(operations, operation) : named(services, service));

const fittedName = (
  part: NonNullable<WorkItem["part"]>,
  { partTypes }: EstimateInput["rateBook"],
  kinds: EstimateInput["kinds"],
): string => {
  if ("own" in part) return part.own.name;
  return "kind" in part ? named(kinds, part.kind) : named(partTypes, part.type);
};

const named = (list: readonly { readonly id: string; readonly name: string }[] | undefined, id: string): string =>
  list?.find((entry) => entry.id === id)?.name ?? id;

/** What an allowance or charge is for, such as 'Discount 10% of £200.00: returning owner'. */
export function adjustmentTitle({ sort, percent: share, base, reason }: Adjustment, tongue: Tongue): string {
  const { names, of } = (tongue.words ?? english).adjustments;
  const rate = share === undefined ? "" : ` ${percent(share, tongue.locale)}`;
  const what = share === undefined || base === undefined ? "" : ` ${of(money(base, tongue))}`;
  return `${names[sort]}${rate}${what}${reason ? `: ${reason}` : ""}`;
}
