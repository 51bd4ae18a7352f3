/**
 * The work and the part of one line. A name that is on no list is the shop's own words once it can be charged: work by its minutes or a
 * price, a part by its cost or because the owner brings it. Own words that read like a name on a list are told apart by `ownWork` and
 * `ownPart`, which hold them a second time.
 */
import { replacementIn } from "../../estimating/book.js";
import type { Hazard, Minor, OwnPart, OwnWork, ThreePoint, WorkItem } from "../../estimating/input.js";
import { HAZARDS, OFFER_STATES } from "../../estimating/lists.js";
import { foundByName, nameFor } from "../../wording/named.js";
import type { FormContext, Pairs, Pen } from "./context.js";
import type { LineDraft } from "./draft.js";
import { given } from "./fields.js";
import { named, partFrom, partId, partNames, typeNames, workNames } from "./names.js";
import { choice, count, line, money, number, type Reading } from "./reading.js";

const isSaid = (text: string | undefined): boolean => Boolean(text?.trim());
const same = (one: string | undefined, other: string | undefined): boolean =>
  one !== undefined && one.trim().toLowerCase() === other?.trim().toLowerCase();

export function readMinutes(at: Reading, field: string, mine: LineDraft): ThreePoint | undefined {
  const [low, likely, high] = (["low", "likely", "high"] as const).map((end) => number(at, `${field}.${end}`, mine[end], 3));
  if (likely === undefined) {
    if (low !== undefined || high !== undefined) at.problems.push({ name: "missing", field: `${field}.likely` });
    return undefined;
  }
  return { low: low ?? likely, likely, high: high ?? likely };
}

/** What was typed where work is named is a part: one of the lists, or in own words with what only a part has, and no time or price of work. */
export function isPart({ operation, part, ...mine }: LineDraft, context: FormContext): boolean {
  const name = operation?.trim() ?? "";
  if (name === "" || isSaid(part) || foundByName(name, workNames(context))) return false;
  if ([mine.low, mine.likely, mine.high, mine.price].some(isSaid)) return false;
  return (
    [mine.cost, mine.brought, mine.source, mine.days, ...PART_ONLY.map((leaf) => mine[leaf])].some(isSaid) ||
    foundByName(name, partNames(context)) !== undefined
  );
}

/** Undefined where it cannot be told what is done. */
export function readWork(
  at: Reading,
  field: string,
  mine: LineDraft,
): Pick<WorkItem, "operation" | "own" | "service"> | undefined {
  const typed = mine.operation?.trim() ?? "";
  const known = same(mine.ownWork, typed) ? undefined : foundByName(typed, workNames(at.context))?.id;
  if (known !== undefined || typed === "") {
    only(at, field, mine, WORK_ONLY, "work");
    if (known === undefined) return undefined;
    return known.startsWith("service:") ? { service: known.slice(8) } : { operation: known };
  }
  if (![mine.low, mine.likely, mine.high, mine.price].some(isSaid)) {
    const names = workNames(at.context).map(({ name }) => name);
    at.problems.push({ name: "work unknown", field: `${field}.operation`, text: typed, known: names });
    return undefined;
  }
  const hazards = mine.ownHazards?.split(";").filter((one): one is Hazard => (HAZARDS as readonly string[]).includes(one));
  const own: OwnWork = given({
    name: line(at, `${field}.operation`, typed) ?? "",
    labourClass: choice(
      at,
      `${field}.labour`,
      mine.labour,
      at.context.rateBook.labourClasses.map(({ id }) => id),
    ),
    minutes: readMinutes(at, field, mine),
    price: money(at, `${field}.price`, mine.price),
    hazards: hazards?.length ? hazards : undefined,
    taxCategory: mine.ownTax || undefined,
  });
  return own.minutes || own.price !== undefined ? { own } : undefined;
}

