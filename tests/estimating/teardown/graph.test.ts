/** Reference: graphology 0.26 with graphology-dag 0.4.1 (hasCycle, willCreateCycle) on random maps, joined assemblies merged into one node. */
import fc from "fast-check";
import graphology, { type DirectedGraph as Directed } from "graphology";
import { hasCycle, willCreateCycle } from "graphology-dag";
import { describe, expect, it } from "vitest";
import type { Assembly, TeardownMap } from "../../../src/estimating/input.js";
import { closure, readMap } from "../../../src/estimating/teardown/map.js";
import { refitOrder, removalOrder } from "../../../src/estimating/teardown/order.js";
import { runs } from "../../setup/runs.js";
import { assembly, fitBefore } from "../cast/organ.js";

const { DirectedGraph } = graphology as unknown as { DirectedGraph: new () => Directed };

const pairs = (size: number, most: number) => fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: most });

/** Some maps run from front to back and so have no ring; others have edges either way. */
const anyMap: fc.Arbitrary<TeardownMap> = fc.integer({ min: 1, max: 16 }).chain((size) =>
  fc
    .record({ behind: pairs(size, 24), joined: pairs(size, 4), fit: pairs(size, 6), oneWay: fc.boolean() })
    .map(({ behind, joined, fit, oneWay }) => {
      const edges = oneWay
        ? behind.filter(([a, b]) => a !== b).map(([a, b]) => [Math.max(a, b), Math.min(a, b)] as const)
        : behind;
      const assemblies = Array.from(
        { length: size },
        (_, i): Assembly =>
          assembly(`a${i}`, {
            behind: edges.filter(([from]) => from === i).map(([, to]) => `a${to}`),
            joined: joined.filter(([from]) => from === i).map(([, to]) => `a${to}`),
          }),
      );
      const rules = fit.map(([first, then]) => fitBefore(`a${first}`, `a${then}`));
      return { assemblies, fitBefore: rules };
    }),
);

/** The node an assembly is merged into: the smallest it is joined to, however far. */
function merged({ assemblies }: TeardownMap): Map<string, string> {
  const node = new Map(assemblies.map(({ id }) => [id, id]));
  for (let changed = true; changed; ) {
    changed = false;
    for (const { id, joined = [] } of assemblies)
      for (const other of joined) {
        const least = [node.get(id)!, node.get(other)!].sort()[0]!;
        for (const each of [id, other])
          if (node.get(each) !== least) {
            node.set(each, least);
            changed = true;
          }
      }
  }
  return node;
}

/** Edges between merged nodes, and a graph of the edges within each. */
function graphsOf(map: TeardownMap, edges: readonly (readonly [string, string])[]) {
  const node = merged(map);
  const [between, within] = [new DirectedGraph(), new DirectedGraph()];
  for (const id of node.keys()) within.addNode(id);
  for (const id of new Set(node.values())) between.addNode(id);
  for (const [from, to] of edges) {
    if (node.get(from) === node.get(to)) within.mergeEdge(from, to);
    else between.mergeEdge(node.get(from)!, node.get(to)!);
  }
  return { node, between, within, cyclic: hasCycle(between) || hasCycle(within) };
}

const behindEdges = ({ assemblies }: TeardownMap) =>
  assemblies.flatMap(({ id, behind = [] }) => behind.map((front) => [id, front] as const));

const refitEdges = (map: TeardownMap) => [
  ...behindEdges(map).map(([id, front]) => [front, id] as const),
  ...(map.fitBefore ?? []).map(({ first, then }) => [then, first] as const),
];

const times = runs(1500);

describe("against a graph library", () => {
  it("refuses a map exactly when its graph has a cycle", () => {
    fc.assert(
      fc.property(anyMap, (map) => {
        const removal = removalOrder(readMap(map));
        expect(removal.ok).toBe(!graphsOf(map, behindEdges(map)).cyclic);
        if (removal.ok) expect(refitOrder(readMap(map), removal.order).ok).toBe(!graphsOf(map, refitEdges(map)).cyclic);
      }),
      times,
    );
  });

  it("opens exactly what can be reached", () => {
    fc.assert(
      fc.property(anyMap, fc.nat(), (map, seed) => {
        const { node, between, cyclic } = graphsOf(map, behindEdges(map));
        fc.pre(!cyclic);
        const start = seed % map.assemblies.length;
        const from = node.get(`a${start}`)!;
        const reachable = map.assemblies.filter(({ id }) => {
          const to = node.get(id)!;
          // An edge back would close a ring exactly when there is a way there.
          return to === from || between.hasEdge(from, to) || willCreateCycle(between, to, from);
        });
        const opened = closure(readMap(map), [start]);
        expect(map.assemblies.filter((_, place) => opened.has(place))).toEqual(reachable);
      }),
      times,
    );
  });

  it("puts every edge the right way round in both orders, each assembly once, joined ones together", () => {
    fc.assert(
      fc.property(anyMap, (map) => {
        const read = readMap(map);
        const removal = removalOrder(read);
        fc.pre(removal.ok);
        if (!removal.ok) return;
        const refit = refitOrder(read, removal.order);
        for (const [ordered, edges] of [
          [removal, behindEdges(map)],
          [refit, refitEdges(map)],
        ] as const) {
          if (!ordered.ok) continue;
          const ids = ordered.order.map((place) => map.assemblies[place]!.id);
          expect([...ids].sort()).toEqual(map.assemblies.map(({ id }) => id).sort());
          const { node } = graphsOf(map, edges);
          for (const [waits, first] of edges) {
            expect(ids.indexOf(first)).toBeLessThan(ids.indexOf(waits));
            const group = (id: string) => ids.filter((each) => node.get(each) === node.get(id));
            if (node.get(waits) !== node.get(first))
              expect(ids.indexOf(group(first).at(-1)!)).toBeLessThan(ids.indexOf(group(waits)[0]!));
          }
          const changes = ids.filter((id, i) => i > 0 && node.get(id) !== node.get(ids[i - 1]!)).length;
          expect(changes + 1).toBe(new Set(node.values()).size);
        }
      }),
      times,
    );
  });

  it("names a true ring: each link is in the map", () => {
    fc.assert(
      fc.property(anyMap, (map) => {
        const read = readMap(map);
        const removal = removalOrder(read);
        fc.pre(!removal.ok);
        if (removal.ok) return;
        const node = merged(map);
        removal.ring.forEach(({ place, joined }, i) => {
          const here = map.assemblies[place]!;
          const next = map.assemblies[removal.ring[(i + 1) % removal.ring.length]!.place]!;
          if (joined) expect(node.get(here.id)).toBe(node.get(next.id));
          else expect(here.behind).toContain(next.id);
        });
      }),
      times,
    );
  });
});
