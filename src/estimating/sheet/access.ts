/** The access part of a sheet: what comes off and why, and in which order it goes back. */
import { chargedMilli, inMinutes, sumOfTimes } from "../labour/times.js";
import { fromMilli } from "../money/scales.js";
import type { Priced, Workings } from "../pricing/workings.js";
import type { AccessResult, OpenedStep, Why } from "../sheet.js";
import type { MapReading } from "../teardown/map.js";
import { refitAfter } from "../teardown/order.js";
import { hazardsAt } from "./safety.js";

export function accessResult(workings: Workings, { opened, worked, off, visit, access }: Priced): AccessResult {
  const { input, rateBook, map, openings, refit } = workings;
  const isOpened = new Set(opened);
  const after = refitAfter(map);
  const step = (place: number): OpenedStep => {
    const { id, name, access: by } = map.assemblies[place]!;
    const { remove, refit } = openings[place]!;
    const standard: Why[] =
      by.by === "standard"
        ? [
            {
              rule: "by standard",
              size: by.size,
              mounting: by.mounting,
              lowMinutes: fromMilli(remove.low + refit.low),
              highMinutes: fromMilli(remove.high + refit.high),
            },
          ]
        : [];
    return {
      id,
      name,
      remove: inMinutes(remove),
      refit: inMinutes(refit),
      fasteners: by.by === "fasteners" ? by.fasteners.filter(({ count }) => count > 0) : [],
      why: [...whyOpened(map, place, worked, off), ...standard],
      worked: worked.has(place),
      rests: by.by,
      hazards: hazardsAt(map.assemblies[place]!, input),
    };
  };
  const rows = visit.boards.filter(({ count }) => count > 0);
  return {
    removal: opened.map(step),
    refit: refit
      .filter((place) => isOpened.has(place))
      .map((place) => ({
        id: map.assemblies[place]!.id,
        name: map.assemblies[place]!.name,
        minutes: fromMilli(chargedMilli(openings[place]!.refit, rateBook)),
        after: after[place]!.filter((other) => isOpened.has(other)).map((other) => map.assemblies[other]!.name),
      })),
    boards: rows.map(({ size, mounting, count }, row) => ({
      size,
      mounting,
      count,
      minutes: inMinutes(access[opened.length + row]!.times),
    })),
    alreadyOpen: map.assemblies.filter((_, place) => visit.open.has(place)).map(({ name }) => name),
    minutes: inMinutes(sumOfTimes(access.map(({ times }) => times))),
  };
}

/** Why an assembly comes off, in order: it is worked on; it is in the way of others that come off; it is joined to others; its time is a standard. */
export function whyOpened(map: MapReading, place: number, worked: ReadonlySet<number>, off: ReadonlySet<number>): Why[] {
  const names = (places: readonly number[]) =>
    places.filter((other) => off.has(other)).map((other) => map.assemblies[other]!.name);
  const hidden = names(map.hides[place]!);
  const joined = names(map.joined[place]!);
  return [
    ...(worked.has(place) ? [{ rule: "worked" } as const] : []),
    ...(hidden.length > 0 ? [{ rule: "in the way of", of: hidden } as const] : []),
    ...(joined.length > 0 ? [{ rule: "joined to", to: joined } as const] : []),
  ];
}
