/** Dangers, for whoever is at the bench and for the owner at home. */
import type { Hazard, Unit } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { englishOfSheet as english, type SpokenOfSheet } from "./english/sheet.js";
import { listed } from "./list.js";

/** General knowledge of the trade, not a standard quoted. */
const TEXT: Readonly<Record<Hazard, string>> = {
  "mains and stored charge":
    "Unplug, wait, discharge the reservoir capacitors through a resistor and measure before touching anything. Use an isolation transformer for live work and test earth and insulation afterwards.",
  "valve high tension":
    "Valve equipment holds a lethal voltage, also after it is switched off. Discharge the high-tension supply through a resistor, measure it, and keep one hand clear.",
  "lithium cells":
    "Save what a cell keeps in memory before it comes out. Never heat, short or charge a primary cell; insulate the terminals of old ones and hand them to battery collection.",
  "leaking cells":
    "Leaked electrolyte burns skin and eats copper. Wear gloves and eye protection, neutralise and rinse before working on the board, and keep the waste apart.",
  "lead solder":
    "Old joints and much repair solder contain lead. Draw the fumes off, do not eat or drink at the bench, and wash your hands.",
  "solvent vapour":
    "Cleaning solvents burn and their vapour is harmful. Ventilate, keep flames and hot irons away, and let the parts dry before power is applied.",
  mercury:
    "Mercury switches and relays must stay whole and level. Air the room if one breaks, collect every drop, and hand it to hazardous waste collection.",
  asbestos:
    "Old heat shields and linings may be asbestos. Do not cut, brush or blow them; stop, leave them undisturbed and have them tested and removed by a licensed firm.",
  selenium:
    "A failing selenium rectifier gives off poisonous fumes. Switch off, air the room, leave it, and dispose of the rectifier as hazardous waste.",
  "picture tube":
    "A picture tube holds a high voltage for a long time and can implode. Discharge the anode to the chassis through a resistor, wear eye protection and do not knock the neck.",
};

/** Said once under any list of cautions. */
export const DEFER = "Follow local codes; leave mains and high-tension work to a qualified person.";

/** The usual caution for a hazard in a list that ends with DEFER. */
export const cautionAlone = (hazard: Hazard): string => TEXT[hazard];

/** Where it comes from, and whether that is only taken to be so. */
export const dangerFrom = ({ from, assumed }: Sheet["hazards"][number]): string =>
  listed(from) + (assumed ? "; nobody has said what it runs on, so it counts as mains powered" : "");

/** At the bench, wherever a cell is worked on. */
export const SAVE_FIRST = "Save the memory first";
export const saveFirstText = ({ storedData }: Unit): string =>
  `While the unit is closed and its cell in place, copy what it remembers${storedData ? ` (${storedData})` : "; nobody has asked what that is"}.`;
export const ONLY_SAVED = "Only after the memory is saved.";

/** What the owner should be told of a memory that may be lost. */
const ownerMemoryText = ({ storedData = "" }: Unit, { words = english }: SpokenOfSheet = {}): string =>
  words.dangers.memory(storedData.trim().replace(/[.]+$/, ""));

/** What the owner should know about the unit at home; general knowledge of the trade, not a standard quoted. */
export const ownerCautionText = (hazards: readonly Hazard[], { words = english }: SpokenOfSheet = {}): string =>
  words.dangers.atHome(
    listed(
      hazards.map((hazard) => words.dangers.names[hazard]),
      words.lists.and,
    ),
  );

/** Solder and solvents endanger the bench, not the owner. */
const BENCH_ONLY: readonly Hazard[] = ["lead solder", "solvent vapour"];

/** Both in one text, where there is anything to say. */
export function ownerSafetyText(sheet: Sheet, unit: Unit, spoken: SpokenOfSheet): string | undefined {
  const hazards = sheet.hazards.map(({ hazard }) => hazard).filter((hazard) => !BENCH_ONLY.includes(hazard));
  const said = [
    ...(hazards.length === 0 ? [] : [ownerCautionText(hazards, spoken)]),
    ...(sheet.memory ? [ownerMemoryText(unit, spoken)] : []),
  ];
  return said.length === 0 ? undefined : said.join(" ");
}
