/** From which offers the pieces of one part are bought for several jobs: demo offers, by hand. */
import { describe, expect, it } from "vitest";
import type { Offer } from "../../../src/estimating/input.js";
import type { Claim } from "../../../src/estimating/parts/jobParts.js";
import type { FreightPaid } from "../../../src/estimating/parts/lot.js";
import { buyFor } from "../../../src/estimating/parts/orderOffers.js";
import { PLAIN } from "../cast/plainBook.js";

const offer = (id: string, price: number, more: Partial<Offer> = {}): Offer => ({
  ...{ id, kind: "film", source: `Source of ${id}`, on: "2026-11-01", currency: "EUR", price, packSize: 1, leadDays: 4 },
  state: "new",
  ...more,
});
const claim = (who: string, toGet: number, ...buys: readonly (readonly [offer: string, pieces: number])[]): Claim => ({
  ...{ job: who, currency: "EUR", pieces: toGet, part: { type: "capacitor", kind: "film", name: "Film" } },
  ...{ fromStock: 0, onOrder: 0, toGet, buys: buys.map(([id, pieces]) => ({ offer: id, pieces })) },
});
const bought = (claims: readonly Claim[], offers: readonly Offer[], level = 0.5, paid: FreightPaid = new Map()) =>
  buyFor(claims, offers, { scarcity: { ...PLAIN.scarcity, serviceLevel: level }, pullRatePerHour: 6000 }, paid).map(
    ({ offer: { id }, pieces, jobs }) => [id, pieces, jobs.map((one) => `${one.job} ${one.pieces}`).join(", ")],
  );

describe("offers bought from for all jobs", () => {
  it("are the newest of each source and state: an older, cheaper price there is gone", () => {
    const old = offer("old", 10, { source: "Tarnbeck", on: "2026-06-01" });
    const now = offer("now", 230, { source: "Tarnbeck" });
    expect(bought([claim("J1", 2)], [old, now, offer("near", 200)])).toEqual([["near", 2, "J1 2"]]);
    expect(bought([claim("J1", 2)], [old, now, offer("near", 240)])).toEqual([["now", 2, "J1 2"]]);
    // Another state of the same source is another way to buy.
    expect(bought([claim("J1", 2)], [{ ...old, state: "reproduction" }, now])).toEqual([["old", 2, "J1 2"]]);
    expect(bought([claim("J1", 2, ["old", 2])], [old, now, offer("near", 200)])).toEqual([["now", 2, "J1 2"]]);
  });

  it("give their spare pieces to a job whose sheet bought none, however cheap another is", () => {
    const offers = [offer("tens", 450, { packSize: 10 }), offer("ones", 1)];
    expect(bought([claim("J1", 6, ["tens", 6]), claim("J2", 3)], offers)).toEqual([["tens", 9, "J1 6, J2 3"]]);
    expect(bought([claim("J1", 6, ["tens", 6]), claim("J2", 3), claim("J3", 4)], offers)).toEqual([
      ["tens", 10, "J1 6, J2 3, J3 1"],
      ["ones", 3, "J3 3"],
    ]);
  });

  it("have no more than they offer: what one job leaves of it is for the next", () => {
    const offers = [offer("few", 100, { available: 5 }), offer("many", 300)];
    expect(bought([claim("J1", 3, ["few", 3]), claim("J2", 4)], offers)).toEqual([
      ["few", 5, "J1 3, J2 2"],
      ["many", 2, "J2 2"],
    ]);
    expect(bought([claim("J1", 3, ["few", 3]), claim("J2", 2)], offers)).toEqual([["few", 5, "J1 3, J2 2"]]);
    expect(bought([claim("J1", 7, ["few", 7])], [offer("few", 100, { available: 5 })])).toEqual([["few", 5, "J1 5"]]);
  });

  it("are not bought where the spare pieces of a larger purchase just cover them, whichever came first", () => {
    const offers = [offer("tens", 450, { packSize: 10 }), offer("ones", 60)];
    const [large, small] = [claim("J1", 6, ["tens", 6]), claim("J2", 4, ["ones", 4])];
    expect(bought([large, small], offers)).toEqual([["tens", 10, "J1 6, J2 4"]]);
    expect(bought([small, large], offers)).toEqual([["tens", 10, "J1 6, J2 4"]]);
    expect(bought([large, claim("J2", 5, ["ones", 5])], offers)).toEqual([
      ["tens", 6, "J1 6"],
      ["ones", 5, "J2 5"],
    ]);
    expect(bought([large, claim("J1", 2, ["ones", 2])], offers)).toEqual([["tens", 8, "J1 8"]]);
  });

  it("that may be bad are planned with the freight that is still to be paid", () => {
    // Seven of ten are good, one does for half the jobs: 1.00 and 3.00 of freight, or 2.00.
    const offers = [offer("far", 100, { state: "used", freight: 300 }), offer("near", 200, { state: "used" })];
    const paid = (amount: number): FreightPaid => new Map([["Source of far", { amount, from: [] }]]);
    expect(bought([claim("J1", 1, ["far", 1])], offers)).toEqual([["near", 1, "J1 1"]]);
    expect(bought([claim("J1", 1, ["far", 1])], offers, 0.5, paid(300))).toEqual([["far", 1, "J1 1"]]);
    expect(bought([claim("J1", 1, ["far", 1])], offers, 0.5, paid(150))).toEqual([["near", 1, "J1 1"]]);
    expect(bought([claim("J1", 1, ["far", 1])], offers, 0.5, paid(250))).toEqual([["far", 1, "J1 1"]]);
  });

  it("pay the freight of their sources, once and the highest", () => {
    const paid: FreightPaid = new Map();
    bought([claim("J1", 2)], [offer("a", 100, { freight: 390 })], 0.5, paid);
    expect([...paid].map(([source, { amount }]) => [source, amount])).toEqual([["Source of a", 390]]);
    // 2.00 and 3.90 of freight that is paid already, against 2.40 each.
    expect(bought([claim("J2", 2)], [offer("a", 200, { freight: 390 }), offer("b", 240)], 0.5, paid)).toEqual([["a", 2, "J2 2"]]);
    expect(bought([claim("J2", 2)], [offer("a", 200, { freight: 390 }), offer("b", 240)])).toEqual([["b", 2, "J2 2"]]);
  });
});
