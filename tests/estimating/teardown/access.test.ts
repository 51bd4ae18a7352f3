import { describe, expect, it } from "vitest";
import { accessCost, assembly, fitBefore, job, lineOf, ORGAN, on, problemsOf, sheet } from "../cast/organ.js";
import { about } from "../cast/plainBook.js";

const removal = (...args: Parameters<typeof sheet>) => sheet(...args).access.removal.map(({ id }) => id);
const refit = (...args: Parameters<typeof sheet>) => sheet(...args).access.refit.map(({ id }) => id);

describe("what comes off", () => {
  it("opens what stands in front, and nothing else", () => {
    expect(removal({ items: [on("low")] })).toEqual(["lid", "top", "low"]);
    expect(removal({ items: [on("rail")] })).toEqual(["back", "rail"]);
    expect(removal({ items: [] })).toEqual([]);
  });

  it("charges access once for two boards behind the same lid", () => {
    // Lid 4 screws, top 2, low 1: 7 screws of 1 + 2 minutes at 1.00.
    expect(accessCost(sheet({ items: [on("low")] }))).toBe(2100);
    expect(accessCost(sheet({ items: [on("low"), on("top")] }))).toBe(2100);
    expect(accessCost(sheet({ items: [on("low"), on("low", "more", { operation: "adjust" }), on("top")] }))).toBe(2100);
  });

  it("takes joined assemblies out together, whichever of them says so", () => {
    expect(removal({ items: [on("loom")] })).toEqual(["lid", "panel", "loom"]);
    expect(removal({ items: [on("panel")] })).toEqual(["lid", "panel", "loom"]);
  });

  it("follows joints of joints", () => {
    const chain = [
      assembly("a", { joined: ["b"] }),
      assembly("b"),
      assembly("c", { joined: ["b"], behind: ["d"] }),
      assembly("d"),
    ];
    expect(removal({ map: { assemblies: chain }, items: [on("a")] })).toEqual(["d", "a", "b", "c"]);
  });

  it("keeps joined assemblies next to each other in both orders", () => {
    const items = [on("low"), on("panel"), on("rail")];
    expect(removal({ items })).toEqual(["lid", "top", "low", "panel", "loom", "back", "rail"]);
    expect(refit({ items })).toEqual(["rail", "back", "loom", "panel", "low", "top", "lid"]);
  });

  it("says why each comes off", () => {
    const { access } = sheet({ items: [on("low"), on("panel")] });
    const why = Object.fromEntries(access.removal.map((step) => [step.id, step.why]));
    expect(why).toEqual({
      lid: [{ rule: "in the way of", of: ["Top", "Panel"] }],
      top: [{ rule: "in the way of", of: ["Low"] }],
      low: [{ rule: "worked" }],
      panel: [{ rule: "worked" }, { rule: "joined to", to: ["Loom"] }],
      loom: [{ rule: "joined to", to: ["Panel"] }],
    });
  });

  it("does not open an assembly for work of no count, for work only possible, or for an option not chosen", () => {
    const items = [
      on("low", "none", { count: 0 }),
      on("top", "maybe", { certainty: { is: "if found", probability: 0.5 } }),
      on("rail", "extra", { certainty: { is: "optional", chosen: false } }),
    ];
    expect(removal({ items })).toEqual([]);
    expect(removal({ items: [on("rail", "extra", { certainty: { is: "optional", chosen: true } })] })).toEqual(["back", "rail"]);
  });
});

describe("what access takes", () => {
  it("adds up fasteners by kind, removal and refit apart", () => {
    const mixed = assembly("mixed", {
      access: {
        by: "fasteners",
        fasteners: [
          { kind: "screw", count: 3 },
          { kind: "ribbon", count: 2 },
          { kind: "clip", count: 0 },
        ],
      },
    });
    const [step] = sheet({ map: { assemblies: [mixed] }, items: [on("mixed")] }).access.removal;
    // Screw: 1 off, 2 on. Ribbon, the seventh kind: 7 off, 8 on.
    expect(step).toMatchObject({ remove: { likely: 3 + 14 }, refit: { likely: 6 + 16 }, rests: "fasteners" });
    expect(step!.fasteners).toEqual([
      { kind: "screw", count: 3 },
      { kind: "ribbon", count: 2 },
    ]);
  });

  it("uses a measured figure where the shop has one", () => {
    const measured = assembly("rail", { access: { by: "measured", remove: about(7), refit: about(11.5) } });
    const result = sheet({ map: { assemblies: [measured] }, items: [on("rail")] });
    expect(lineOf(result, "access:rail")).toMatchObject({ minutes: 18.5, amount: 1850 });
    expect(result.access.minutes).toEqual({ low: 9.25, likely: 18.5, high: 37 });
  });

  it("uses the standard for the size and mounting, and warns how wide it is", () => {
    const panel = assembly("front", { access: { by: "standard", size: "medium", mounting: "behind a panel with knobs" } });
    const result = sheet({ map: { assemblies: [panel] }, items: [on("front")] });
    // Medium behind a panel: 6 minutes off, 7 on.
    expect(lineOf(result, "access:front")).toMatchObject({ minutes: 13, amount: 1300 });
    expect(result.access.removal[0]!.why).toContainEqual({
      rule: "by standard",
      size: "medium",
      mounting: "behind a panel with knobs",
      lowMinutes: 6.5,
      highMinutes: 26,
    });
    expect(result.warnings).toContainEqual({ is: "access by standard", lowMinutes: 6.5, likelyMinutes: 13, highMinutes: 26 });
    expect(sheet({ items: [on("low")] }).warnings).toEqual([]);
  });

  it("names the entries of the rate book that an amount rests on", () => {
    expect(lineOf(sheet({ items: [on("rail")], unit: { maker: "", model: "", grade: "worn" } }), "access:rail").from).toEqual([
      { is: "assembly", id: "rail", name: "Rail" },
      { is: "rate book", entry: "/fasteners/0" },
      { is: "rate book", entry: "/labourClasses/0" },
      { is: "rate book", entry: "/grades/1" },
      { is: "rule", rule: "access charged once per opening" },
    ]);
  });
});

