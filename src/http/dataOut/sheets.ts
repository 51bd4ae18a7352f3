/** Everything there is to take away as CSV, by the name of its file. */
import { exchangeRate } from "../../acts/exchangeRate.js";
import { offer } from "../../acts/offer.js";
import { owner } from "../../acts/owner.js";
import { partKind } from "../../acts/partKind.js";
import { unit } from "../../acts/unit.js";
import { visit } from "../../acts/visit.js";
import { neverMore } from "../../estimating/sheet/terms.js";
import type { Line } from "../../estimating/sheet.js";
import { type Agreement, answersOf } from "../../records/agreements.js";
import type { Kept } from "../../records/columns.js";
import { type Donor, type DonorPart, donors } from "../../records/donors.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { type ExchangeRateValue, exchangeRates } from "../../records/exchangeRates.js";
import { type Job, jobs } from "../../records/jobs.js";
import { type Model, models } from "../../records/models.js";
import { type OfferValue, offers } from "../../records/offers.js";
import { type Outcome, outcomesOf } from "../../records/outcomes.js";
import { type Owner, owners } from "../../records/owners.js";
import { type PartKindValue, partKinds } from "../../records/partKinds.js";
import { creditOf, type PaymentKept, paymentsOf } from "../../records/payments.js";
import { shopSettings } from "../../records/settings.js";
import { type UnitRecord, units } from "../../records/units.js";
import { type EntryKept, everyEntryOf } from "../../records/workLog.js";
import { amount, type Columns, declared, listed, type Sheet, sheet } from "./columns.js";
import { standards } from "./standards.js";
import { ofEachJob, pagesOf } from "./stream.js";

const times = { createdAt: ({ createdAt }: Kept) => createdAt, updatedAt: ({ updatedAt }: Kept) => updatedAt };

const OWNERS: Columns<Owner & Kept> = { id: ({ id }) => id, ...declared(owner), ...times };

type Valued<T> = T & { readonly currency: string };

const UNITS: Columns<Valued<UnitRecord & Kept>> = { id: ({ id }) => id, ...declared(unit), ...times };

const JOBS: Columns<Job> = { id: ({ id }) => id, number: ({ number }) => number, ...declared(visit), ...times };

const MODELS: Columns<Model & Kept> = {
  id: ({ id }) => id,
  maker: ({ maker }) => maker,
  model: ({ model }) => model,
  assemblies: ({ map }) => map.assemblies.length,
  hazards: ({ hazards }) => listed(hazards),
  notes: ({ notes }) => notes,
  ...times,
};

type Numbered<T> = T & { readonly job: string };

const total = (name: "linesNet" | "allowances" | "charges" | "withoutTax" | "tax" | "total" | "prepaid" | "due") =>
  (({ sheet: made, input }: Estimate) => amount(made?.totals[name], input.currency)) satisfies Columns<Estimate>[string];

const ESTIMATES: Columns<Numbered<Estimate>> = {
  id: ({ id }) => id,
  job: ({ job }) => job,
  revision: ({ revision }) => revision,
  issuedAt: ({ issuedAt }) => issuedAt,
  issuedBy: ({ issuedBy }) => issuedBy,
  rateBook: ({ rateBookId, rateBookVersion }) => `${rateBookId} version ${rateBookVersion}`,
  contentHash: ({ contentHash }) => contentHash,
  currency: ({ input }) => input.currency,
  lines: total("linesNet"),
  allowances: total("allowances"),
  charges: total("charges"),
  withoutTax: total("withoutTax"),
  tax: total("tax"),
  total: total("total"),
  prepaid: total("prepaid"),
  due: total("due"),
  ceiling: ({ sheet: made, input }) => amount(made && neverMore(made), input.currency),
  validUntil: ({ sheet: made }) => made?.validUntil,
};

interface LineRow extends Line {
  readonly job: string;
  readonly revision: number;
  readonly number: number;
  readonly currency: string;
}

