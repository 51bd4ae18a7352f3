/** A year of the demo shop (fixtures/demo/year.json), played act by act on the days it tells of, moved by whole weeks so that it ends now. */
import { V7Generator } from "uuidv7";
import type { Desk } from "../acts/act.js";
import { addEstimate } from "../acts/beginDraft.js";
import { bringIn } from "../acts/bringIn.js";
import { closeDeclined } from "../acts/closeDeclined.js";
import { closeJob } from "../acts/closeJob.js";
import { addExtraFault } from "../acts/extraFault.js";
import { issueEstimate, type Press } from "../acts/issue.js";
import { jobsRead } from "../acts/job.js";
import { logWork } from "../acts/logWork.js";
import { orderFromList } from "../acts/order.js";
import { owed } from "../acts/owed.js";
import { addOwner } from "../acts/owner.js";
import { shopOrderList } from "../acts/partsToGet.js";
import { recordAnswer } from "../acts/recordAnswer.js";
import { takePayment } from "../acts/takePayment.js";
import { tickOff } from "../acts/tickOff.js";
import { addUnit } from "../acts/unit.js";
import { addJob } from "../acts/visit.js";
import { estimatePdf } from "../documents/estimatePdf.js";
import { addDays } from "../estimating/day.js";
import type { IsoDate } from "../estimating/input.js";
import { sourceKey } from "../estimating/parts/orderList.js";
import type { Database, Instant } from "../records/database.js";
import type { BareInput } from "../records/estimates.js";
import type { JobValue } from "../records/jobs.js";
import { offersWith } from "../records/offers.js";
import { openOrders } from "../records/orders.js";
import type { Owner } from "../records/owners.js";
import { shopSettings } from "../records/settings.js";
import { type UnitRecord, units } from "../records/units.js";
import { type Demo, doneAt, loadDraft, loadJob, loadRecords } from "./demo.js";

/** One act by its name, or several of them with what they share; amounts, days and options that the shop knows are left out. */
interface Step {
  readonly at: Instant;
  readonly do: keyof typeof JOB_ACTS | keyof typeof SHOP_ACTS;
  readonly each?: readonly object[];
}

interface Visit {
  readonly unit: UnitRecord & { readonly id: string };
  readonly job: Omit<JobValue, "ownerId" | "unitId"> & { readonly id?: string };
  readonly grade: string;
  /** As in an estimate, but that work is planned unless it says otherwise. */
  readonly estimate?: Partial<BareInput>;
  /** The job of the shop whose estimate this one takes, but for the work left out. */
  readonly like?: { readonly job: string; readonly without: readonly string[] };
  readonly steps: readonly Step[];
}

export interface Year {
  readonly lastDay: IsoDate;
  readonly firstDay: IsoDate;
  /** Who does it all. */
  readonly by: string;
  readonly owners: readonly (Owner & { readonly id: string })[];
  readonly visits: readonly Visit[];
  readonly steps: readonly Step[];
}

const DAY = 24 * 3_600_000;
const dayOf = (at: Instant): IsoDate => at.slice(0, 10);
const opening = (day: IsoDate): Instant => `${day}T08:00:00.000Z`;

/** Every day and moment of a value later by so many days. */
const moved = <T>(value: T, days: number): T =>
  JSON.parse(JSON.stringify(value), (_, each) =>
    typeof each === "string" && /^\d{4}-\d\d-\d\d($|T)/.test(each) ? addDays(dayOf(each), days) + each.slice(10) : each,
  );

