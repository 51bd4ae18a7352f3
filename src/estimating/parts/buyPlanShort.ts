/** What would raise the chance to the service level when everything on offer is not enough. */
import type { Raiser } from "../sheet.js";
import { type Choices, named, type PlanAsk } from "./buyPlanTakes.js";
import { goodMasses, none, reaches, SAME_CHANCE, tailsOf, together } from "./goodPieces.js";

/** More than this many times the pieces needed is not looked at. */
const MANY_TIMES = 50;

export function raisersOf({ choices, goal, lot }: Choices, { needed, serviceLevel }: PlanAsk): readonly Raiser[] {
  if (choices.length === 0) return [{ is: "an offer" }];
  const level = serviceLevel - SAME_CHANCE;
  const largest = choices.map(({ takes }) => takes[takes.length - 1]!);
  const withAll = (but?: number) =>
    largest.reduce((sum, take, index) => (index === but ? sum : together(sum, take.masses())), none(goal));
  const raisers: Raiser[] = [];
  choices.forEach(({ offer }, index) => {
    const others = withAll(index);
    const has = largest[index]!.pieces;
    const enough = (pieces: number) => reaches(others, tailsOf(goodMasses(pieces, offer.shareGood, goal, lot))) >= level;
    const pieces = fewest(enough, has, Math.max(has, MANY_TIMES * needed));
    if (pieces !== undefined) raisers.push({ is: "more of an offer", ...named(offer), pieces: pieces - has });
  });
  const all = withAll();
  const sure = fewest((pieces) => reaches(all, tailsOf(goodMasses(pieces, 1, goal, lot))) >= level, 0, needed);
  if (sure !== undefined) raisers.push({ is: "pieces surely good", pieces: sure });
  raisers.push({ is: "a lower service level", level: all[goal]! });
  return raisers;
}

/** Smallest count above `from`, up to `most`, that is enough; more is never less enough. */
function fewest(enough: (count: number) => boolean, from: number, most: number): number | undefined {
  if (most <= from || !enough(most)) return undefined;
  let low = from;
  let high = most;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
