import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonical, same } from "../../../src/estimating/agreement/canonical.js";
import { difference, workName } from "../../../src/estimating/agreement/difference.js";
import { runs } from "../../setup/runs.js";
import { item, job, on } from "../cast/organ.js";
import { applied } from "./applied.js";
import { DEMO, ORGAN, revision } from "./demo.js";

describe("the difference of two revisions", () => {
  it("applied to the earlier gives the later, value for value", () => {
    fc.assert(
      fc.property(revision, ({ before, after }) => {
        expect(applied(before, difference(before, after))).toEqual(after);
      }),
      runs(120),
    );
  });

  it("survives being stored as JSON", () => {
    fc.assert(
      fc.property(revision, ({ before, after }) => {
        const stored = JSON.parse(JSON.stringify(difference(before, after)));
        expect(canonical(applied(before, stored))).toBe(canonical(after));
      }),
      runs(80),
    );
  });

  it("leads from any job to any other", () => {
    for (const from of DEMO) for (const to of DEMO) expect(applied(from, difference(from, to))).toEqual(to);
  });

  it("of an input and itself is empty, whatever the order of its keys", () => {
    const turned = Object.fromEntries(Object.entries(ORGAN).reverse()) as unknown as typeof ORGAN;
    const found = difference(ORGAN, turned);
    expect(found).toMatchObject({ added: [], dropped: [], changed: [], context: {} });
  });

  it("tells an item that moved from one that changed", () => {
    const after = { ...ORGAN, items: [...ORGAN.items].reverse() };
    const found = difference(ORGAN, after);
    expect(found).toMatchObject({ added: [], dropped: [], changed: [] });
    expect(found.order).toEqual(after.items.map(({ id }) => id));
  });

  it("needs the revision it was taken from: on another it does not give the later one", () => {
    const after = { ...ORGAN, items: ORGAN.items.slice(1) };
    const other = { ...ORGAN, unit: { ...ORGAN.unit, grade: "sound" } };
    expect(applied(other, difference(ORGAN, after))).not.toEqual(after);
  });
});

describe("canonical text", () => {
  it("is one for all orders of keys, and leaves out what is not there", () => {
    expect(canonical({ b: 1, a: [{ d: 2, c: undefined }] })).toBe('{"a":[{"d":2}],"b":1}');
    expect(canonical({ a: [{ d: 2 }], b: 1 })).toBe('{"a":[{"d":2}],"b":1}');
  });

  it("orders keys that look like numbers as texts too, so that another program can write the same", () => {
    expect(canonical({ 9: 1, 10: 2, __proto__x: 3 })).toBe('{"10":2,"9":1,"__proto__x":3}');
    expect(canonical(JSON.parse('{"__proto__":{"b":1,"a":2}}'))).toBe('{"__proto__":{"a":2,"b":1}}');
  });

  it("keeps the order of lists and tells null from nothing", () => {
    expect(same([1, 2], [2, 1])).toBe(false);
    expect(canonical({ a: null })).toBe('{"a":null}');
    expect(same({ a: null }, {})).toBe(false);
  });

  it("reads back as the same value", () => {
    fc.assert(fc.property(fc.jsonValue(), (value) => same(JSON.parse(canonical(value)), value)));
  });
});

it("names work by its place, what is done, its part and how many, each where there is one", () => {
  const input = job({ kinds: [{ id: "cap", type: "capacitor", name: "Cap, 10 µF" }] });
  expect(workName(item("a"), input)).toBe("clean");
  expect(workName(on("lid", "a", { count: 2 }), input)).toBe("Lid: clean × 2");
  expect(workName(on("lid", "a", { operation: "replace", part: { kind: "cap" } }), input)).toBe("Lid: replace, Cap, 10 µF");
  expect(workName(item("a", { operation: "replace", part: { type: "valve" }, count: 3 }), input)).toBe("replace, valve × 3");
  expect(workName({ ...item("a"), own: { name: "Mend", price: 5 } }, input)).toBe("Mend");
});
