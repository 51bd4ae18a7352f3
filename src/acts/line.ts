/** A line of an estimate as one row of fields, for a form and for a table; what it may name, and what is wrong with it. */
import { z } from "zod";
import type { EstimateInput, PartKind } from "../estimating/input.js";
import { CERTAINTIES, HAZARDS, OFFER_STATES } from "../estimating/lists.js";
import { LIMITS, type Problem } from "../estimating/problems.js";
import type { Figures } from "../wording/figures.js";
import { foundByName, type Named, notListedText, unknownNameText } from "../wording/named.js";
import { problemIn } from "../wording/problem.js";
import type { Fault } from "./fault.js";
import { choice, cost, decimal, line, maybe, money, named, note, sayingOf, tick, whole } from "./field.js";
import { newId } from "./record.js";

export const lineFields = z.strictObject({
  part: maybe(named("Part to replace", { hint: "Empty where nothing is replaced." })),
  count: maybe(whole("Count", { least: 1, most: LIMITS.count, hint: "Empty: 1." })),
  work: maybe(named("Work", { hint: "Empty: the part is replaced." })),
  own: maybe(line("Work in your own words", { most: LIMITS.ownWords, hint: "In place of work from the rate book." })),
  minutes: maybe(decimal("Minutes each, likely", { least: 0, most: LIMITS.minutes, decimals: 3 })),
  minutesLow: maybe(decimal("At best", { least: 0, most: LIMITS.minutes, decimals: 3, hint: "Empty: as likely." })),
  minutesHigh: maybe(decimal("At worst", { least: 0, most: LIMITS.minutes, decimals: 3, hint: "Empty: as likely." })),
  price: maybe(money("Fixed price each", { currencyIn: "currency", hint: "Of work in your own words, whatever time it takes." })),
  ownPart: maybe(
    line("Part in your own words", {
      most: LIMITS.ownWords,
      hint: "The part to replace then says what it is like, for its time.",
    }),
  ),
  partCost: maybe(
    cost("What one costs", {
      currencyIn: "currency",
      hint: "Of a part in your own words, or in place of the catalogue's price.",
    }),
  ),
  partReason: maybe(
    line("Why that price", { most: LIMITS.ownWords, hint: "Where the catalogue has another; the owner's papers print it." }),
  ),
  partSource: maybe(line("Bought from", { most: LIMITS.ownWords })),
  partDays: maybe(whole("Days to arrive", { least: 0, most: LIMITS.count })),
  partState: maybe(choice("State it is in", OFFER_STATES, { hint: "Not said: new." })),
  partPack: maybe(whole("Pieces in a pack", { least: 1, most: LIMITS.count, hint: "Empty: 1." })),
  partMinimum: maybe(whole("Fewest packs", { least: 1, most: LIMITS.count, hint: "Empty: 1." })),
  partGood: maybe(
    decimal("Share expected good", {
      unit: "%",
      least: 1,
      most: 100,
      decimals: 2,
      hint: "Empty: as the rate book has that state.",
    }),
  ),
  partBrought: maybe(tick("The owner brings it", { hint: "It costs nothing, and carries no warranty of yours." })),
  where: maybe(named("Where", { hint: "Empty: the unit as a whole." })),
  certainty: maybe(choice("The owner's say", CERTAINTIES, { help: "possible-work#certainty" })),
  chance: maybe(decimal("Chance of it", { unit: "%", help: "possible-work#certainty", least: 0, most: 100, decimals: 8 })),
});
const { count: _, ...sayings } = lineFields.shape;
/** Every key of a line; what a form does not ask for is carried. */
export const lineTable = z.strictObject({
  ...newId,
  currency: maybe(line("Currency", { most: 3, capitals: true, hint: "The estimate's" })),
  reason: maybe(note("Why")),
  count: whole("Count", { least: 0, most: LIMITS.count }),
  ...sayings,
  chosen: maybe(tick("Chosen")),
  refused: maybe(whole("Left out in revision", { least: 1, most: 1_000_000 })),
  group: maybe(line("One of a group", { most: 100 })),
  labourClass: maybe(named("Labour class", { hint: "Of work in your own words." })),
  hazards: maybe(line("Dangers", { hint: "Of work in your own words, parted by semicolons." })),
  fittedType: maybe(named("Fitted now: part type")),
  fittedValue: maybe(line("Fitted now: value")),
  fittedVolts: maybe(decimal("Fitted now: rated volts", { least: 0, most: 1_000_000, decimals: 6 })),
  workingVolts: maybe(decimal("Fitted now: working volts", { least: 0, most: 1_000_000, decimals: 6 })),
  fittedTolerance: maybe(decimal("Fitted now: tolerance", { unit: "%", least: 0, most: 1000, decimals: 4 })),
  fittedAudio: maybe(tick("Fitted now: audio grade")),
});
export type LineRow = z.output<typeof lineTable>;
/** As a form asks for some of it. */
export type Said = Omit<LineRow, "count"> & { readonly count?: number };

