/** What of a log the agreed revision covers. What it does not may only be logged with an override, and is never billed. */
import { unagreed } from "../../agreement/workLog.js";
import { type Book, readBook } from "../../book.js";
import type { EstimateInput, WorkItem } from "../../input.js";
import type { LogProblem } from "../../problems.js";
import { type KnownPart, partOf } from "../../resolve.js";
import { closure, readMap } from "../../teardown/map.js";
import type { PartUsed, Work } from "./workLog.js";

type NotAgreed = Extract<LogProblem, { name: "work not agreed" }>["why"];

export interface Covered {
  /** Undefined: it is covered. */
  readonly workNot: (work: Work) => NotAgreed | undefined;
  /** Whether a part is reckoned against the one its item was agreed with: it is that one, or is said to stand in for it. */
  readonly counts: (used: PartUsed) => boolean;
}

/** `agreed`: the revision agreed to, with the options chosen (`withChoices`). Work 'if found' is agreed in advance. */
export function coverage(current: EstimateInput, agreed: EstimateInput | undefined): Covered {
  const refused = new Map(unagreed(current, agreed).map(({ id, why }) => [id, why]));
  const items = new Map((agreed?.items ?? []).map((item) => [item.id, item]));
  const openable = agreed ? mayBeOpened(agreed) : new Set<string>();
  const offers = new Set((agreed?.offers ?? []).map(({ id }) => id));
  const book = readBook(agreed ?? current);

  const workNot = (work: Work): NotAgreed | undefined => {
    if (!agreed) return "nothing agreed";
    const known =
      work.is === "item"
        ? items.has(work.id)
        : work.is === "pull"
          ? offers.has(work.offer)
          : work.assembly === undefined || openable.has(work.assembly);
    return (work.is === "item" ? refused.get(work.id) : undefined) ?? (known ? undefined : "not in what was agreed");
  };
  const fits = (used: PartUsed) => isThePart(used.part, partTaken(items.get(used.item)), book);
  return {
    workNot,
    counts: (used) => {
      const consumes = items.get(used.item)?.part !== undefined;
      return workNot({ is: "item", id: used.item }) === undefined && (fits(used) || (used.insteadOf === true && consumes));
    },
  };
}

const partTaken = (item: WorkItem | undefined): KnownPart | undefined => item && partOf(item);

/** The same kind; or, where only the type was agreed, any kind of that type. */
function isThePart(used: PartUsed["part"], agreed: KnownPart | undefined, { kinds }: Book): boolean {
  if (!agreed || "own" in used) return false;
  if ("kind" in agreed) return "kind" in used && used.kind === agreed.kind;
  return "type" in used ? used.type === agreed.type : kinds.get(used.kind)?.is.type === agreed.type;
}

/** Assemblies that the agreed work, found or not, opens. */
function mayBeOpened({ map, items, toOpen = [], alreadyOpen = [], openAtNoCharge = [] }: EstimateInput): ReadonlySet<string> {
  const reading = readMap(map);
  const wanted = items
    .filter(({ certainty, count }) => count > 0 && (certainty.is !== "optional" || certainty.chosen))
    .flatMap(({ assembly }) => assembly ?? []);
  const places = [...wanted, ...toOpen, ...alreadyOpen, ...openAtNoCharge].flatMap((id) => reading.at.get(id) ?? []);
  return new Set([...closure(reading, places)].map((place) => reading.assemblies[place]!.id));
}