const LINES: Columns<LineRow> = {
  job: ({ job }) => job,
  revision: ({ revision }) => revision,
  line: ({ number }) => number,
  id: ({ id }) => id,
  sort: ({ sort }) => sort,
  assembly: ({ assembly }) => assembly?.name,
  operation: ({ operation }) => operation?.name,
  partType: ({ part }) => part?.type,
  partKind: ({ part }) => part?.kind,
  part: ({ part }) => part?.name,
  labourClass: ({ labourClass }) => labourClass?.name,
  count: ({ count }) => count,
  minutes: ({ minutes }) => minutes,
  taxCategory: ({ taxCategory }) => taxCategory,
  amount: ({ amount: minor, currency }) => amount(minor, currency),
  currency: ({ currency }) => currency,
};

const LOG: Columns<Numbered<EntryKept>> = {
  id: ({ id }) => id,
  job: ({ job }) => job,
  at: ({ at }) => at,
  workedOn: ({ workedOn }) => workedOn,
  person: ({ person }) => person,
  item: ({ item }) => item,
  assembly: ({ assembly }) => assembly,
  offer: ({ offer }) => offer,
  ownWork: ({ own }) => own,
  ownHazards: ({ ownHazards }) => listed(ownHazards),
  labourClass: ({ labourClass }) => labourClass,
  minutes: ({ minutes }) => minutes,
  startedAt: ({ startedAt }) => startedAt,
  endedAt: ({ endedAt }) => endedAt,
  partKind: ({ partKind }) => partKind,
  partType: ({ partType }) => partType,
  ownPart: ({ ownPart }) => ownPart,
  partCount: ({ partCount }) => partCount,
  partState: ({ partState }) => partState,
  // What was paid is in the job's currency, which the log does not know.
  paidMinorUnits: ({ paidPrice }) => paidPrice,
  paidPer: ({ paidPer }) => paidPer,
  partSource: ({ partSource }) => partSource,
  partReason: ({ partReason }) => partReason,
  insteadOf: ({ insteadOf }) => (insteadOf ? "yes" : undefined),
  note: ({ note }) => note,
  overrideId: ({ overrideId }) => overrideId,
  withdrawnAt: ({ withdrawal }) => withdrawal?.at,
  withdrawnBy: ({ withdrawal }) => withdrawal?.by,
  withdrawnWhy: ({ withdrawal }) => withdrawal?.reason,
};

export const KIND_COLUMNS: Columns<PartKindValue & Kept> = { id: ({ id }) => id, ...declared(partKind) };

const OFFERS: Columns<OfferValue & Kept & { readonly shop: string }> = { id: ({ id }) => id, ...declared(offer) };

const RATES: Columns<ExchangeRateValue & Kept> = { id: ({ id }) => id, ...declared(exchangeRate), into: ({ into }) => into };

/** A row a part; a unit without any has one row. */
const DONORS: Columns<Donor & { readonly part?: DonorPart }> = {
  ...{ id: ({ id }) => id, maker: ({ maker }) => maker, model: ({ model }) => model, serial: ({ serial }) => serial },
  boughtOn: ({ boughtOn }) => boughtOn,
  currency: ({ currency }) => currency,
  cost: ({ cost, currency }) => amount(cost, currency),
  notes: ({ notes }) => notes,
  kind: ({ part }) => part?.kind,
  pieces: ({ part }) => part?.pieces,
  price: ({ part, currency }) => amount(part?.price, currency),
  pullMinutes: ({ part }) => part?.pullMinutes,
  shareGood: ({ part }) => part?.shareGood,
  ...times,
};

const AGREEMENTS: Columns<Numbered<Agreement>> = {
  id: ({ id }) => id,
  job: ({ job }) => job,
  at: ({ at }) => at,
  revision: ({ revision }) => revision,
  answer: ({ answer }) => answer,
  by: ({ by }) => by,
  channel: ({ channel }) => channel,
  amount: ({ amount: minor, currency }) => amount(minor, currency),
  ceiling: ({ ceiling, currency }) => amount(ceiling, currency),
  deposit: ({ deposit, currency }) => amount(deposit, currency),
  currency: ({ currency }) => currency,
  chosen: ({ chosen }) => listed(chosen),
  struck: ({ struck }) => listed(struck),
  wording: ({ wording }) => wording,
  recordedBy: ({ recordedBy }) => recordedBy,
  corrects: ({ corrects }) => corrects,
  reason: ({ reason }) => reason,
  contentHash: ({ contentHash }) => contentHash,
  pdfHash: ({ pdfHash }) => pdfHash,
};

