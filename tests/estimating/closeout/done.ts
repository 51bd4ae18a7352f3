/** Jobs that are done, on the small invented organ and on any input there is; people and times invented. */
import fc from "fast-check";
import type { JobDone, NumberedRevision } from "../../../src/estimating/closeout/jobDone.js";
import type { PartUsed, TimeEntry, Work, WorkLog } from "../../../src/estimating/closeout/log/workLog.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { partOf } from "../../../src/estimating/resolve.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { item, job, on } from "../cast/organ.js";

export function sheetOf(input: EstimateInput): Sheet {
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
}

export const revisionOf = (input: EstimateInput, revision = 1): NumberedRevision => ({ revision, input, sheet: sheetOf(input) });

/** Clean on the top board, four capacitors there, one voice on the low board; a valve on the panel that may be needed. */
export const ITEMS: readonly WorkItem[] = [
  on("top", "clean", { count: 5 }),
  on("top", "caps", { operation: "replace", part: { type: "capacitor" }, count: 4 }),
  on("low", "voice", { operation: "adjust" }),
  on("low", "valve", { operation: "replace", part: { type: "valve" }, certainty: { is: "if found", probability: 0.3 } }),
  on("rail", "oil", { certainty: { is: "optional", chosen: false } }),
];
export const INPUT: EstimateInput = job({ items: ITEMS });

let entries = 0;
const id = () => {
  entries += 1;
  return `entry ${entries}`;
};
export const workOn = (where: string): Work =>
  where.startsWith("open ")
    ? { is: "access", assembly: where.slice(5) }
    : where === "open"
      ? { is: "access" }
      : { is: "item", id: where };
export const minutes = (where: string, taken: number, given: Partial<TimeEntry> = {}): TimeEntry =>
  ({ id: id(), work: workOn(where), person: "Ines", minutes: taken, ...given }) as TimeEntry;
export const timer = (where: string, startedAt: string, endedAt?: string, given: Partial<TimeEntry> = {}): TimeEntry =>
  ({ id: id(), work: workOn(where), person: "Ines", startedAt, ...(endedAt && { endedAt }), ...given }) as TimeEntry;
export const used = (forItem: string, count: number, price: number, given: Partial<PartUsed> = {}): PartUsed => ({
  id: id(),
  item: forItem,
  part: { type: "capacitor" },
  count,
  paid: { price, per: 1 },
  state: "new",
  ...given,
});

export const done = (log: Partial<WorkLog>, given: Partial<JobDone> = {}): JobDone => ({
  revisions: [revisionOf(INPUT)],
  found: [],
  done: {},
  log: { time: [], parts: [], ...log },
  ...given,
});

/** As much time and as many pieces as the sheet has, at what the offers or the rate book say they cost. */
export function exactly(sheet: Sheet, input: EstimateInput): WorkLog {
  const time = sheet.lines.flatMap((line): TimeEntry[] => {
    if (line.sort === "access")
      return [minutes(line.id.startsWith("access:boards") ? "open" : `open ${line.assembly!.id}`, line.minutes!)];
    return line.id.startsWith("labour:") ? [minutes(line.id.slice(7), line.minutes!)] : [];
  });
  const parts = input.items.flatMap(({ id: forItem, part, count }) =>
    part && "type" in part && count > 0 && sheet.lines.some(({ id: line }) => line === `labour:${forItem}`)
      ? [used(forItem, count, input.rateBook.partTypes.find(({ id: type }) => type === part.type)!.typicalCost, { part })]
      : [],
  );
  return { time, parts };
}

/** Any log on an input that can be priced: some work not logged, some taken in several goes, some people dearer, parts at any price. */
export const anyLog = (input: EstimateInput, sheet: Sheet): fc.Arbitrary<WorkLog> => {
  const access = [...sheet.access.removal.map(({ id: assembly }) => `open ${assembly}`), "open"];
  const items = input.items.filter(({ certainty }) => certainty.is !== "optional" || certainty.chosen);
  const classes = [undefined, ...input.rateBook.labourClasses.map(({ id: labourClass }) => labourClass)];
  const override = { reason: "the owner was on the telephone", by: "Ines" };
  const time = fc
    .record({
      where: fc.constantFrom(...access, ...items.map(({ id: one }) => one)),
      milli: fc.integer({ min: 0, max: 300_000 }),
      person: fc.constantFrom("Ines", "Oskar"),
      labourClass: fc.constantFrom(...classes),
    })
    .map(({ where, milli, person, labourClass }) =>
      minutes(where, milli / 1000, { person, ...(labourClass !== undefined && { labourClass }) }),
    );
  const takers = items.filter(({ part }) => part !== undefined);
  const parts = fc
    .record({
      taker: fc.constantFrom(...(takers.length > 0 ? takers : [item("none")])),
      count: fc.integer({ min: 1, max: 40 }),
      price: fc.nat(9000),
      per: fc.integer({ min: 1, max: 12 }),
      other: fc.constantFrom("own", "own", "own", "instead", "strange"),
    })
    .map(({ taker, count, price, per, other }) =>
      used(taker.id, count, price, {
        paid: { price, per },
        part: other === "own" ? partOf(taker)! : { type: "dip-40" },
        ...(other !== "own" && { override }),
        ...(other === "instead" && { insteadOf: true as const }),
      }),
    );
  return fc.record({ time: fc.array(time, { maxLength: 14 }), parts: fc.array(parts, { maxLength: takers.length > 0 ? 8 : 0 }) });
};
