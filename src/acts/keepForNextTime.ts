/** What an estimate says in the shop's own words, put on the lists: work into the rate book, a part and what it costs into the catalogue. */
import { z } from "zod";
import type { OwnPart, OwnWork, RateBook, WorkItem } from "../estimating/input.js";
import { type BareInput, estimates } from "../records/estimates.js";
import { offers } from "../records/offers.js";
import { partKindNamed, partKinds } from "../records/partKinds.js";
import { rateBooks } from "../records/rateBooks.js";
import { shopSettings } from "../records/settings.js";
import type { Write } from "../records/trail.js";
import { foundByName } from "../wording/named.js";
import { act, type Desk, refused } from "./act.js";
import { withChange } from "./changeRateBook.js";
import type { Fault } from "./fault.js";
import { offerFaults } from "./offer.js";
import { partKindFaults } from "./partKind.js";
import { wrongInBook } from "./rateBook.js";
import type { RateBookChange } from "./rateBookFields.js";
import { ident } from "./shapes/primitives.js";
import { today } from "./today.js";

const kept = z
  .strictObject({
    works: z.array(z.string()).readonly().meta({ description: "Names that stand in the rate book from now on" }),
    parts: z.array(z.string()).readonly().meta({ description: "Names that stand in the catalogue from now on" }),
  })
  .meta({ id: "KeptForNextTime", description: "What was not on a list before; what was there already is left as it stands" });
export type KeptForNextTime = z.output<typeof kept>;

export const keepForNextTime = act({
  name: "keepForNextTime",
  title: "Put an estimate's own words on the lists",
  fields: z
    .strictObject({
      items: z.array(ident).min(1).max(1000).meta({ description: "Ids of lines with work or a part in the shop's own words" }),
    })
    .meta({ id: "KeepForNextTime", description: "Which lines of the estimate" }),
  answer: kept,
  decide: async (desk, { items: wanted }, { estimate: id }: { readonly estimate: string }) => {
    const { db, at, now } = desk;
    const found = await estimates.find(db, id);
    if (!found) return refused("not found", { detail: "There is no such estimate." });
    const lines = wanted.map((one) => found.input.items.find((item) => item.id === one));
    const settings = await shopSettings(db);
    const old = await rateBooks.find(db, settings.rateBookId);
    if (!old) throw new Error("The shop's rate book is gone.");
    const day = today(now, settings.timeZone);
    const told = lines.flatMap((line, place) => faultsOf(line, place, old.book));
    if (told.length > 0) return refused("input refused", { errors: told });

    const said = (lines as WorkItem[]).flatMap(({ own }) => own ?? []);
    const works = once(said).filter(({ name }) => !foundByName(name, namesIn(old.book)));
    if (works.length > 0 && desk.staff?.role === "technician")
      return refused("role wanted", { detail: `A manager adds to the rate book; ask one to keep '${works[0]!.name}'.` });
    const { id: _, version: __, ...value } = withChange(old.book, changeFor(works, old.book, day));
    const own = once((lines as WorkItem[]).flatMap(({ part }) => (part && "own" in part ? [part.own] : [])));
    const parts = await Promise.all(own.map(async (part) => ((await partKindNamed(db, part.name)) ? [] : [part])));
    const stocked = parts.flat().map((part) => inCatalogue(desk, part, found.input, old.book));
    const errors = [
      ...(works.length > 0 ? await wrongInBook(db, value, old.book) : []),
      ...stocked.flatMap(({ faults }) => faults),
    ];
    if (errors.length > 0) return refused("input refused", { errors: errors.map((fault) => ({ ...fault, pointer: "/items" })) });
    const writes: Write[] = [
      ...(works.length > 0 ? [rateBooks.changed(db, old, value, at).write] : []),
      ...stocked.flatMap((each) => each.writes),
    ];
    return { answer: { works: works.map(({ name }) => name), parts: parts.flat().map(({ name }) => name) }, writes };
  },
});

const namesIn = ({ operations, services = [] }: RateBook) => [...operations, ...services];

const once = <T extends { readonly name: string }>(all: readonly T[]): readonly T[] => [
  ...new Map(all.map((each) => [each.name.trim().toLowerCase(), each])).values(),
];

/** A list wants to know more than one estimate does. */
function faultsOf(line: WorkItem | undefined, place: number, { partTypes }: RateBook): readonly Fault[] {
  const fault = (name: string, detail: string): Fault[] => [{ pointer: `/items/${place}`, name, detail }];
  if (!line) return fault("record unknown", "This names no line of the estimate; give the id of one.");
  const { own, part } = line;
  const ownPart = part && "own" in part ? part.own : undefined;
  if (!own && !ownPart)
    return fault(
      "nothing changed",
      "This line has neither work nor a part in your own words: what it names is on a list already.",
    );
  return [
    ...(own && !own.minutes
      ? fault("key missing", `'${own.name}': the rate book wants to know its time too; give its minutes beside the price.`)
      : []),
    ...(ownPart && !partTypes.some(({ id }) => id === ownPart.type)
      ? fault("key missing", `'${ownPart.name}': the catalogue wants a part type; say what it is fitted like.`)
      : []),
  ];
}

/** Work at a fixed price is a service; other work is an operation. */
function changeFor(works: readonly OwnWork[], book: RateBook, day: string): RateBookChange {
  const from = day < book.inForceFrom ? book.inForceFrom : day;
  const source = { basis: "measured here" as const, note: `the shop's own, kept from an estimate on ${day}` };
  const operations = works.flatMap(({ name, labourClass = book.accessClass, minutes, hazards, price }) =>
    price === undefined
      ? [
          {
            name,
            sort: "other" as const,
            labourClass,
            setup: NO_TIME,
            unit: minutes!,
            ...(hazards && { hazards: [...hazards] }),
            source,
          },
        ]
      : [],
  );
  const services = works.flatMap(({ price, ...work }) =>
    price === undefined ? [] : [{ name: work.name, price, work: [{ own: work, count: 1 }], source }],
  );
  return {
    inForceFrom: from,
    ...(operations.length > 0 && { operations }),
    ...(services.length > 0 && { services }),
  } as RateBookChange;
}

const NO_TIME = { low: 0, likely: 0, high: 0 };

/** What the owner brings has no offer. */
function inCatalogue({ db, at, newId }: Desk, part: OwnPart, { asOf, currency }: BareInput, book: RateBook) {
  const kind = partKinds.made(db, newId(), { name: part.name, type: part.type! }, at);
  const { packSize = 1, minimumPacks, shareGood } = part;
  const value = {
    ...{ kind: kind.record.id, source: part.source ?? "not said", on: asOf, currency },
    ...{ price: (part.cost ?? 0) * packSize, packSize, leadDays: part.leadDays ?? 0, state: part.state ?? ("new" as const) },
    ...(minimumPacks !== undefined && { minimumPacks }),
    ...(shareGood !== undefined && { shareGood }),
  };
  const bought = part.broughtByOwner ? [] : [offers.made(db, newId(), value, at).write];
  return {
    faults: [...partKindFaults(kind.record, book), ...(part.broughtByOwner ? [] : offerFaults(value, kind.record, book))],
    writes: [kind.write, ...bought],
  };
}