/** What may be named: parts of the catalogue and part types, work, places. */
export const namesIn = ({ kinds: own = [], rateBook, map }: EstimateInput, kinds: readonly PartKind[]) => {
  const others = kinds.filter(({ id }) => !own.some((kind) => kind.id === id));
  return {
    part: [
      ...[...own, ...others].map(({ id, name }) => ({ id, name, is: { kind: id } })),
      ...rateBook.partTypes.map(({ id, name }) => ({ id, name, is: { type: id } })),
    ],
    work: [
      ...rateBook.operations.map(({ id, name }) => ({ id, name, is: { operation: id } })),
      ...(rateBook.services ?? []).map(({ id, name }) => ({ id, name, is: { service: id } })),
    ],
    where: (map?.assemblies ?? []) as readonly Named[],
    labourClass: rateBook.labourClasses as readonly Named[],
    fittedType: rateBook.partTypes as readonly Named[],
  };
};
export type Names = ReturnType<typeof namesIn>;

/** Places are on a list; work and parts can be said without one. */
const OTHERWISE = {
  part: "say it in your own words, with what it costs",
  work: "say it in your own words, with its minutes or a price",
} as const;

const notKnown = (key: keyof Names, typed: string, known: readonly string[]): string =>
  key === "part" || key === "work" ? notListedText(typed, known, "on a list", OTHERWISE[key]) : unknownNameText(typed, known);

/** Of work in own words alone: said of other work it would be lost. */
const OF_OWN_WORK = ["price", "labourClass", "hazards"] as const;
/** And of a part in own words. */
const OF_OWN_PART = ["partState", "partPack", "partMinimum", "partGood", "partBrought"] as const;

/** What a row says that no work item can hold. */
export function rowWrong(row: LineRow, names: Names, currency: string): Fault[] {
  const label = (key: keyof LineRow) => sayingOf(lineTable.shape[key])!.label;
  const lost = (key: keyof LineRow, why: string): Fault[] =>
    row[key] === undefined || row[key] === false
      ? []
      : [{ pointer: `/${key}`, name: "shape unknown", detail: `${label(key)} ${why}; leave it out here.` }];
  const { certainty = "planned" } = row;
  const strange = parted(row.hazards ?? "").find((one) => !HAZARDS.some((known) => known === one));
  return [
    ...namesWrong(names, row),
    ...(row.currency === undefined || row.currency === currency
      ? []
      : [
          {
            pointer: "/currency",
            name: "currency unknown",
            detail: `Currency is ${row.currency}; this estimate is in ${currency}.`,
          },
        ]),
    ...(row.own === undefined ? OF_OWN_WORK.flatMap((key) => lost(key, "is of work in your own words")) : []),
    ...(row.ownPart === undefined ? OF_OWN_PART.flatMap((key) => lost(key, "is of a part in your own words")) : []),
    ...(certainty === "if found" ? [] : lost("chance", "is of work that may be found")),
    ...(certainty === "optional" ? [] : [...lost("chosen", "is of an option"), ...lost("refused", "is of an option")]),
    ...(certainty === "planned" ? lost("group", "is of work that may be found, and of options") : []),
    ...(row.minutes === undefined
      ? ["minutesLow", "minutesHigh"].flatMap((key) => lost(key as "minutesLow", "stands beside likely minutes"))
      : []),
    ...(row.partCost === undefined || row.ownPart !== undefined
      ? lost("partReason", "is of another price for a known part")
      : []),
    ...(row.partCost === undefined && row.ownPart === undefined
      ? (["partSource", "partDays"] as const).flatMap((key) => lost(key, "stands beside what a part costs"))
      : []),
    ...(strange === undefined
      ? []
      : [{ pointer: "/hazards", name: "choice unknown", detail: `Dangers: ${unknownNameText(strange, HAZARDS)}` }]),
  ];
}