describe("with some of it open already", () => {
  it("charges only what must be opened beyond that", () => {
    const result = sheet({ items: [on("low")], alreadyOpen: ["top"] });
    expect(result.access.removal.map(({ id }) => id)).toEqual(["low"]);
    expect(accessCost(result)).toBe(300);
  });

  it("takes what stands in front of an open assembly as open too", () => {
    expect(sheet({ items: [], alreadyOpen: ["low"] }).access.alreadyOpen).toEqual(["Lid", "Top", "Low"]);
    expect(removal({ items: [on("panel")], alreadyOpen: ["low"] })).toEqual(["panel", "loom"]);
  });

  it("charges no access when everything needed is open", () => {
    const items = [on("low"), on("panel"), on("rail")];
    expect(accessCost(sheet({ items, alreadyOpen: removal({ items }) }))).toBe(0);
  });
});

describe("the order of refitting", () => {
  it("is the removal backwards where nothing else is asked", () => {
    const items = [on("low"), on("panel"), on("rail")];
    expect(refit({ items })).toEqual([...removal({ items })].reverse());
  });

  it("puts back first what the map says must go first", () => {
    const map = { assemblies: ORGAN, fitBefore: [fitBefore("top", "rail")] };
    const order = refit({ map, items: [on("low"), on("rail")] });
    expect(order).toEqual(["low", "top", "rail", "back", "lid"]);
  });

  it("names what each had to wait for, among what was opened", () => {
    const map = { assemblies: ORGAN, fitBefore: [fitBefore("rail", "top")] };
    const { access } = sheet({ map, items: [on("top"), on("rail")] });
    expect(access.refit.map(({ id, after }) => [id, after])).toEqual([
      ["rail", []],
      ["back", ["Rail"]],
      ["top", ["Rail"]],
      ["lid", ["Top"]],
    ]);
    expect(sheet({ map, items: [on("top")] }).access.refit.map(({ id }) => id)).toEqual(["top", "lid"]);
  });
});

describe("maps that no hand can follow", () => {
  const ring = (...assemblies: ReturnType<typeof assembly>[]) => problemsOf(job({ map: { assemblies } }));

  it("names a ring of assemblies that are behind one another", () => {
    expect(ring(assembly("a", { behind: ["b"] }), assembly("b", { behind: ["c"] }), assembly("c", { behind: ["a"] }))).toEqual([
      { name: "behind cycle", cycle: ["A", "B", "C"], pointer: "/map/assemblies" },
    ]);
  });

  it("names an assembly behind itself", () => {
    expect(ring(assembly("a", { behind: ["a"] }))).toMatchObject([{ name: "behind cycle", cycle: ["A"] }]);
  });

  it("finds a ring that closes through joined assemblies, and says which link is the joint", () => {
    expect(ring(assembly("a", { joined: ["b"] }), assembly("b", { behind: ["c"] }), assembly("c", { behind: ["a"] }))).toEqual([
      { name: "behind cycle", cycle: ["B", "C", "A"], joined: [2], pointer: "/map/assemblies" },
    ]);
  });

  it("allows one of two joined assemblies to be in front of the other: they still come out together", () => {
    const assemblies = [assembly("board", { behind: ["panel"], joined: ["panel"] }), assembly("panel")];
    expect(removal({ map: { assemblies }, items: [on("board")] })).toEqual(["panel", "board"]);
    expect(refit({ map: { assemblies }, items: [on("board")] })).toEqual(["board", "panel"]);
  });

  it("names a ring of 'fit before' and 'behind'", () => {
    const map = { assemblies: ORGAN, fitBefore: [fitBefore("lid", "low")] };
    expect(problemsOf(job({ map }))).toEqual([
      { name: "fit before cycle", cycle: ["Low", "Top", "Lid"], pointer: "/map/fitBefore" },
    ]);
  });

  it("finds a 'fit before' ring through joined assemblies", () => {
    const rules = [fitBefore("panel", "back"), fitBefore("back", "loom")];
    const [problem] = problemsOf(job({ map: { assemblies: ORGAN, fitBefore: rules } }));
    if (problem?.name !== "fit before cycle") throw new Error(problem?.name);
    const { cycle, joined = [] } = problem;
    expect([...cycle].sort()).toEqual(["Back", "Loom", "Panel"]);
    expect(joined.map((i) => [cycle[i], cycle[(i + 1) % 3]])).toEqual([["Loom", "Panel"]]);
  });
});
