/** The rows of the decision table, with demo offers. Common practice, no source. */
import { describe, expect, it } from "vitest";
import { type ScarcityCase, scarcityOf } from "../../../src/estimating/parts/scarcity.js";
import { AS_OF, bookWith, offer } from "./demoShop.js";

const of = (given: Partial<ScarcityCase>) =>
  scarcityOf({ needed: 10, stock: 0, offers: [], asOf: AS_OF, rules: bookWith().scarcity, ...given });

describe("how hard a part is to get", () => {
  it("is what the shop has set by hand, before anything else", () => {
    expect(of({ byHand: "donor only", stock: 99 })).toEqual({ scarcity: "donor only", because: { is: "set by hand" } });
  });

  it("is nothing when the shelf holds enough", () => {
    expect(of({ stock: 10 })).toEqual({ scarcity: "in stock", because: { is: "on the shelf", stock: 10 } });
    expect(of({ stock: 9 }).scarcity).toBe("scarce");
  });

  it("is scarce when nobody offers it", () => {
    expect(of({})).toEqual({ scarcity: "scarce", because: { is: "no offers" } });
  });

  it("is donor only when every fresh offer is a pull from a donor unit", () => {
    const pull = offer("pull", { state: "donor pull" });
    expect(of({ offers: [pull, offer("old", { on: "2020-01-01" })] })).toEqual({
      scarcity: "donor only",
      because: { is: "donor pulls only" },
    });
    expect(of({ offers: [{ ...pull, on: "2020-01-01" }] }).scarcity).toBe("donor only");
  });

  it("is scarce when every offer is old", () => {
    const offers = [offer("a", { on: "2026-07-01" }), offer("b", { on: "2026-07-27" })];
    expect(of({ offers })).toEqual({ scarcity: "scarce", because: { is: "old offers only", newest: "2026-07-27" } });
    expect(of({ offers: [offer("c", { on: "2026-07-28" })] }).scarcity).toBe("to order");
  });

  it("is scarce when the good ones among those offered are too few", () => {
    const used = offer("used", { state: "used", available: 16 });
    // 60 % of used parts are taken to be good: 9 of 16.
    expect(of({ offers: [used, offer("other", { state: "used", available: 0 })] })).toEqual({
      scarcity: "scarce",
      because: { is: "not enough offered", offered: 9, needed: 10 },
    });
    expect(of({ stock: 1, offers: [used, offer("other", { state: "used" })] }).scarcity).toBe("to order");
    expect(of({ offers: [{ ...used, shareGood: 0.29, available: 100 }], needed: 29 }).because.is).toBe("few sources");
  });

  it("is scarce when all the pieces there are have turned out bad, however many are offered", () => {
    const bad = [offer("a", { state: "used", shareGood: 0 }), offer("b", { state: "used", shareGood: 0 })];
    expect(of({ offers: bad }).because).toEqual({ is: "not enough offered", offered: 0, needed: 10 });
  });

  it("is not donor only where one fresh offer is no pull, and to order where one of them is new", () => {
    const both = [offer("pull", { state: "donor pull" }), offer("used", { state: "used" })];
    expect(of({ offers: both }).because).toEqual({ is: "several sources", sources: 2 });
    expect(of({ offers: [...both, offer("new")] }).because).toEqual({ is: "new parts offered", sources: 3 });
    expect(of({ offers: [...both, offer("again", { state: "reproduction" })] }).because.is).toBe("new parts offered");
  });

  it("counts what the shelf has among the pieces offered, just enough being enough", () => {
    const few = offer("a", { available: 7 });
    expect(of({ stock: 3, offers: [few] }).because.is).toBe("new parts offered");
    expect(of({ stock: 2, offers: [few] }).because).toEqual({ is: "not enough offered", offered: 9, needed: 10 });
  });

  it("is to order when anyone still offers it newly made", () => {
    expect(of({ offers: [offer("a")] })).toEqual({ scarcity: "to order", because: { is: "new parts offered", sources: 1 } });
    expect(of({ offers: [offer("a", { state: "reproduction" })] }).scarcity).toBe("to order");
  });

  it("is scarce when few sources have it and none of them new", () => {
    const offers = [
      offer("a", { state: "new old stock", source: "Harbour Surplus" }),
      offer("b", { state: "used", source: "Harbour Surplus" }),
    ];
    expect(of({ offers })).toEqual({ scarcity: "scarce", because: { is: "few sources", sources: 1 } });
    expect(of({ offers: [...offers, offer("c", { state: "used" })] })).toEqual({
      scarcity: "to order",
      because: { is: "several sources", sources: 2 },
    });
  });
});
