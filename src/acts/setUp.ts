/**
 * The first visit: who the shop is and what a price needs, with an account or without one yet. Settings, the version of the rate book that
 * has these rates, and the first manager stand in one transaction.
 */
import { z } from "zod";
import type { RateBook } from "../estimating/input.js";
import { models } from "../records/models.js";
import { rateBooks } from "../records/rateBooks.js";
import { settings as rows, type Settings, shopSettings } from "../records/settings.js";
import { signInEvents } from "../records/signInEvents.js";
import { firstManager, joining, newStaff, staff } from "../records/staff.js";
import type { Write } from "../records/trail.js";
import { decimalMark, typed } from "../wording/decimal.js";
import { act, type Decided, type Desk, refused } from "./act.js";
import { faultsIn } from "./checked.js";
import type { Fault } from "./fault.js";
import { choice, decimal, line, lines, maybe, money, saying, secret, tick } from "./field.js";
import { withFirstRates } from "./rateBook.js";
import { closedOtherwise, settings, unknownCurrency } from "./settings.js";
import { NAME_TAKEN, personName } from "./staff.js";
import { today } from "./today.js";
import { comingIn, type Entrance, type In, NEW_WAY, newCodes, newWay } from "./wayIn.js";

const { currency, locale, timeZone, paper, phone, email, taxNumber } = settings.fields.shape;
const TAX_NAME = "Name of the tax";
const TAX_PERCENT = "Percent";

const shop = {
  shopName: line("Name of the shop"),
  address: maybe(lines("Address")),
  ...{ currency, timeZone },
  hourlyRate: saying(
    money("").refine((rate) => rate > 0, { params: { name: "rate of nothing" } }),
    {
      ...{ label: "Hourly rate", kind: "money", currencyIn: "currency" },
      hint: "What an hour at your bench costs, before tax if that is added.",
    },
  ),
  tax: choice("Tax on your prices", ["none", "added", "included"]),
  taxName: maybe(line(TAX_NAME, { most: 60, hint: "As it stands on paper, such as VAT." })),
  taxPercent: maybe(decimal(TAX_PERCENT, { least: 0, most: 100, decimals: 4 })),
  diagnosisFee: maybe(
    money("Diagnosis fee", {
      currencyIn: "currency",
      hint: "For looking at it and saying what it would cost, empty for none. Opening and closing it is owed beside it where the owner declines.",
    }),
  ),
  feeCredited: maybe(tick("The diagnosis fee is taken off the price when the owner agrees to the work")),
  ...{ locale, paper, phone, email, taxNumber },
};
const you = { name: personName, ...NEW_WAY };

type Said = z.output<z.ZodObject<typeof shop>>;

/** Without an account for now, which the shop says so. */
export const goOnWithout = act({
  name: "goOnWithout",
  title: "Set up the shop and go on without an account",
  fields: z.strictObject(shop),
  answer: settings.kept,
  decide: async (desk, said) => {
    const kept = await shopAsSaid(desk, said);
    if ("faults" in kept) return refused("input refused", { errors: kept.faults });
    const noted = signInEvents.adding(desk.db, { what: "went on without accounts" }, desk.at);
    return { answer: kept.record, writes: [...kept.writes, noted] };
  },
});

export const setUp = act({
  name: "setUp",
  title: "Set up the shop",
  fields: z.strictObject({ ...shop, ...you }),
  answer: z.unknown(),
  decide: async (desk, { name, passkey, passphrase, ...said }, entrance: Entrance): Promise<Decided<In>> => {
    // The founder of a shop is one: of two at once the other comes too late.
    if (await staff.anyone(desk.db)) return refused("id taken", { detail: "The shop is set up already; sign in." });
    const kept = await shopAsSaid(desk, said);
    const way = await newWay(desk, { passkey, passphrase }, entrance, "Passkey 1");
    const faults = [...("faults" in kept ? kept.faults : []), ...("wrong" in way ? [way.wrong] : [])];
    if ("faults" in kept || "wrong" in way) return refused("input refused", { errors: faults });
    return newManager(desk, { name, way, how: "set-up", entrance, also: kept.writes });
  },
});

/** One more manager, by the shop's secret, when none gets in. `right`: whether that is it. */
export const addManager = act({
  name: "addManager",
  title: "A manager's account by the shop's secret",
  fields: z.strictObject({ secret: secret("The shop's secret", { hint: "OHMWRIGHT_SECRET." }), ...you }),
  answer: z.unknown(),
  decide: async (
    desk,
    { secret: given, name, ...sent },
    { right, ...entrance }: Entrance & { readonly right: (given: string) => Promise<boolean> },
  ): Promise<Decided<In | { readonly refused: string }>> => {
    if (!(await right(given))) {
      const event = { what: "refused", how: "shop's secret", caller: entrance.caller } as const;
      return { answer: { refused: "That is not the shop's secret." }, writes: [signInEvents.adding(desk.db, event, desk.at)] };
    }
    if (await staff.named(desk.db, name)) return refused("input refused", { errors: [taken] });
    const way = await newWay(desk, sent, entrance, "Passkey 1");
    if ("wrong" in way) return refused("input refused", { errors: [way.wrong] });
    return newManager(desk, { name, way, how: "shop's secret", entrance });
  },
});
const taken: Fault = { pointer: "/name", name: "name taken", detail: NAME_TAKEN };

interface Founding {
  readonly name: string;
  readonly way: Exclude<Awaited<ReturnType<typeof newWay>>, { readonly wrong: Fault }>;
  readonly how: "set-up" | "shop's secret";
  readonly entrance: Entrance;
  readonly also?: readonly Write[];
}

