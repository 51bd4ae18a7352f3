/** What the shop should look at; none of it stops an estimate. Substitutions and offers are warned about by the parts. Cautions for the bench. */

import type { Hazard } from "../input.js";
import { sumOfTimes } from "../labour/times.js";
import { HAZARDS } from "../lists.js";
import { decimalsOf } from "../money/currency.js";
import { timesOver } from "../money/rounding.js";
import { fromMilli } from "../money/scales.js";
import { daysBetween } from "../parts/catalogue.js";
import type { Priced, Workings } from "../pricing/workings.js";
import type { Sheet, Warning } from "../sheet.js";
import { closure } from "../teardown/map.js";
import { countsAsMains, hazardsAt, memoryOf } from "./safety.js";

export function warningsOf({ input, map }: Workings, priced: Priced, ceiling: Sheet["ceiling"]): Warning[] {
  const { total } = priced.totals;
  const decimals = decimalsOf(input.currency) ?? 0;
  const declared = input.unit.declaredValue ?? 0;
  // Hundredths of a percent.
  const share = declared > 0 ? timesOver(total, 10_000, declared) / 100 : 0;
  const limit = input.rateBook.valueSharePercent;
  const { asked, given } = priced.discount;
  const standard = sumOfTimes(
    priced.access
      .filter((_, index) => {
        const place = priced.opened[index];
        return place === undefined || map.assemblies[place]!.access.by === "standard";
      })
      .map(({ times }) => times),
  );
  return [
    ...(memoryOf(input)?.asked === false ? [{ is: "memory not asked" } as const] : []),
    ...(share > limit ? [{ is: "value share", percent: share, limit, total, declared } as const] : []),
    ...(total > ceiling.amount ? [{ is: "above ceiling", total, ceiling: ceiling.amount } as const] : []),
    ...(given < asked ? [{ is: "discount limited", asked, given } as const] : []),
    ...(standard.high > 0
      ? [
          {
            is: "access by standard",
            lowMinutes: fromMilli(standard.low),
            likelyMinutes: fromMilli(standard.likely),
            highMinutes: fromMilli(standard.high),
          } as const,
        ]
      : []),
    ...oldRates(input, priced),
    ...(decimals > 2 ? [{ is: "currency scale", currency: input.currency, decimals } as const] : []),
  ];
}

/** Common practice, no source: what a small shop looks up once a fortnight. */
const EXCHANGE_GOOD_FOR_DAYS = 14;

/** Of the rates that a price or a freight of the sheet rests on. */
function oldRates({ asOf, exchange = [], rateBook }: Workings["input"], { lines, parts }: Priced): Warning[] {
  const used = new Set(
    [...lines, ...parts.freight].flatMap(({ from }) =>
      from.flatMap((source) => (source.is === "exchange" ? [source.currency] : [])),
    ),
  );
  const goodForDays = rateBook.parts.exchangeGoodForDays ?? EXCHANGE_GOOD_FOR_DAYS;
  return exchange.flatMap(({ currency, rate, on }) => {
    const days = daysBetween(on, asOf);
    return used.has(currency) && days > goodForDays ? [{ is: "old exchange rate", currency, rate, on, days, goodForDays }] : [];
  });
}

/** Cautions, and what each comes from. Work that is only possible counts too: a caution too many does no harm. */
export function hazardsOf({ input, map, items }: Workings, { visit }: Priced): Sheet["hazards"] {
  const { maker, model, hazards, power } = input.unit;
  const unit = [maker, model].filter(Boolean).join(" ");
  const from = new Map<Hazard, Set<string>>();
  const add = (hazards: readonly Hazard[] | undefined, name: string) => {
    for (const hazard of hazards ?? []) from.set(hazard, (from.get(hazard) ?? new Set()).add(name));
  };
  add(hazards, unit);
  const mayBeOff = closure(map, [...visit.toOpen, ...visit.open, ...items.flatMap(({ place }) => place ?? [])]);
  map.assemblies.forEach((assembly, place) => {
    if (mayBeOff.has(place)) add(assembly.hazards, assembly.name);
  });
  for (const { is: operation } of new Set(items.map(({ takes }) => takes.operation))) add(operation.hazards, operation.name);
  for (const part of new Set(items.flatMap(({ takes }) => takes.part ?? []))) add(part.type.is.hazards, part.name);
  const said = from.has("mains and stored charge");
  if (countsAsMains(input) && (items.length > 0 || mayBeOff.size > 0 || visit.boards.some(({ count }) => count > 0))) {
    add(["mains and stored charge"], unit);
    map.assemblies.forEach((assembly, place) => {
      if (mayBeOff.has(place)) add(hazardsAt(assembly, input), assembly.name);
    });
  }
  return HAZARDS.flatMap((hazard) => {
    if (!from.has(hazard)) return [];
    const assumed = hazard === "mains and stored charge" && !said && power === undefined;
    return [{ hazard, from: [...from.get(hazard)!], ...(assumed && { assumed }) }];
  });
}
