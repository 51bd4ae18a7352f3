/**
 * What the very same work came to a while ago. An issued revision is looked at far more often than it is answered otherwise, so a sheet is
 * kept by the whole text it was reckoned from: nothing else can be answered. The oldest go first. Who the owner is has no part in it.
 */
import { estimate, type Outcome } from "../estimating/estimate.js";
import type { EstimateInput } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";

/** Letters of all inputs kept: some forty jobs, and room for one as large as may be sent. */
const ROOM = 2 * 1024 * 1024;

export function keptByText<T>(room: number) {
  const kept = new Map<string, T>();
  let letters = 0;
  return (text: string, work: () => T): T => {
    const ready = kept.get(text);
    const value = ready ?? work();
    if (ready === undefined) letters += text.length;
    else kept.delete(text);
    kept.set(text, value);
    for (const [oldest] of kept) {
      if (letters <= room) break;
      kept.delete(oldest);
      letters -= oldest.length;
    }
    return value;
  };
}

const [sheets, risks] = [keptByText<Outcome>(ROOM), keptByText<Pick<Sheet, "risk">>(ROOM)];

const textOf = ({ paperwork: _, ...work }: EstimateInput): string => JSON.stringify(work);

/** For what passed the check once: the papers around the work are not looked at. */
export const reckoned = (input: EstimateInput): Outcome => sheets(textOf(input), () => estimate(input));

/** The sheet on record with what the shop reads about its risk: it is never kept with what the owner gets. An issued revision that today's engine refuses stays without. */
export function withRisk(sheet: Sheet, input: EstimateInput): Sheet {
  const { risk } = risks(textOf(input), () => {
    const outcome = estimate(input, { risk: true });
    return outcome.ok && outcome.sheet.risk ? { risk: outcome.sheet.risk } : {};
  });
  return risk ? { ...sheet, risk } : sheet;
}
