/** The faults found since an earlier revision: what each costs by itself on top of the rest, and what it shares with the others. */
import { check } from "../check/check.js";
import type { Certainty, EstimateInput, Minor, WorkItem } from "../input.js";
import { pricedInput } from "../pricing/total.js";
import { withTerms } from "./causes.js";
import { difference, workName } from "./difference.js";

export interface FaultFound {
  /** Id of the work item. */
  readonly item: string;
  /** Place, work, part and count, as a person calls them. */
  readonly name: string;
  readonly reason?: string;
  readonly is: Certainty["is"];
  /** Needed, or an option that is chosen. */
  readonly inTotal: boolean;
  /** Where it is, if the earlier revision's map did not have the place. */
  readonly newPlace?: string;
  /** Tax included: by itself, as if it were needed, on top of the revision without any of them. */
  readonly price: Minor;
  /** How much less it adds beside the others in the total: one opening, one set-up, one freight. Below 0: more. */
  readonly shared: Minor;
  /** Names of the assemblies that come off for it by itself. */
  readonly opens: readonly string[];
}

export interface FaultsFound {
  readonly each: readonly FaultFound[];
  /** What those in the total come to, tax included: the part of the total that is caused by extra faults. */
  readonly together: Minor;
}

/** Each takes two prices of the whole job; an estimate that is mostly new has no faults to tell apart. */
const MOST = 20;

/** In the order of the later revision, at its prices and the earlier one's terms; undefined where there are none, or more than can be told apart. */
export function faultsFound(before: EstimateInput, after: EstimateInput): FaultsFound | undefined {
  const { added: items, context } = difference(before, after);
  const added = items.filter(({ count }) => count > 0);
  if (added.length === 0 || added.length > MOST || before.items.length === 0) return undefined;
  const input = withTerms(after, before.policy, context.policy ? after.policy : before.policy);
  const ids = new Set(items.map(({ id }) => id));
  const base: EstimateInput = { ...input, items: input.items.filter(({ id }) => !ids.has(id)) };
  if (check(base).length > 0 || check(input).length > 0) return undefined;
  const withWork = (work: readonly WorkItem[]) => pricedInput({ ...base, items: [...base.items, ...work] });
  const totalWith = (work: readonly WorkItem[]) => withWork(work).priced.totals.total;
  const charged = added.filter(isCharged);
  const [alone, all] = [pricedInput(base).priced, totalWith(charged)];
  const opened = new Set(alone.opened);
  const places = new Set(before.map?.assemblies.map(({ id }) => id));
  const each = added.map((item): FaultFound => {
    const needed: WorkItem = { ...item, certainty: { is: "planned" } };
    const { workings, priced } = withWork([needed]);
    const price = priced.totals.total - alone.totals.total;
    const inTotal = isCharged(item);
    const others = charged.filter(({ id }) => id !== item.id);
    const adds = inTotal ? all - totalWith(others) : totalWith([...others, needed]) - all;
    const place = after.map?.assemblies.find(({ id }) => id === item.assembly && !places.has(id));
    return {
      ...{ item: item.id, name: workName(item, after), is: item.certainty.is, inTotal },
      ...(item.reason && { reason: item.reason }),
      ...(place && { newPlace: place.name }),
      ...{ price, shared: others.length === 0 ? 0 : price - adds },
      opens: priced.opened.filter((at) => !opened.has(at)).map((at) => workings.map.assemblies[at]!.name),
    };
  });
  return { each, together: all - alone.totals.total };
}

const isCharged = ({ certainty }: WorkItem): boolean =>
  certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen);
