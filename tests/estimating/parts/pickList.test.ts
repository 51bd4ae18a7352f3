/** What to fetch for one job, on the small invented organ with demo offers: by hand. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer } from "../../../src/estimating/input.js";
import type { Claim } from "../../../src/estimating/parts/jobParts.js";
import { pickList } from "../../../src/estimating/parts/pickList.js";
import { item, job, on, sheet } from "../cast/organ.js";

const MAYBE = { is: "if found", probability: 0.5 } as const;
const replace = { operation: "replace" } as const;
const offer: Offer = {
  ...{ id: "o", kind: "film", source: "Pindrake", on: "2026-11-20", currency: "EUR", price: 240, packSize: 1, leadDays: 4 },
  state: "new old stock",
};
const given: Partial<EstimateInput> = {
  kinds: [
    { id: "film", type: "capacitor", name: "Film, 1 µF", stock: 1 },
    { id: "tube", type: "valve", name: "Tube" },
  ],
  offers: [offer, { ...offer, id: "other", kind: "tube", source: "Tarnbeck", state: "used" }],
  items: [
    item("spare", { ...replace, part: { type: "valve" }, count: 2 }),
    on("outside", "knob", { ...replace, part: { kind: "film" }, count: 1 }),
    on("low", "caps", { ...replace, part: { kind: "film" }, count: 4 }),
    on("lid", "lamp", { ...replace, part: { type: "valve" }, count: 3 }),
    on("low", "maybe", { ...replace, part: { kind: "film" }, count: 5, certainty: MAYBE }),
  ],
};
/** A knob that is reached from outside: on the map, with nothing in the way and nothing to take off. */
const withOutside: Partial<EstimateInput> = {
  ...given,
  map: { assemblies: [...job().map!.assemblies, { ...job().map!.assemblies[0]!, id: "outside", name: "Outside" }] },
  alreadyOpen: ["outside"],
};
const claim = (kind: string, fromStock: number, onOrder: number, toGet: number): Claim => ({
  ...{ job: "J1", currency: "EUR", pieces: fromStock + onOrder + toGet, part: { type: "capacitor", kind, name: kind }, buys: [] },
  ...{ fromStock, onOrder, toGet },
});
const listOf = (logged: Readonly<Record<string, number>> = {}) =>
  pickList(
    job(withOutside),
    sheet(withOutside),
    new Map(Object.entries(logged)),
    [claim("tube", 7, 8, 9), claim("film", 1, 2, 3)],
    new Map([
      ["tube", 6],
      ["film", 1],
    ]),
  );
const film = (logged?: Readonly<Record<string, number>>) => listOf(logged).parts.find(({ part }) => part.kind === "film")!;
const takes = (logged?: Readonly<Record<string, number>>) =>
  listOf(logged).assemblies.map(({ id, name, takes: some }) => [id, name, some.map((take) => take.item)]);

describe("a pick list", () => {
  it("has of a part what planned work needs, what is there for this job and what is still to get", () => {
    expect(film()).toMatchObject({
      ...{ part: { kind: "film", name: "Film, 1 µF" }, kind: { id: "film" }, stock: 1 },
      ...{ needed: 5, used: 0, wanted: 5, ifFound: 5, fromStock: 1, onOrder: 2, toGet: 3 },
      // One from the shelf, so four were bought.
      from: [{ source: "Pindrake", state: "new old stock", pieces: 4 }],
    });
  });

  it("counts what was used up, and possible work once anything of it was logged", () => {
    expect(film({ caps: 3 })).toMatchObject({ needed: 5, used: 3, wanted: 2, ifFound: 5 });
    expect(film({ caps: 3, maybe: 1 })).toMatchObject({ needed: 10, used: 4, wanted: 6, ifFound: 0 });
    expect(film({ maybe: 0 })).toMatchObject({ needed: 10, used: 0, wanted: 10, ifFound: 0 });
  });

  it("knows no shelf, claim or offer of what is counted by type only", () => {
    const part = listOf().parts.find(({ part: { kind } }) => kind === undefined)!;
    expect(part).toMatchObject({ needed: 5, fromStock: 0, onOrder: 0, toGet: 0, from: [] });
    expect("kind" in part || "stock" in part).toBe(false);
  });

  it("has a shelf of nothing where nobody counted", () => {
    const list = pickList(job(withOutside), sheet(withOutside), new Map(), [], new Map());
    expect(list.parts.find(({ part }) => part.kind === "film")).toMatchObject({ stock: 0, fromStock: 0, onOrder: 0, toGet: 0 });
  });

  it("goes through the unit as it is opened, then what is reached from outside, then the unit as a whole", () => {
    expect(takes()).toEqual([
      ["lid", "Lid", ["lamp"]],
      ["low", "Low", ["caps", "maybe"]],
      ["outside", "Outside", ["knob"]],
      [undefined, "The unit as a whole", ["spare"]],
    ]);
  });

  it("says at each place how many pieces, how many are used, and what is only if found", () => {
    const low = (logged?: Readonly<Record<string, number>>) => listOf(logged).assemblies.find(({ id }) => id === "low")!.takes;
    const part = { type: "capacitor", kind: "film", name: "Film, 1 µF" };
    expect(low()).toEqual([
      { item: "caps", part, count: 4, used: 0 },
      { item: "maybe", part, count: 5, used: 0, ifFound: true },
    ]);
    expect(low({ caps: 2, maybe: 0 })).toEqual([
      { item: "caps", part, count: 4, used: 2 },
      { item: "maybe", part, count: 5, used: 0 },
    ]);
  });

  it("remarks on a part what the sheet warns of its work or of itself, and nothing of others", () => {
    const warned = sheet(withOutside);
    const own = { is: "polarised", item: "caps", part: "Film, 1 µF" } as const;
    const offers = { is: "not enough offered", part: "Film, 1 µF", needed: 5, offered: 4 } as const;
    const others = [
      { is: "polarised", item: "lamp", part: "Film, 1 µF" },
      { is: "not enough offered", part: "valve", needed: 5, offered: 4 },
      { is: "memory not asked" },
    ] as const;
    const list = pickList(job(withOutside), { ...warned, warnings: [own, ...others, offers] }, new Map(), [], new Map());
    expect(list.parts.find(({ part }) => part.kind === "film")!.remarks).toEqual([own, offers]);
  });
});
