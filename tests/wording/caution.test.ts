import { expect, it } from "vitest";
import type { Hazard, Unit } from "../../src/estimating/input.js";
import type { Sheet } from "../../src/estimating/sheet.js";
import { cautionAlone, DEFER, ownerCautionText, ownerSafetyText } from "../../src/wording/caution.js";

const UNIT = { maker: "Quellmarsh", model: "Solivane 61", category: "synthesizer", condition: "sound" } as unknown as Unit;

// General knowledge of the trade, from memory: the word each caution cannot do without.
const ESSENTIAL: Readonly<Record<Hazard, RegExp>> = {
  "mains and stored charge": /Unplug.*discharge.*measure/,
  "valve high tension": /lethal.*[Dd]ischarge/,
  "lithium cells": /Never.*charge/,
  "leaking cells": /gloves.*eye protection/,
  "lead solder": /wash your hands/,
  "solvent vapour": /Ventilate/,
  mercury: /hazardous waste/,
  asbestos: /Do not cut.*licensed firm/,
  selenium: /poisonous fumes/,
  "picture tube": /implode.*[Dd]ischarge/,
};

it.each(Object.entries(ESSENTIAL) as [Hazard, RegExp][])("cautions against %s and defers to local codes", (hazard, essential) => {
  expect(cautionAlone(hazard)).toMatch(essential);
  expect(DEFER).toMatch(/^Follow local codes; leave mains and high-tension work to a qualified person\.$/);
});

it("tells the owner what may be inside, and to leave it closed", () => {
  const text = ownerCautionText(["valve high tension", "lead solder"]);
  expect(text).toContain("valve high tension and lead solder");
  expect(text).toMatch(/Do not open it/);
  expect(text).toMatch(/qualified person\.$/);
});

it("tells an owner of dangers at home and of a memory, and of nothing that endangers the bench alone", () => {
  const sheet = { hazards: [{ hazard: "lead solder", from: [] }] } as unknown as Sheet;
  expect(ownerSafetyText(sheet, UNIT, {})).toBeUndefined();
  const keeps = { ...sheet, memory: { asked: true, cells: ["cell"], saved: [] } } as unknown as Sheet;
  expect(ownerSafetyText(keeps, { ...UNIT, storedData: "forty patches." }, {})).toContain("forty patches");
});
