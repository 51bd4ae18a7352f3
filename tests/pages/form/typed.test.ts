import { describe, expect, it } from "vitest";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { resolve } from "../../../src/estimating/resolve.js";
import { missingCompanions } from "../../../src/estimating/sheet/companions.js";
import { act } from "../../../src/pages/form/act/act.js";
import { fieldsFrom } from "../../../src/pages/form/fields.js";
import { readForm } from "../../../src/pages/form/readForm.js";
import { listedLine, typedLine } from "../../../src/pages/form/typedLine.js";
import { bench } from "../cast/bench.js";

const form = (pairs: Record<string, string>) => fieldsFrom(Object.entries(pairs));
const BOARD = { "assembly.a1.name": "Voice board", "meta.at": "a1" };

describe("a line as one types it", () => {
  it.each([
    ["12 film capacitor", "12", "film capacitor"],
    ["12 x Film capacitor", "12", "Film capacitor"],
    ["film capacitors x 4", "4", "film capacitors"],
    ["Test every function", "1", "Test every function"],
    ["100 uF, 50 V, low leakage", "1", "100 uF, 50 V, low leakage"],
    ["3 weights rebushed", "3", "weights rebushed"],
    ["6SN7 tested", "1", "6SN7 tested"],
    ["5 resistor", "5", "resistor"],
    ["2 resistors", "2", "resistors"],
    ["1,200 film capacitors", "1200", "film capacitors"],
    ["1.200 x Film capacitor", "1200", "Film capacitor"],
    ["film capacitors x 1 200", "1200", "film capacitors"],
    ["1\u00a0200 film capacitors", "1200", "film capacitors"],
    ["3 470 ohm parts", "3", "470 ohm parts"],
    ["1 x 200 film capacitors", "1", "200 film capacitors"],
  ])("%s", (text, count, what) => {
    expect(typedLine(text, bench)).toEqual({ count, what });
  });

  it.each([
    ["Film capacitor\t12", "12", "Film capacitor"],
    ["12;Film capacitor", "12", "Film capacitor"],
    ["C1, C2, C7;Film capacitor", "3", "Film capacitor"],
    ["C1,C2,Film capacitor", "2", "Film capacitor"],
    ["5 resistor", "5", "resistor"],
    ["Recone a driver 1,200.50", "1", "Recone a driver 1,200.50"],
    ["2,Recone a driver 1.200,50", "2", "Recone a driver 1.200,50"],
    ["2;Recone a driver;1 200,50", "2", "Recone a driver 1200,50"],
  ])("of a list: %s", (line, count, what) => {
    expect(listedLine(line, bench)).toEqual({ count, what });
  });

  it("passes over heads and empty lines of a list", () => {
    expect(["Ref;Value;Qty", "", " ; "].map((line) => listedLine(line, bench))).toEqual([undefined, undefined, undefined]);
  });
});