/** Throws when the content does not fit together: the demo is ours. */
export async function playYear(db: Database, shop: Demo, told: Year, now: Date): Promise<void> {
  const late = 7 * Math.floor((now.getTime() - Date.parse(opening(addDays(told.lastDay, 1)))) / (7 * DAY));
  const [demo, year] = [moved(shop, late), moved(told, late)];
  const first = opening(year.firstDay);
  await loadRecords(db, demo, first);
  for (const owner of year.owners) await doneAt(db, first, addOwner, owner, {});
  const ids = new V7Generator();
  const things = [
    ...demo.jobs.map((job) => ({ at: opening(job.arrivedOn), run: (at: Instant) => loadJob(db, job, at) })),
    ...demo.jobs.flatMap((job) =>
      job.estimates.map((draft) => ({
        at: opening(draft.input.asOf),
        run: (at: Instant) => loadDraft(db, demo.rateBook, job.id, draft, at),
      })),
    ),
    ...year.visits.flatMap((visit) => played(db, demo, year.by, visit, ids)),
    ...year.steps.map((step) => ({ at: step.at, run: () => shopStep(db, year.by, step, ids) })),
  ];
  things.sort((one, other) => (one.at < other.at ? -1 : one.at > other.at ? 1 : 0));
  // One wait for the disk at the end of it, not one an act.
  await db.run("PRAGMA synchronous = NORMAL");
  for (const { at, run } of things) await run(at);
  await db.run("PRAGMA wal_checkpoint");
  await db.run("PRAGMA synchronous = FULL");
}

/** Where a step is played. */
interface Stage {
  readonly db: Database;
  readonly at: Instant;
  /** For one act: it reads a job once. */
  readonly more: Pick<Desk, "job"> & Partial<Desk>;
}
type OnVisit = Stage & { readonly job: string };
type Said = Readonly<Record<string, unknown>>;

/** Ids rise with the days that are told, since lists are in their order. */
const deskAt = (db: Database, by: string, at: Instant, ids: V7Generator): Stage["more"] => ({
  job: jobsRead(db),
  staff: { id: by, name: by, role: "manager" },
  newId: () => ids.generateOrResetCore(Date.parse(at), 10_000).toString(),
});

const standsAt = async ({ more, job }: OnVisit) => (await more.job(job))!;

const JOB_ACTS = {
  issueEstimate: async (on: OnVisit, value: Said) => {
    const { id } = (await standsAt(on)).draft!;
    const press: Pick<Press, "print"> = {
      print: (sheet, input, before) => {
        const { number, revision, date } = before?.input.paperwork ?? {};
        return estimatePdf(sheet, input, before ? { earlier: { ...before, number, revision, date } } : {});
      },
    };
    await doneAt(on.db, on.at, issueEstimate, value, { id, seen: "any" as const, ...press }, on.more);
  },
  addAgreement: async (on: OnVisit, value: Said) => {
    const job = await standsAt(on);
    const estimate = job.current!.id;
    const chosen = job.revision(estimate)!.sheet!.options.flatMap((option) => (option.chosen ? [option.id] : []));
    await doneAt(on.db, on.at, recordAnswer, { channel: "in person", chosen, ...value }, { estimate }, on.more);
  },
  /** Of what is owed, if anything is. */
  addPayment: async (on: OnVisit, value: Said) => {
    const { deposit, due } = owed(await standsAt(on));
    const amount = value.for === "deposit" ? deposit : due;
    if (amount) await doneAt(on.db, on.at, takePayment, { amount, on: dayOf(on.at), ...value }, { job: on.job }, on.more);
  },
  addLogEntry: (on: OnVisit, value: Said) => doneAt(on.db, on.at, logWork, value, { job: on.job }, on.more),
  addTickOff: (on: OnVisit, value: Said) => doneAt(on.db, on.at, tickOff, value, { job: on.job }, on.more),
  addExtraFault: (on: OnVisit, value: Said) => doneAt(on.db, on.at, addExtraFault, value, { job: on.job }, on.more),
  addCloseOut: async (on: OnVisit, value: Said) => {
    const { warrantyDays } = await shopSettings(on.db);
    const usual = { closedOn: dayOf(on.at), warrantyDays, oldParts: { is: "returned" } };
    await doneAt(on.db, on.at, closeJob, { ...usual, ...value }, { job: on.job }, on.more);
  },
  addHandBack: (on: OnVisit, value: Said) =>
    doneAt(
      on.db,
      on.at,
      closeDeclined,
      { closedOn: dayOf(on.at), oldParts: { is: "returned" }, ...value },
      { job: on.job },
      on.more,
    ),
};