async function newManager(desk: Desk, { name, way, how, entrance, also = [] }: Founding): Promise<Decided<In>> {
  const { db, at } = desk;
  const id = way.staffId ?? desk.newId();
  const row = newStaff(id, name, "manager", at);
  const [codes, session] = [await newCodes(desk, id), await comingIn(desk, id, how, entrance)];
  return {
    answer: { name, codes: codes.codes, token: session.token },
    writes: [
      ...also,
      how === "set-up" ? firstManager(db, row) : staff.adding(db, row),
      joining(db, id, at),
      signInEvents.adding(db, { what: "account made", staffId: id }, at),
      ...way.writes(id),
      ...codes.writes,
      ...session.writes,
    ],
  };
}

/** Nobody has said anything of this shop yet, and nothing stands in it: what its rate book says are the example's figures. */
export const isUntouched = async ({ db }: Pick<Desk, "db">): Promise<boolean> =>
  (await shopSettings(db)).version === 1 && (await models.list(db, { limit: 1 })).rows.length === 0;

/** The shop and its rates as they stand, as the form says them; rates and name only where someone has said them. */
export async function asItStands({ db }: Pick<Desk, "db">): Promise<object> {
  const { name, address, currency, timeZone, locale, paper, phone, email, taxNumber, rateBookId } = await shopSettings(db);
  const figures = { currency, timeZone, locale, paper };
  if (await isUntouched({ db })) return figures;
  const contact = { shopName: name, address: address && [...address], phone, email, taxNumber };
  const book = (await rateBooks.find(db, rateBookId))?.book;
  return { ...contact, ...figures, ...(book && ratesOf(book, locale)) };
}

function ratesOf({ labourClasses, tax, fees: { diagnosis } }: Pick<RateBook, "labourClasses" | "tax" | "fees">, locale: string) {
  const { name = "", percent = 0 } = tax.categories.find(({ id }) => id === tax.labour) ?? {};
  const ending = percentText(percent, locale);
  return {
    hourlyRate: labourClasses.find(({ attended }) => attended)?.ratePerHour ?? 0,
    ...(percent === 0
      ? { tax: "none" as const }
      : {
          tax: tax.included ? ("included" as const) : ("added" as const),
          taxName: name.endsWith(ending) ? name.slice(0, -ending.length) : name,
          taxPercent: percent,
        }),
    ...(diagnosis.amount > 0 && { diagnosisFee: diagnosis.amount, feeCredited: diagnosis.creditedOnAgreement }),
  };
}

const percentText = (percent: number, locale: string): string => ` ${typed(String(percent), decimalMark(locale))} %`;

/** For a batch: settings and rate book, each only where something else is said than stands. */
async function shopAsSaid(desk: Desk, said: Said) {
  const { db, at, now } = desk;
  const { shopName: name, currency, timeZone, locale, paper, address, phone, email, taxNumber } = said;
  const old = await shopSettings(db);
  const faults = [...unknownCurrency(currency), ...(await closedOtherwise(db, currency, old)), ...taxFaults(said)];
  if (faults.length > 0) return { faults };
  const keys = { name, currency, timeZone, locale, paper, address, phone, email, taxNumber };
  const { record, write } = rows.changed(db, old, keys, at);
  const same = Object.entries(keys).every(([key, value]) => JSON.stringify(old[key as keyof Settings]) === JSON.stringify(value));
  const kept = (await rateBooks.find(db, old.rateBookId))!;
  const { hourlyRate, diagnosisFee = 0 } = said;
  const rates = {
    ...{ currency, hourlyRate, diagnosisFee, feeCredited: diagnosisFee > 0 && said.feeCredited === true },
    inForceFrom: today(now, timeZone),
    ...(said.tax !== "none" && {
      tax: {
        name: said.taxName! + percentText(said.taxPercent!, locale),
        percent: said.taxPercent!,
        included: said.tax === "included",
      },
    }),
  };
  const { id: _, version: __, ...book } = withFirstRates(kept.book, rates);
  const stand = ratesOf(kept.book, locale);
  const asBefore = !(await isUntouched(desk)) && kept.book.currency === currency && sameRates(stand, ratesOf(book, locale));
  const [beyond] = asBefore ? [] : faultsIn({}, { ...book, id: "new", version: 1 }, "/rateBook");
  if (beyond) return { faults: [{ ...beyond, pointer: "/hourlyRate" }] };
  return {
    record: same ? old : record,
    writes: [...(same ? [] : [write]), ...(asBefore ? [] : [rateBooks.changed(db, kept, book, at).write])],
  };
}

const sameRates = (...both: [object, object]): boolean =>
  new Set(both.map((each) => JSON.stringify(Object.entries(each).sort()))).size === 1;

function taxFaults({ tax, taxName, taxPercent }: Said): readonly Fault[] {
  const missing = (pointer: string, label: string, detail: string): Fault => ({
    ...{ pointer, name: "key missing" },
    detail: `${label} is missing; ${detail}, or choose no tax.`,
  });
  if (tax === "none")
    return taxName !== undefined || (taxPercent ?? 0) > 0
      ? [
          {
            ...{ pointer: "/tax", name: "choice unknown" },
            detail:
              "A tax is written below, and no tax is chosen; say how your prices stand to it, or clear its name and percent.",
          },
        ]
      : [];
  return [
    ...(taxName === undefined ? [missing("/taxName", TAX_NAME, "write what the law calls it")] : []),
    ...(taxPercent === undefined ? [missing("/taxPercent", TAX_PERCENT, "give a number")] : []),
  ];
}