describe("the next line", () => {
  it("is a count of the chosen assembly where that says it all, in the grid as in the lines", () => {
    const { fields, focus } = act("add line", form({ ...BOARD, "next.what": "12 film capacitors" }), bench);
    expect([fields.get("cells.a1.p:film"), fields.get("next.what"), focus]).toEqual(["12", "", "next.what"]);
    expect(readForm(fields, bench).input.items).toMatchObject([{ assembly: "a1", count: 12, part: { type: "film" } }]);
  });

  it.each([
    ["replace film capacitor", "1"],
    ["Replace the film capacitor", "1"],
    ["3 replace film capacitor", "3"],
    ["replace 3 film capacitors", "3"],
  ])("is the part where it says that one is replaced: %s", (text, count) => {
    const { fields } = act("add line", form({ ...BOARD, "next.what": text }), bench);
    expect(fields.get("cells.a1.p:film")).toBe(count);
  });

  it("is a line of its own where something is counted there already", () => {
    const { fields } = act("add line", form({ ...BOARD, "cells.a1.p:film": "4", "next.what": "2 film capacitor" }), bench);
    expect([fields.get("cells.a1.p:film"), fields.get("line.l1.part"), fields.get("line.l1.assembly")]).toEqual([
      "4",
      "Film capacitor",
      "Voice board",
    ]);
  });

  it.each([
    ["1 Renew the mains lead 35.00", { count: "1", operation: "Renew the mains lead", price: "35.00", likely: undefined }],
    ["Renew the mains lead, £35", { count: "1", operation: "Renew the mains lead", price: "35", likely: undefined }],
    ["2 Rebush the spindle 12,50 €", { count: "2", operation: "Rebush the spindle", price: "12,50", likely: undefined }],
    ["Polish the case: 90 min", { count: "1", operation: "Polish the case", price: undefined, likely: "90" }],
    ["Test at 230", { count: "1", operation: "Test at 230", price: undefined, likely: undefined }],
  ])("takes the minutes or the price that one's own words end with: %s", (typed, wanted) => {
    const { fields, focus } = act("add line", form({ "next.what": typed }), bench);
    const said = (leaf: string) => fields.get(`line.l1.${leaf}`);
    expect({ count: said("count"), operation: said("operation"), price: said("price"), likely: said("likely") }).toEqual(wanted);
    expect(focus).toBe((wanted.price ?? wanted.likely) ? "next.what" : "line.l1.likely");
  });

  // Common practice, no source.
  it.each([
    ["Renew the mains lead 35.00", true],
    ["2 Netzkabel erneuern 12,50 €", true],
    ["Fit a longer power cord: 15 min", true],
    ["Schaltnetzteil prüfen 10 min", true],
    ["Steckernetzteil ersetzen 10 min", true],
    ["Ersatznetzteil einbauen 10 min", true],
    ["Netzschalter ersetzen 10 min", true],
    ["NETZANSCHLUSS prüfen 10 min", true],
    ["Stromkabel ersetzen 10 min", true],
    ["Neuer Kaltgerätestecker 10 min", true],
    ["New power-cord 10 min", true],
    ["Shorten the powercord 10 min", true],
    ["Resolder the IEC inlet 10 min", true],
    ["Replace the line cord 10 min", true],
    ["Headphone line cable 10 min", false],
    ["Guitar line lead 10 min", false],
    ["Netzhaut kleben 10 min", false],
    ["netzunabhängig betreiben 10 min", false],
    ["Netzwerkkabel prüfen 10 min", false],
    ["Netzwerk prüfen 10 min", false],
    ["Rehang the domains 10 min", false],
    ["Polish the case 10 min", false],
  ])("takes own words about the mains for such work, which asks for the safety test: %s", (typed, isMains) => {
    const { fields, say } = act("add line", form({ "next.what": typed }), bench);
    const { input, problems } = readForm(fields, bench);
    expect([problems, input.items[0]?.own?.hazards]).toEqual([[], isMains ? ["mains and stored charge"] : undefined]);
    expect(say?.includes("Its danger: mains and stored charge.")).toBe(isMains);
    const list = act("add lines", form({ "next.list": typed }), bench);
    expect(list.say?.includes(" 1 has its danger: mains and stored charge.")).toBe(isMains);
    const after = { operation: "inspect", after: { hazards: ["mains and stored charge"] }, reason: "as usual" } as const;
    const rateBook = { ...bench.rateBook, companions: [after] };
    expect(missingCompanions(resolve({ ...input, rateBook } as EstimateInput))).toHaveLength(isMains ? 1 : 0);
  });

  it.each([
    ["Recone a driver 1.200,50", "1.200,50", 120_050],
    ["Recone a driver 1,200.50", "1,200.50", 120_050],
    ["Recone a driver £1 200.50", "1200.50", 120_050],
    ["Recone a driver £1,200", "1,200", 120_000],
    ["Recone a driver 1'200.50", "1'200.50", 120_050],
    ["Recone a driver 1\u00a0200,50 €", "1200,50", 120_050],
    ["Rewire channel 1, 200.50", "200.50", 20_050],
  ])("reads thousands as they are written elsewhere, where they can be read in one way: %s", (typed, price, minor) => {
    const { fields } = act("add line", form({ "next.what": typed }), bench);
    expect([fields.get("line.l1.price"), fields.get("next.what")]).toEqual([price, ""]);
    const [item] = readForm(fields, bench).input.items;
    expect(item).toMatchObject({
      own: { name: typed.startsWith("Rewire") ? "Rewire channel 1" : "Recone a driver", price: minor },
    });
  });

  it.each([
    ["Rewire channel 1 200.50", "'1 200.50' can be read in two ways; write 1200.50, or put a comma before 200.50."],
    ["Polish the case 1 200 min", "'1 200' can be read in two ways; write 1200, or put a comma before 200."],
    ["1 200 odd capacitors", "'1 200' can be read in two ways; write 1200, or 1 x 200."],
    [
      "Recone a driver £1.200",
      "'1.200' can be read in two ways; write 1.5 for a fraction, and thousands without a sign between.",
    ],
  ])("is not taken, and stays where it was typed, where it can be read in two ways: %s", (typed, why) => {
    const { fields, say, focus } = act("add line", form({ "next.what": typed }), bench);
    expect([fields.get("next.what"), say, focus]).toEqual([typed, `Not added: ${why}`, "next.what"]);
    expect([...fields.keys()].filter((name) => name.startsWith("line."))).toEqual([]);
    expect(readForm(fields, bench).problems).toEqual([{ name: "figure wrong", field: "next.what", why }]);
  });

  it("reads a point between thousands as the shop's country writes it", () => {
    const german = { ...bench, locale: "de-DE" };
    const price = (typed: string) =>
      readForm(act("add line", form({ "next.what": typed }), german).fields, german).input.items[0]?.own?.price;
    expect(price("Membran erneuern 1.200 €")).toBe(120_000);
    expect(price("Membran erneuern 1,200.50")).toBe(120_050);
    expect(price("Membran erneuern 1,200 €")).toBeUndefined();
  });

  it("leaves in the list what can be read in two ways, and takes the rest", () => {
    const list = "12;Film capacitor\nResistor 470,12\nRewire channel 1 200.50";
    const { fields, say, focus } = act("add lines", form({ ...BOARD, "next.list": list }), bench);
    expect(fields.get("cells.a1.p:film")).toBe("12");
    expect(fields.get("next.list")).toBe("Resistor 470,12\nRewire channel 1 200.50");
    expect([say, focus]).toEqual(["1 line was added. 2 are not clear and stay in the list.", "next.list"]);
    expect(readForm(fields, bench).problems).toMatchObject([
      { field: "next.list", why: expect.stringContaining("'470,12' can be read in two ways") },
    ]);
  });

  it.each([
    ["2 film capacitor 1.95", "'Film capacitor' has a price of its own; write it without one, and another price on its line."],
    ["0 film capacitor", "0 of 'film capacitor' is none; give 1 or more."],
  ])("makes no work of a listed part with a price, nor a line of none: %s", (typed, why) => {
    const { fields, say } = act("add line", form({ "next.what": typed }), bench);
    expect([fields.get("next.what"), fields.has("line.l1.operation"), say]).toEqual([typed, false, `Not added: ${why}`]);
  });

  it("asks for minutes or a price of what is on no list", () => {
    const { fields, focus } = act("add line", form({ "next.what": "Age the valves overnight" }), bench);
    expect([fields.get("line.l1.operation"), focus]).toEqual(["Age the valves overnight", "line.l1.likely"]);
    expect(fields.get("meta.open")).toContain("more.l1");
  });

  it("is empty, on the chosen assembly, when nothing is typed", () => {
    const { fields, focus } = act("add line", form(BOARD), bench);
    expect([fields.get("line.l1.assembly"), focus]).toEqual(["Voice board", "line.l1.operation"]);
  });

  it("may be many at once", () => {
    const list = "Qty\tPart\n12\tFilm capacitor\n3 jack\nRebush the shaft; 1\n";
    const { fields, say } = act("add lines", form({ ...BOARD, "next.list": list }), bench);
    expect([fields.get("cells.a1.p:film"), fields.get("cells.a1.p:jack")]).toEqual(["12", "3"]);
    expect(fields.get("line.l1.operation")).toBe("Rebush the shaft");
    expect([fields.get("next.list"), say]).toEqual(["", "3 lines were added. 1 is on no list: give minutes or a price."]);
  });
});