/** A refund is below 0, so that what counts adds up to what was paid. */
const PAYMENTS: Columns<Valued<Numbered<PaymentKept>>> = {
  id: ({ id }) => id,
  job: ({ job }) => job,
  on: ({ on }) => on,
  for: ({ for: what }) => what,
  amount: (row) => amount(creditOf(row).amount, row.currency),
  currency: ({ currency }) => currency,
  how: ({ how }) => how,
  by: ({ by }) => by,
  note: ({ note }) => note,
  at: ({ at }) => at,
  withdrawnAt: ({ withdrawal }) => withdrawal?.at,
  withdrawnBy: ({ withdrawal }) => withdrawal?.by,
  withdrawnWhy: ({ withdrawal }) => withdrawal?.reason,
};

const OUTCOMES: Columns<Numbered<Outcome>> = {
  job: ({ job }) => job,
  closedOn: ({ closedOn }) => closedOn,
  currency: ({ currency }) => currency,
  declined: ({ declined }) => (declined ? "yes" : undefined),
  quoted: ({ quotedTotal, currency }) => amount(quotedTotal, currency),
  agreed: ({ agreedTotal, currency }) => amount(agreedTotal, currency),
  billed: ({ billedTotal, currency }) => amount(billedTotal, currency),
  agreedMinutes: ({ agreedMinutes }) => agreedMinutes,
  actualMinutes: ({ actualMinutes }) => actualMinutes,
};

export const SHEETS = {
  owners: sheet(OWNERS, pagesOf(owners.list)),
  units: sheet(UNITS, async function* (db) {
    const { currency } = await shopSettings(db);
    for await (const page of pagesOf(units.list)(db)) yield page.map((row) => ({ ...row, currency }));
  }),
  jobs: sheet(JOBS, pagesOf(jobs.list)),
  models: sheet(MODELS, pagesOf(models.list)),
  estimates: sheet(ESTIMATES, ofEachJob(estimates.ofJob)),
  "estimate-lines": sheet(
    LINES,
    ofEachJob(async (db, ids) =>
      (await estimates.ofJob(db, ids)).flatMap(({ jobId, revision, sheet: made, input }) =>
        (made?.lines ?? []).map((line, at) => ({ ...line, jobId, revision, number: at + 1, currency: input.currency })),
      ),
    ),
  ),
  agreements: sheet(AGREEMENTS, ofEachJob(answersOf)),
  "work-log": sheet(LOG, ofEachJob(everyEntryOf)),
  payments: sheet(
    PAYMENTS,
    ofEachJob(async (db, ids) => {
      const paid = await paymentsOf(db, ids);
      if (paid.length === 0) return [];
      const made = await estimates.ofJob(db, [...new Set(paid.map(({ jobId }) => jobId))]);
      const shop = await shopSettings(db);
      const currencyOf = (job: string) => (made.findLast(({ jobId }) => jobId === job)?.input ?? shop).currency;
      return paid.map((row) => ({ ...row, currency: currencyOf(row.jobId) }));
    }),
  ),
  "closed-jobs": sheet(OUTCOMES, ofEachJob(outcomesOf)),
  "part-kinds": sheet(KIND_COLUMNS, pagesOf(partKinds.list)),
  offers: sheet(OFFERS, async function* (db) {
    const { currency: shop } = await shopSettings(db);
    for await (const page of pagesOf(offers.list)(db)) yield page.map((row) => ({ ...row, shop }));
  }),
  donors: sheet(DONORS, async function* (db) {
    for await (const page of pagesOf(donors.list)(db))
      yield page.flatMap((row) => (row.parts.length === 0 ? [row] : row.parts.map((part) => ({ ...row, part }))));
  }),
  "exchange-rates": sheet(RATES, pagesOf(exchangeRates.list)),
  standards,
} as const satisfies Readonly<Record<string, Sheet>>;

export type SheetName = keyof typeof SHEETS;
export const SHEET_NAMES = Object.keys(SHEETS) as readonly SheetName[];
