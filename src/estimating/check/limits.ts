/** How much may be asked at once: no estimate that passes takes more than a quarter of a second (`npm run risk -- dearest`). Beyond the limits nothing else is looked at. */
import type { EstimateInput, WorkItem } from "../input.js";
import { countGroups } from "../labour/groups.js";
import { MOST_PIECES } from "../parts/buyPlanTakes.js";
import { isSure, meanShare, shareGoodOf } from "../parts/shareGood.js";
import { LIMITS, type Problem } from "../problems.js";
import { resolve } from "../resolve.js";
import { NONE } from "./figures.js";

/**
 * Counted boards take up the room of the assemblies they can be refined into. Each option, if-found group and work worth doing is priced
 * as a whole again, so that there may be fewer of them than of items, and fewer the more items there are.
 */
export function checkLimits(input: EstimateInput): Problem[] {
  const { map, boards = [], items, rateBook, policy } = input;
  const worked = items.length > LIMITS.items ? items.length : resolve(input).items.length;
  const counted = boards.reduce((sum, { count }) => sum + (count <= LIMITS.boards ? Math.max(0, count) : 0), 0);
  const assemblies = (map?.assemblies.length ?? 0) + counted;
  const thought = (map?.assemblies ?? []).reduce((sum, { worthDoing = [] }) => sum + worthDoing.length, 0);
  const weighed =
    rateBook.risk === "shared" || (policy?.pricing ?? COUNTED).is !== COUNTED.is
      ? Math.min(LIMITS.weighedChoices, Math.floor(LIMITS.weighed / Math.max(1, worked)))
      : LIMITS.choices;
  const tooManyChoices = (what: "option or if found" | "worth doing", count: number, pointer: string): Problem[] => {
    if (count <= Math.min(LIMITS.choices, weighed)) return [];
    const beside =
      weighed < LIMITS.weighedChoices ? { limit: weighed, items: worked } : { limit: Math.min(LIMITS.choices, weighed) };
    return [{ name: "too many choices", what, count, ...beside, pointer }];
  };
  return [
    ...(assemblies > LIMITS.assemblies
      ? [
          {
            name: "too many assemblies",
            count: assemblies,
            limit: LIMITS.assemblies,
            pointer: map?.assemblies.length ? "/map/assemblies" : "/boards",
          } as const,
        ]
      : []),
    ...(worked > LIMITS.items
      ? [{ name: "too many items", count: worked, limit: LIMITS.items, pointer: "/items" } as const]
      : []),
    ...tooManyChoices("option or if found", countGroups(items), "/items"),
    ...tooManyChoices("worth doing", thought, "/map/assemblies"),
    ...checkBeside(input),
    ...checkOffered(input),
  ];
}

const COUNTED = { is: "as counted" } as const;

/** At a fixed price each option has the risk of its own set of work, with all that may be found in it. */
function checkBeside({ items, policy }: EstimateInput): readonly Problem[] {
  const by = policy?.pricing?.is;
  if (by !== "fixed price" && by !== "expected cost plus") return NONE;
  const options = countGroups(items.filter(({ certainty }) => certainty.is === "optional"));
  const found = countGroups(items.filter(({ certainty }) => certainty.is === "if found"));
  const limit = Math.floor(LIMITS.beside / Math.max(1, found));
  return options <= limit ? NONE : [{ name: "options beside possible work", count: options, found, limit, pointer: "/items" }];
}

/** What an offer costs, however little of it is looked at. */
const PER_OFFER = 10;

/** Buy plans look at every count of an offer's pieces up to one that is enough in nineteen of twenty cases, some 3 / share a piece, anew for each choice that takes the part too. */
function checkOffered({ items, offers = [], rateBook }: EstimateInput): readonly Problem[] {
  const wanted = new Map<string, { pieces: number; choices: WorkItem[] }>();
  for (const item of items) {
    if (!item.part || !("kind" in item.part) || !(item.count > 0)) continue;
    const want = wanted.get(item.part.kind) ?? { pieces: 0, choices: [] };
    want.pieces += item.count;
    want.choices.push(item);
    wanted.set(item.part.kind, want);
  }
  let looked = 0;
  for (const offer of offers) {
    const want = wanted.get(offer.kind);
    if (!want) continue;
    const share = shareGoodOf(offer, rateBook.scarcity);
    const enough = isSure(share) ? 0 : Math.min(MOST_PIECES, (3 * want.pieces) / Math.max(LIMITS.leastShare, meanShare(share)));
    looked += Math.ceil(PER_OFFER + enough + enough ** 2 / 50) * (1 + countGroups(want.choices));
  }
  return looked <= LIMITS.looked ? NONE : [{ name: "too many offers", looked, limit: LIMITS.looked, pointer: "/offers" }];
}