describe("lines", () => {
  const THREE = {
    ...BOARD,
    "line.l1.part": "Resistor",
    "line.l1.assembly": "Voice board",
    "line.l2.part": "Jack",
    "line.l3.part": "Resistor",
    "line.l3.assembly": "Voice board",
  };
  const order = (fields: ReturnType<typeof form>) => Object.keys(readForm(fields, bench).draft.line);

  it("move among those of their place", () => {
    expect(order(act("raise line:l3", form(THREE), bench).fields)).toEqual(["l3", "l2", "l1"]);
    expect(order(act("lower line:l1", form(THREE), bench).fields)).toEqual(["l3", "l2", "l1"]);
    expect(order(act("raise line:l2", form(THREE), bench).fields)).toEqual(["l1", "l2", "l3"]);
  });

  it("take the place of a count of the grid as the same work, under its own id", () => {
    const counted = form({ ...BOARD, "cells.a1.p:film": "4" });
    const { fields } = act("as line:a1.p:film", counted, bench);
    expect(fields.has("cells.a1.p:film")).toBe(false);
    expect(readForm(fields, bench).input.items).toEqual(readForm(counted, bench).input.items);
  });

  it("of the grid are put back as they were counted", () => {
    const { fields } = act("remove cell:a1.p:film", form({ ...BOARD, "cells.a1.p:film": "4" }), bench);
    expect(act("put back", fields, bench).fields.get("cells.a1.p:film")).toBe("4");
  });
});
