/** A small invented organ: a lid over a top board over a low board; a panel and a loom that come out together; a back with a rail. */
import { estimate } from "../../../src/estimating/estimate.js";
import type { Assembly, EstimateInput, FastenerKind, FitBefore, WorkItem } from "../../../src/estimating/input.js";
import type { Line, Sheet } from "../../../src/estimating/sheet.js";
import { PLAIN } from "./plainBook.js";

export const assembly = (id: string, given: Partial<Assembly> = {}, screws = 1, kind: FastenerKind = "screw"): Assembly => ({
  id,
  name: id.charAt(0).toUpperCase() + id.slice(1),
  sort: "board",
  access: { by: "fasteners", fasteners: [{ kind, count: screws }] },
  ...given,
});

/** One screw takes 1 minute off and 2 on: each assembly costs 3 minutes for each of its screws. */
export const ORGAN: readonly Assembly[] = [
  assembly("lid", {}, 4),
  assembly("top", { behind: ["lid"] }, 2),
  assembly("low", { behind: ["top"] }, 1),
  assembly("panel", { behind: ["lid"], joined: ["loom"] }, 3),
  assembly("loom", {}, 5),
  assembly("back", {}, 6),
  assembly("rail", { behind: ["back"] }, 1),
];

export const fitBefore = (first: string, later: string): FitBefore => {
  // biome-ignore lint/suspicious/noThenProperty: the map's own word for what goes back later
  return { first, then: later };
};

export const item = (id: string, given: Partial<WorkItem> = {}): WorkItem => ({
  id,
  operation: "clean",
  count: 1,
  certainty: { is: "planned" },
  ...given,
});

export const on = (where: string, id = `work on ${where}`, given: Partial<WorkItem> = {}): WorkItem =>
  item(id, { assembly: where, ...given });

export const job = (given: Partial<EstimateInput> = {}): EstimateInput => ({
  schema: 1,
  asOf: "2026-11-25",
  currency: "EUR",
  unit: { maker: "Threnwick", model: "Cadence 3", grade: "sound" },
  map: { assemblies: ORGAN },
  items: [],
  rateBook: PLAIN,
  ...given,
});

/** The sheet; the test fails on problems. */
export function sheet(given: Partial<EstimateInput> = {}): Sheet {
  const outcome = estimate(job(given));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
}

export const problemsOf = (input: EstimateInput) => {
  const outcome = estimate(input);
  return outcome.ok ? [] : outcome.problems;
};

export const lineOf = ({ lines }: Sheet, id: string): Line => {
  const line = lines.find((each) => each.id === id);
  if (!line) throw new Error(`No line ${id} among ${lines.map((each) => each.id).join(", ")}`);
  return line;
};

export const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);

export const accessCost = ({ lines }: Sheet): number =>
  sum(lines.filter(({ sort }) => sort === "access").map(({ amount }) => amount));
