/** A ring of assemblies, each behind the next or joined to it; or each to be refitted before the next. */
import type { TeardownMap } from "../input.js";
import type { Problem } from "../problems.js";
import { type MapReading, readMap } from "../teardown/map.js";
import { refitOrder, removalOrder } from "../teardown/orders.js";
import type { Link } from "../teardown/together.js";

export function checkRings(map: TeardownMap | undefined): Problem[] {
  const read = readMap(map);
  const removal = removalOrder(read);
  if (!removal.ok) return [{ name: "behind cycle", ...named(removal.ring, read), pointer: "/map/assemblies" }];
  const refit = refitOrder(read, removal.order);
  if (!refit.ok) return [{ name: "fit before cycle", ...named(backwards(refit.ring), read), pointer: "/map/fitBefore" }];
  return [];
}

/** What waits for the next becomes what the next waits for. */
const backwards = (ring: readonly Link[]): Link[] =>
  ring.map((_, i) => ({ place: ring.at(-1 - i)!.place, joined: ring.at(-2 - i)?.joined ?? ring.at(-1)!.joined }));

function named(ring: readonly Link[], { assemblies }: MapReading) {
  const joined = ring.flatMap((link, i) => (link.joined ? [i] : []));
  return { cycle: ring.map(({ place }) => assemblies[place]!.name), ...(joined.length > 0 && { joined }) };
}
