/** What a closed job says about the rate book: each piece of work's minutes beside its standard, and what that standard rests on. */
import { check } from "../../check/check.js";
import type { EstimateInput, Minor, Minutes, RateBook, ThreePoint } from "../../input.js";
import { inMilli, inMinutes, type LabourLine, sumOfTimes } from "../../labour/times.js";
import { fromMilli, toMilli } from "../../money/scales.js";
import { pricedInput } from "../../pricing/total.js";
import { lineIdOf, milliDone, workDone } from "../actual/workDone.js";
import { coverage } from "../log/covered.js";
import type { WorkLog } from "../log/workLog.js";
import { type Standard, standardId } from "./standard.js";
import { standardsBehind } from "./standardsBehind.js";

export interface ClosedJob {
  readonly job: string;
  /** As it was allowed: agreed, found and done (`allowedFor`). */
  readonly input: EstimateInput;
  /** Without problems. */
  readonly log: WorkLog;
}

export interface Observation {
  readonly job: string;
  /** Maker and model. */
  readonly model: string;
  /** Condition grade's id. */
  readonly grade: string;
  /** Id of the sheet's line. */
  readonly line: string;
  readonly minutes: Minutes;
  /** By the rate book in question, condition grade included. */
  readonly standard: ThreePoint;
  /** The standards it is made of, before the condition grade. */
  readonly rests: readonly { readonly standard: Standard; readonly time: ThreePoint }[];
  /** Minor units per hour. */
  readonly ratePerHour: Minor;
}

export const modelOf = ({ unit: { maker, model } }: Pick<EstimateInput, "unit">): string => `${maker} ${model}`;

/**
 * Attended work with time logged, by the standards of `rateBook`, whichever book the job was priced by. Work timed by its own or by
 * measured minutes says nothing of a standard and is left out. Undefined: the job cannot be priced by this book.
 */
export function observationsOf({ job, input, log }: ClosedJob, rateBook: RateBook): readonly Observation[] | undefined {
  const { pricing: _, ...policy } = input.policy ?? {};
  const now = { ...input, rateBook, policy };
  if (check(now).length > 0) return undefined;
  const { priced, workings } = pricedInput(now);
  const labourOf = new Map<string, LabourLine>([...priced.access, ...priced.labour].map((each) => [each.line.id, each]));
  const restsOn = standardsBehind(now, priced.items, priced.opened);
  const named = new Set(log.time.map(({ work }) => lineIdOf(work)));
  const observed = workDone(log, priced, now, coverage(now, now)).flatMap(({ line, portions, agreed }): Observation[] => {
    const labour = labourOf.get(line.id);
    const rests = restsOn.get(line.id) ?? [];
    const milli = milliDone({ portions });
    if (!agreed || !labour?.attended || rests.length === 0 || milli <= 0 || labour.times.likely <= 0) return [];
    return [
      {
        job,
        model: modelOf(input),
        grade: workings.grade.is.id,
        line: line.id,
        minutes: fromMilli(milli),
        standard: inMinutes(labour.times),
        rests: rests.map(({ standard, milli: time }) => ({ standard, time: inMinutes(time) })),
        ratePerHour: workings.book.classes.get(labour.labourClass)!.is.ratePerHour,
      },
    ];
  });
  const apart = ({ line }: Observation) => named.has(line) || !line.startsWith("access:");
  return [...observed.filter(apart), ...together(observed.filter((each) => !apart(each)))];
}

/** Opening that was not told apart is one observation of all that was opened. */
function together(opened: readonly Observation[]): Observation[] {
  const [first] = opened;
  if (!first) return [];
  const sum = (all: readonly ThreePoint[]) => inMinutes(sumOfTimes(all.map(inMilli)));
  const byStandard = new Map<string, { standard: Standard; time: ThreePoint }>();
  for (const { standard, time } of opened.flatMap(({ rests }) => rests)) {
    const key = standardId(standard);
    byStandard.set(key, { standard, time: sum([time, byStandard.get(key)?.time ?? NOTHING]) });
  }
  return [
    {
      ...first,
      line: "access",
      minutes: fromMilli(opened.reduce((total, { minutes }) => total + toMilli(minutes), 0)),
      standard: sum(opened.map(({ standard }) => standard)),
      rests: [...byStandard.values()],
    },
  ];
}
const NOTHING: ThreePoint = { low: 0, likely: 0, high: 0 };
