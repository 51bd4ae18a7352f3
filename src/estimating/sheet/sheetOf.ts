/** A checked input as a sheet. */
import { addDays } from "../day.js";
import type { EstimateInput } from "../input.js";
import { groupsOf, isCharged } from "../labour/groups.js";
import { profileOf } from "../law/profiles.js";
import { substitutionWarnings } from "../parts/substitution.js";
import { byAssembly, linesBehind, milliTaken, price, timeTaken, visitNow } from "../pricing/price.js";
import { isFixed, quote, quotedTotals } from "../pricing/quote.js";
import { riskSummary } from "../pricing/riskSummary.js";
import { type Priced, type Workings, workingsOf } from "../pricing/workings.js";
import type { Detail, Line, Sheet, Warning } from "../sheet.js";
import type { MapReading } from "../teardown/map.js";
import { accessResult, whyOpened } from "./access.js";
import { missingCompanions } from "./companions.js";
import { groupPrice, suggestionsFor } from "./options.js";
import { memoryOf } from "./safety.js";
import { ceilingOver, daysToComplete, depositOn, ifDeclined, neverMoreInLines, type Room, roomFor } from "./terms.js";
import { hazardsOf, warningsOf } from "./warnings.js";

export interface Ask {
  /** Add what the shop reads about the job's risk. */
  readonly risk?: boolean;
}

export function sheetOf(given: EstimateInput, { risk = false }: Ask = {}): Sheet {
  const workings = workingsOf(given);
  const { input, rateBook, map, items } = workings;
  const visit = visitNow(input, map);
  const counted = price(workings, items.filter(isCharged), visit);
  const quoted = quote(counted, workings);
  const base = quoted.priced;
  const { totals, parts, access } = base;
  const profile = profileOf(visit.policy.profile);
  const possible = items.filter(({ item }) => item.certainty.is === "if found");
  const allFound = () => {
    if (isFixed(visit.policy)) return totals.total;
    return quotedTotals(price(workings, [...base.items, ...possible], visit), workings).total;
  };
  const taken = milliTaken(base);
  const companions = missingCompanions(input);
  const memory = memoryOf(input);
  const group = (is: "if found" | "optional") =>
    groupsOf(items, input.items, is).map((each) => groupPrice(each, counted, totals, workings));
  const ifFound = group("if found");
  const room: Room | undefined = quoted.ceiling ? { is: "priced", ...quoted.ceiling } : roomFor(ifFound, totals, rateBook);
  const ceiling = ceilingOver(totals.total, allFound, visit.policy, rateBook, profile, room);
  // Where the owner or the law set another ceiling than the pricing asks for.
  const held = quoted.used.ceiling === undefined || ceiling.net !== undefined ? undefined : neverMoreInLines({ totals, ceiling });
  const aboveCeiling = (): Warning[] => {
    if (!rateBook.ceiling.leavesRoom || ifFound.length === 0) return [];
    const together = allFound();
    return together > ceiling.amount ? [{ is: "possible work above ceiling", total: together, ceiling: ceiling.amount }] : [];
  };
  return {
    schema: 1,
    asOf: input.asOf,
    currency: input.currency,
    rateBook: { id: rateBook.id, version: rateBook.version, name: rateBook.name },
    detail: detailOf(workings, base),
    access: accessResult(workings, base),
    ...printed(base, map),
    adjustments: base.adjustments,
    totals,
    time: timeTaken(base, rateBook),
    parts: parts.results,
    ifFound,
    options: group("optional"),
    suggestions: suggestionsFor(workings, counted),
    ...(companions.length > 0 && { companions }),
    ceiling,
    ifDeclined: ifDeclined(
      access.map(({ line }) => line),
      visit.policy,
      rateBook,
    ),
    deposit: depositOn(base, rateBook),
    days: daysToComplete({ attended: taken.attended.likely, unattended: taken.unattended }, parts, visit.policy, rateBook),
    validUntil: addDays(input.asOf, Math.max(rateBook.validityDays, profile.validityDays ?? 0)),
    hazards: hazardsOf(workings, base),
    ...(memory && { memory }),
    warnings: [
      ...parts.warnings,
      ...substitutionWarnings(input.items, input.kinds ?? [], rateBook),
      ...warningsOf(workings, base, ceiling),
      ...aboveCeiling(),
    ],
    ...(risk && { risk: riskSummary(counted, quoted, workings, held) }),
  };
}

/** Access with the first reason why; labour by assembly in map order, the unit as a whole last; everything else as priced. Apart from these, the work behind services. */
function printed(priced: Priced, map: MapReading): Pick<Sheet, "lines" | "behind"> {
  const { lines, access, opened, worked, off } = priced;
  const withWhy = lines.slice(0, access.length).map((line, at): Line => {
    const place = opened[at];
    const [why] = place === undefined ? [] : whyOpened(map, place, worked, off);
    return why ? { ...line, why } : line;
  });
  // With what a billing step adds to them.
  const charged = new Map(lines.map((line) => [line.id, line]));
  const own = byAssembly(priced).filter(({ behind }) => behind === undefined);
  const sold = own.map(({ line }) => charged.get(line.id) ?? line);
  const behind = linesBehind(priced);
  return {
    lines: [...withWhy, ...sold, ...lines.slice(access.length + sold.length)],
    ...(behind.length > 0 && { behind }),
  };
}

/** What each part of a sheet rests on: plain counts, named assemblies, or a drawn teardown map. */
function detailOf({ map }: Workings, { opened, visit, items }: Priced): Sheet["detail"] {
  const level = (place: number): Detail => (map.assemblies[place]!.access.by === "standard" ? "grid" : "map");
  const counted = visit.boards.some(({ count }) => count > 0);
  return {
    access: only([...(counted ? ["counts" as const] : []), ...opened.map(level)]),
    work: only(items.map(({ place }) => (place === undefined ? "counts" : level(place)))),
  };
}

function only(levels: readonly Detail[]): Detail {
  const different = new Set(levels);
  return different.size > 1 ? "mixed" : (levels[0] ?? "none");
}
