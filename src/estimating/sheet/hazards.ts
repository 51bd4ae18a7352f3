/** Cautions for the bench, and what each comes from. Work that is only possible counts too: a caution too many does no harm. */
import type { Hazard } from "../input.js";
import { HAZARDS } from "../lists.js";
import type { Priced, Workings } from "../pricing/workings.js";
import type { Sheet } from "../sheet.js";
import { closure } from "../teardown/closure.js";

export function hazardsOf({ input, map, items }: Workings, { visit }: Priced): Sheet["hazards"] {
  const from = new Map<Hazard, Set<string>>();
  const add = (hazards: readonly Hazard[] | undefined, name: string) => {
    for (const hazard of hazards ?? []) from.set(hazard, (from.get(hazard) ?? new Set()).add(name));
  };
  const { maker, model, hazards } = input.unit;
  add(hazards, [maker, model].filter(Boolean).join(" "));
  const mayBeOff = closure(map, [...visit.toOpen, ...visit.open, ...items.flatMap(({ place }) => place ?? [])]);
  map.assemblies.forEach((assembly, place) => {
    if (mayBeOff.has(place)) add(assembly.hazards, assembly.name);
  });
  for (const { is: operation } of new Set(items.map(({ takes }) => takes.operation))) add(operation.hazards, operation.name);
  for (const part of new Set(items.flatMap(({ takes }) => takes.part ?? []))) add(part.type.is.hazards, part.name);
  return HAZARDS.flatMap((hazard) => (from.has(hazard) ? [{ hazard, from: [...from.get(hazard)!] }] : []));
}
