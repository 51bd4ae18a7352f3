import { expect, it } from "vitest";
import type { Hazard } from "../../src/estimating/input.js";
import { cautionAlone, DEFER, ownerCautionText } from "../../src/wording/caution.js";

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
