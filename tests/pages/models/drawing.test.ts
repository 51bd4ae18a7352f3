import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Assembly, TeardownMap } from "../../../src/estimating/input.js";
import { drawingOf } from "../../../src/pages/models/graph/drawing.js";
import { twoLines } from "../../../src/pages/models/graph/mapGraph.js";
import { runs } from "../../setup/runs.js";

const one = (id: string, more: Partial<Assembly> = {}): Assembly => ({
  id,
  name: id.toUpperCase(),
  sort: "board",
  access: { by: "fasteners", fasteners: [] },
  ...more,
});
const drawn = (...assemblies: Assembly[]) => drawingOf({ assemblies });
const node = (drawing: ReturnType<typeof drawn>, id: string) => drawing.nodes.find((each) => each.id === id)!;

/** Any map, rings and all. */
const maps: fc.Arbitrary<TeardownMap> = fc.integer({ min: 1, max: 14 }).chain((many) => {
  const ids = Array.from({ length: many }, (_, at) => `a${at}`);
  const some = fc.subarray(ids, { maxLength: Math.min(3, many) });
  return fc.record({
    assemblies: fc.tuple(
      ...ids.map((id) => fc.record({ behind: some, joined: fc.subarray(ids, { maxLength: 1 }) }).map((more) => one(id, more))),
    ),
    // biome-ignore lint/suspicious/noThenProperty: the word of the teardown map; never awaited
    fitBefore: fc.array(fc.record({ first: fc.constantFrom(...ids), then: fc.constantFrom(...ids) }), { maxLength: 3 }),
  });
});

describe("the drawing of a teardown map", () => {
  it("puts what comes off first left of what it hides, and numbers both orders", () => {
    const drawing = drawn(one("board", { behind: ["plate"] }), one("cover"), one("plate", { behind: ["cover"] }));
    expect([node(drawing, "cover"), node(drawing, "plate"), node(drawing, "board")].map(({ off, back }) => [off, back])).toEqual([
      [1, 3],
      [2, 2],
      [3, 1],
    ]);
    expect(node(drawing, "cover").x).toBeLessThan(node(drawing, "plate").x);
    expect(node(drawing, "plate").x).toBeLessThan(node(drawing, "board").x);
  });

  it("boxes what comes out together", () => {
    const drawing = drawn(one("front"), one("jacks", { joined: ["front"] }), one("lid"));
    const [box] = drawing.joined;
    expect(drawing.joined).toHaveLength(1);
    for (const id of ["front", "jacks"]) {
      expect(node(drawing, id).y).toBeGreaterThan(box!.y);
      expect(node(drawing, id).y + node(drawing, id).height).toBeLessThan(box!.y + box!.height);
    }
  });

  it("draws a ring, marks it and gives it no order", () => {
    const drawing = drawn(one("a", { behind: ["b"] }), one("b", { behind: ["a"] }), one("c", { behind: ["b"] }));
    expect(drawing.nodes.map(({ inRing, off }) => [inRing, off])).toEqual([
      [true, undefined],
      [true, undefined],
      [false, undefined],
    ]);
    expect(drawing.arrows.filter(({ inRing }) => inRing)).toHaveLength(2);
  });

  it("never lays two nodes over each other, and keeps all on the sheet", () => {
    fc.assert(
      fc.property(maps, (map) => {
        const { nodes, width, height, arrows } = drawingOf(map);
        expect(nodes).toHaveLength(map.assemblies.length);
        for (const [at, a] of nodes.entries()) {
          expect(a.x).toBeGreaterThanOrEqual(0);
          expect(a.y).toBeGreaterThanOrEqual(0);
          expect(a.x + a.width).toBeLessThanOrEqual(width);
          expect(a.y + a.height).toBeLessThanOrEqual(height);
          for (const b of nodes.slice(at + 1))
            expect(a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y).toBe(true);
        }
        for (const { path } of arrows) expect(path).not.toMatch(/NaN|undefined/);
        expect(JSON.stringify(drawingOf(map))).toBe(JSON.stringify(drawingOf(map)));
      }),
      runs(60),
    );
  });

  it("draws the largest map allowed, each behind all before it", () => {
    const ids = Array.from({ length: 60 }, (_, at) => `n${at}`);
    const drawing = drawn(...ids.map((id, at) => one(id, { behind: ids.slice(0, at) })));
    expect(drawing.nodes.at(-1)?.off).toBe(60);
    expect([drawing.thinned, drawing.arrows.length]).toEqual([true, 59]);
  });
});

it.each([
  ["Filter capacitors under their pan", ["Filter capacitors", "under their pan"]],
  ["Motor", ["Motor"]],
  ["Leistungsverstärkerplatine links", ["Leistungsverstärke…", "links"]],
  ["One two three four five six seven eight nine ten", ["One two three four", "five six seven eig…"]],
])("writes %s on two lines", (name, lines) => {
  expect(twoLines(name, 19)).toEqual(lines);
});