/** Undefined where a part is named that cannot be told. */
export function readPart(at: Reading, field: string, mine: LineDraft): Pick<WorkItem, "part" | "partPrice"> | undefined {
  const typed = mine.part?.trim() ?? "";
  const known = same(mine.ownPart, typed) ? undefined : foundByName(typed, partNames(at.context))?.id;
  const cost = money(at, `${field}.cost`, mine.cost);
  const source = line(at, `${field}.source`, mine.source);
  if (typed === "" || (known !== undefined && !mine.brought)) {
    only(at, field, mine, PART_ONLY, "part");
    const why = line(at, `${field}.why`, mine.why);
    const leadDays = count(at, `${field}.days`, mine.days);
    if (!isSaid(mine.cost) && (source ?? why ?? leadDays) !== undefined)
      at.problems.push({ name: "missing", field: `${field}.cost` });
    return given({
      part: known === undefined ? undefined : partFrom(known),
      partPrice: cost === undefined ? undefined : given({ cost, reason: why ?? "", source, leadDays }),
    });
  }
  if (!isSaid(mine.cost) && !mine.brought) {
    const names = partNames(at.context).map(({ name }) => name);
    at.problems.push({ name: "part unknown", field: `${field}.part`, text: typed, known: names });
    return undefined;
  }
  if (isSaid(mine.why)) at.problems.push({ name: "not of this", field: `${field}.why`, of: "known part" });
  if (cost === undefined && !mine.brought) return undefined;
  return { part: { own: readOwnPart(at, field, mine, { name: typed, known, cost, source }) } };
}

/** A part of the lists that the owner brings is like itself. */
function readOwnPart(
  at: Reading,
  field: string,
  mine: LineDraft,
  { name, known, ...bought }: { name: string; known: string | undefined; cost: Minor | undefined; source: string | undefined },
): OwnPart {
  const kind = known?.startsWith("kind:") ? at.context.kinds.find(({ id }) => `kind:${id}` === known) : undefined;
  const type = kind?.type ?? known?.slice("type:".length);
  return given({
    name: line(at, `${field}.part`, name) ?? "",
    type: named(at, `${field}.like`, mine.like, typeNames(at.context)) ?? type,
    broughtByOwner: mine.brought ? (true as const) : undefined,
    ...bought,
    state: choice(at, `${field}.state`, mine.state, OFFER_STATES),
    leadDays: count(at, `${field}.days`, mine.days),
    packSize: count(at, `${field}.pack`, mine.pack),
    minimumPacks: count(at, `${field}.minPacks`, mine.minPacks),
    shareGood: number(at, `${field}.good`, mine.good, 6, -2),
  });
}

const WORK_ONLY = ["price", "labour", "ownHazards"] as const;
const PART_ONLY = ["like", "state", "pack", "minPacks", "good"] as const;

/** What is said of own words and stands beside a name on a list would be lost without a word. */
function only(at: Reading, field: string, mine: LineDraft, leaves: readonly (keyof LineDraft)[], of: "work" | "part"): void {
  for (const leaf of leaves)
    if (isSaid(mine[leaf])) at.problems.push({ name: "not of this", field: `${field}.${leaf}`, of: `own ${of}` });
}

export function fieldsForWork(
  field: string,
  { operation, own, service, minutes, part }: WorkItem,
  { context, number, money }: Pen,
): Pairs {
  const names = workNames(context);
  // What a part is taken for where no work is named goes without saying.
  const usual = part && operation === replacementIn(context.rateBook, part, context.kinds);
  const known = service !== undefined ? `service:${service}` : usual ? undefined : operation;
  const times = own?.minutes ?? minutes;
  return [
    [`${field}.operation`, own?.name ?? (known && nameFor(known, names))],
    [`${field}.ownWork`, own && foundByName(own.name.trim(), names) ? own.name : undefined],
    [`${field}.low`, number(times?.low)],
    [`${field}.likely`, number(times?.likely)],
    [`${field}.high`, number(times?.high)],
    [`${field}.price`, money(own?.price)],
    [`${field}.labour`, own?.labourClass],
    [`${field}.ownHazards`, own?.hazards?.join(";")],
    [`${field}.ownTax`, own?.taxCategory],
  ];
}

export function fieldsForPart(field: string, { part, partPrice }: WorkItem, { context, number, money }: Pen): Pairs {
  const names = partNames(context);
  const own = part && "own" in part ? part.own : undefined;
  return [
    [`${field}.part`, own?.name ?? (part && !("own" in part) ? nameFor(partId(part), names) : undefined)],
    [`${field}.ownPart`, own && foundByName(own.name.trim(), names) ? own.name : undefined],
    [`${field}.cost`, money(own?.cost ?? partPrice?.cost)],
    [`${field}.why`, partPrice?.reason],
    [`${field}.brought`, own?.broughtByOwner ? "on" : undefined],
    [`${field}.like`, own?.type === undefined ? undefined : nameFor(own.type, typeNames(context))],
    [`${field}.source`, own?.source ?? partPrice?.source],
    [`${field}.state`, own?.state],
    [`${field}.days`, number(own ? own.leadDays : partPrice?.leadDays)],
    [`${field}.pack`, number(own?.packSize)],
    [`${field}.minPacks`, number(own?.minimumPacks)],
    [`${field}.good`, number(own?.shareGood, 2)],
  ];
}
