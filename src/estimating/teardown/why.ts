/** Why an assembly comes off. */
import type { Why } from "../sheet.js";
import type { MapReading } from "./map.js";

/** In order: it is worked on; it is in the way of others that come off; it is joined to others; its time is a standard. */
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