/** What is wrong with the names in what is said. */
export function namesWrong(
  names: Names,
  said: { readonly [K in keyof Names | "own" | "ownPart"]?: string | undefined },
): Fault[] {
  if (!said.part?.trim() && !said.work?.trim() && !said.own?.trim() && !said.ownPart?.trim())
    return [{ pointer: "/work", name: "key missing", detail: "Work is missing; name the work, or the part to replace." }];
  return (["part", "work", "where", "labourClass", "fittedType"] as const).flatMap((key) => {
    const [typed, among]: [string, readonly Named[]] = [said[key]?.trim() ?? "", names[key]];
    if (typed === "" || foundByName(typed, among)) return [];
    const known = among.map(({ name }) => name);
    const { label } = sayingOf(lineTable.shape[key])!;
    return [{ pointer: `/${key}`, name: "record unknown", detail: `${label}: ${notKnown(key, typed, known)}` }];
  });
}

export const parted = (text: string): string[] => text.split(";").flatMap((each) => each.trim().toLowerCase() || []);

const FIELD: readonly (readonly [pointer: RegExp, field: string])[] = [
  [/\/count$/, "/count"],
  [/\/part\/own\/cost$/, "/partCost"],
  [/\/part\/own\/name$/, "/ownPart"],
  [/\/part\/own\/packSize$/, "/partPack"],
  [/\/part\/own\/minimumPacks$/, "/partMinimum"],
  [/\/part\/own\/shareGood$/, "/partGood"],
  [/\/partPrice\/reason$/, "/partReason"],
  [/\/partPrice\/leadDays$/, "/partDays"],
  [/\/partPrice/, "/partCost"],
  [/\/part/, "/part"],
  [/\/(own\/)?minutes/, "/minutes"],
  [/\/own$/, "/minutes"],
  [/\/own\/price$/, "/price"],
  [/\/own\/labourClass$/, "/labourClass"],
  [/\/original\/type$/, "/fittedType"],
  [/\/original\/ratedVolts$/, "/fittedVolts"],
  [/\/original\/workingVolts$/, "/workingVolts"],
  [/\/original\/tolerancePercent$/, "/fittedTolerance"],
  [/\/original/, "/fittedValue"],
  [/\/own/, "/own"],
  [/\/assembly$/, "/where"],
  [/\/operation$/, "/work"],
  [/\/certainty\/group$/, "/group"],
  [/\/certainty/, "/chance"],
];

/** The engine's own complaints about a line, at its fields; about anything else of the job, at the whole. */
export function faultOf(problem: Problem, itemAt: number, figures?: Figures): Fault {
  const own = problem.pointer.startsWith(`/items/${itemAt}/`) || problem.pointer === `/items/${itemAt}`;
  const pointer = own ? (FIELD.find(([pattern]) => pattern.test(problem.pointer))?.[1] ?? "/work") : "";
  return { pointer, name: problem.name, detail: problemIn(problem, figures) };
}