const SHOP_ACTS = {
  /** What the order list asks of a source. */
  addOrder: async ({ db, at, more }: Stage, { source }: Said) => {
    const { list } = await shopOrderList(db, dayOf(at));
    const { lines } = list.sources.find((each) => each.source === source)!;
    const packs = Object.fromEntries(lines.map((each) => [each.offer.id, each.packs]));
    const serves = new Map(lines.map((each) => [each.offer.id, each.jobs]));
    const from = sourceKey(lines[0]!.offer);
    await doneAt(db, at, orderFromList, { orderedOn: dayOf(at), from, packs }, { serves }, more);
  },
  /** All that is on order at a source, at the prices it was ordered at. */
  addGoodsIn: async ({ db, at, more }: Stage, { source }: Said) => {
    const orders = (await openOrders(db)).filter((order) => order.source === source);
    for (const { id: orderLineId, kind, offerId, pieces, packs, price } of orders.flatMap(({ lines }) => lines)) {
      const [offer] = await offersWith(db, [offerId]);
      const came = { receivedOn: dayOf(at), kind, source, state: offer!.state, pieces, paid: packs * price, orderLineId };
      await doneAt(db, at, bringIn, came, {}, more);
    }
  },
};

const said = ({ at: _, do: __, each = [{}], ...shared }: Step): Said[] => each.map((own) => ({ ...shared, ...own }));

async function shopStep(db: Database, by: string, step: Step, ids: V7Generator): Promise<void> {
  for (const value of said(step))
    await SHOP_ACTS[step.do as keyof typeof SHOP_ACTS]({ db, at: step.at, more: deskAt(db, by, step.at, ids) }, value);
}

/** A visit as things that happen one after the other: it comes in, and what is told of it. */
function played(db: Database, demo: Demo, by: string, visit: Visit, ids: V7Generator) {
  let job = "";
  const arrives = async (at: Instant) => {
    const { unit, job: told } = visit;
    const more = () => deskAt(db, by, at, ids);
    if (!(await units.find(db, unit.id))) await doneAt(db, at, addUnit, unit, {}, more());
    ({ id: job } = await doneAt(db, at, addJob, { ...told, ownerId: unit.ownerId, unitId: unit.id }, {}, more()));
    const { id: rateBookId, version: rateBookVersion } = demo.rateBook;
    await doneAt(db, at, addEstimate, { jobId: job, rateBookId, rateBookVersion, input: inputOf(demo, visit) }, {}, more());
  };
  return [
    { at: opening(visit.job.arrivedOn), run: arrives },
    ...visit.steps.map((step) => ({
      at: step.at,
      run: async (at: Instant) => {
        for (const value of said(step))
          await JOB_ACTS[step.do as keyof typeof JOB_ACTS]({ db, at, more: deskAt(db, by, at, ids), job }, value);
      },
    })),
  ];
}

function inputOf(demo: Demo, { unit, job, grade, like, estimate }: Visit): BareInput {
  const { maker, model, serial, declaredValue, hazards = [] } = unit;
  const { arrivedOn, reported = "", condition, accessories = [] } = job;
  const named = { maker, model, ...(serial && { serial }), ...(declaredValue && { declaredValue }), hazards };
  const own = { ...named, grade, reported, storedData: "", accessories, ...(condition && { condition }) };
  const taken = demo.jobs.find(({ id }) => id === like?.job)?.estimates[0]?.input;
  const { items = taken?.items.filter(({ id }) => !like?.without.includes(id)) ?? [], ...rest } = estimate ?? {};
  return {
    ...{ schema: 1, currency: demo.rateBook.currency },
    ...taken,
    ...rest,
    ...{ asOf: arrivedOn, unit: own },
    items: items.map((item) => ({ ...item, certainty: item.certainty ?? { is: "planned" } })),
  };
}
