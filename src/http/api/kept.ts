/** Nouns that the shop keeps as they are. Each acts as its declaration says; here stand the addresses, and what narrows the lists. */
import { createRoute, z } from "@hono/zod-openapi";
import { and, eq, sql } from "drizzle-orm";
import { changeRateBook } from "../../acts/changeRateBook.js";
import { shopRateBook } from "../../acts/checked.js";
import { addDonor, donor, pullFromDonor, replaceDonor, withdrawDonor } from "../../acts/donor.js";
import { addExchangeRate, exchangeRate, replaceExchangeRate, withdrawExchangeRate } from "../../acts/exchangeRate.js";
import { mergePartKind } from "../../acts/mergePartKind.js";
import { addModel, model, replaceModel } from "../../acts/model.js";
import { addOffer, confirmOffer, offer, replaceOffer, withdrawOffer } from "../../acts/offer.js";
import { addOwner, owner, replaceOwner } from "../../acts/owner.js";
import {
  addPartKind,
  partKind,
  partStanding,
  partStandingShape,
  replacePartKind,
  withdrawPartKind,
} from "../../acts/partKind.js";
import { addRateBook, rateBook, replaceRateBook } from "../../acts/rateBook.js";
import { inJobState, JOB_STATES, type JobState, NEXT_STEPS, standings } from "../../acts/standing.js";
import { addUnit, replaceUnit, unit } from "../../acts/unit.js";
import { addJob, replaceJob, visit } from "../../acts/visit.js";
import { saysAll } from "../../records/catalogue.js";
import type { Database } from "../../records/database.js";
import { donors } from "../../records/donors.js";
import { exchangeRatesTable, exchangeRates as rates } from "../../records/exchangeRates.js";
import { type Job, jobsTable, jobs as visits } from "../../records/jobs.js";
import { models as maps, modelsTable } from "../../records/models.js";
import { offersTable, offers as ways } from "../../records/offers.js";
import { owners as people } from "../../records/owners.js";
import { partKinds as kinds, partKindsTable } from "../../records/partKinds.js";
import { rateBooks as books } from "../../records/rateBooks.js";
import { units as things, unitsTable } from "../../records/units.js";
import { ALWAYS, json, problems } from "../doors/answers.js";
import { apiDoor } from "../doors/api.js";
import { etagOf } from "../doors/etag.js";
import { look } from "../doors/look.js";
import { resource } from "../doors/resource.js";
import { refused } from "./change.js";

const WITHDRAWN = { withdrawn: "yes: those that were withdrawn, in place of the others" };

const owners = resource({
  ...{ ...owner, path: "/api/owners", many: "owners", add: addOwner, replace: replaceOwner },
  find: people.find,
  list: (db, wanted) => people.list(db, wanted),
});

const units = resource({
  ...{ ...unit, path: "/api/units", many: "units", add: addUnit, replace: replaceUnit },
  narrow: { owner: "Only units of this owner" },
  find: things.find,
  list: (db, wanted, { owner }) => things.list(db, wanted, owner ? eq(unitsTable.ownerId, owner) : undefined),
});

const models = resource({
  ...{ ...model, path: "/api/models", many: "models", add: addModel, replace: replaceModel },
  narrow: { maker: "Only models of this maker", model: "Only this model" },
  find: maps.find,
  list: (db, wanted, { maker, model: name }) =>
    maps.list(
      db,
      wanted,
      and(
        maker ? sql`lower(${modelsTable.maker}) = lower(${maker})` : undefined,
        name ? sql`lower(${modelsTable.model}) = lower(${name})` : undefined,
      ),
    ),
});

const partKinds = resource({
  ...{ ...partKind, path: "/api/part-kinds", many: "part kinds", add: addPartKind, replace: replacePartKind },
  withdraw: withdrawPartKind,
  narrow: {
    type: "Only kinds of this part type",
    find: "Words in any order, each of them somewhere in name, id, type, value, rating, form, notes or a source",
    ...WITHDRAWN,
  },
  find: kinds.find,
  list: async (db, wanted, { type, find, withdrawn }) => {
    const said = find ? saysAll(find, (await shopRateBook(db)).partTypes) : undefined;
    return kinds.list(db, wanted, and(type ? eq(partKindsTable.type, type) : undefined, said), withdrawn === "yes");
  },
});
look(partKinds, {
  ...{ path: "/api/part-kinds/{id}/standing", tag: "part kinds", name: "findPartStanding", answer: partStandingShape },
  ...{ title: "What stands with a part: to come, last paid, tested, where used", says: "As of now" },
  none: "There is no such part kind.",
  one: async ({ var: { db, clock } }, { id }) => ((await kinds.find(db, id)) ? partStanding(db, id, clock()) : undefined),
});
apiDoor(partKinds, mergePartKind, {
  ...{ path: "/api/part-kinds/{id}/merging", tag: "part kinds", refusals: ["not found", "withdrawn already"] },
  description:
    "For a part that is in the catalogue twice: stock, offers, orders, goods in and open drafts go over to the one kept, and it is withdrawn. Parts that differ in type, leads, value or rating are refused",
  on: ({ id }) => ({ id }),
});

const offers = resource({
  ...{ ...offer, path: "/api/offers", many: "offers", add: addOffer, replace: replaceOffer },
  withdraw: withdrawOffer,
  narrow: { kind: "Only offers of this part kind", ...WITHDRAWN },
  find: ways.find,
  list: (db, wanted, { kind, withdrawn }) =>
    ways.list(db, wanted, kind ? eq(offersTable.kind, kind) : undefined, withdrawn === "yes"),
});

apiDoor(offers, confirmOffer, {
  ...{ path: "/api/offers/{id}/confirmation", tag: "offers", onVersion: true, refusals: ["not found", "withdrawn already"] },
  ...{ status: 200, description: "The price is of one pack, as of that day; everything else stays as it was offered" },
  on: ({ id }, seen) => ({ id, seen }),
  headers: (record) => ({ etag: etagOf(record) }),
  headersTold: { ETag: "Its version" },
});

const PULLED = ["not found", "withdrawn already", "job closed", "work unagreed", "part unagreed", "limit passed"] as const;
const donorUnits = resource({
  ...{ ...donor, path: "/api/donors", many: "donor units", add: addDonor, replace: replaceDonor },
  ...{ withdraw: withdrawDonor, moves: true, narrow: WITHDRAWN, find: donors.find },
  list: (db, wanted, { withdrawn }) => donors.list(db, wanted, withdrawn === "yes"),
});
apiDoor(donorUnits, pullFromDonor, {
  ...{ path: "/api/donors/{id}/pulls", tag: "donor units", refusals: PULLED },
  description: "Goods in from the unit: onto the shelf, or used at once on a job. What can still be pulled falls by as many",
  on: ({ id }) => ({ id }),
});

const exchangeRates = resource({
  ...{ ...exchangeRate, path: "/api/exchange-rates", many: "exchange rates", add: addExchangeRate, replace: replaceExchangeRate },
  withdraw: withdrawExchangeRate,
  narrow: { currency: "Only rates of this currency", ...WITHDRAWN },
  find: rates.find,
  list: (db, wanted, { currency, withdrawn }) =>
    rates.list(db, wanted, currency ? eq(exchangeRatesTable.currency, currency) : undefined, withdrawn === "yes"),
});

const stateShape = z.enum(JOB_STATES).meta({
  id: "JobState",
  description:
    "draft: nothing is issued yet, or something newer is being made; answered: agreed to in whole or in part, and nothing is logged yet; ready: all agreed work is logged or ticked off",
});
const nextShape = z.enum(NEXT_STEPS).meta({ id: "NextStep", description: "What the shop does next" });
const withStates = async (db: Database, rows: readonly Job[], now: Date) => {
  const found = await standings(
    db,
    rows.map(({ id }) => id),
    now,
  );
  return rows.map((job) => {
    const { state, next, by } = found.get(job.id)!;
    return { ...job, state, next, ...(by !== undefined && { nextBy: by }) };
  });
};
const jobs = resource({
  ...{ ...visit, path: "/api/jobs", many: "jobs", add: addJob, replace: replaceJob, moves: true },
  kept: visit.kept
    .extend({
      ...{ state: stateShape, next: nextShape },
      nextBy: z.iso.date().optional().meta({ description: "The day the offer ends, or the one the unit was promised for" }),
    })
    .meta({ id: "JobStanding", description: "A job, the state it is in, and what is next" }),
  narrow: { unit: "Only visits of this unit", state: stateShape },
  find: async (db, id, now) => {
    const found = await visits.find(db, id);
    return found && (await withStates(db, [found], now))[0];
  },
  list: async (db, wanted, { unit, state }, now) => {
    const within = state ? await inJobState(db, state as JobState, unit ? undefined : wanted) : undefined;
    const page = await visits.list(db, wanted, and(unit ? eq(jobsTable.unitId, unit) : undefined, within));
    return { ...page, rows: await withStates(db, page.rows, now) };
  },
});

const rateBooks = resource({
  ...{ ...rateBook, path: "/api/rate-books", many: "rate books", add: addRateBook, replace: replaceRateBook },
  find: books.find,
  list: books.list,
});
rateBooks.openapi(
  createRoute({
    method: "get",
    path: "/api/rate-books/{id}/versions/{version}",
    tags: ["rate books"],
    operationId: "findRateBookVersion",
    summary: "One version of a rate book",
    request: {
      params: z.strictObject({ id: z.string().min(1).max(100), version: z.coerce.number().int().min(1).max(1_000_000) }),
    },
    responses: { 200: json(rateBook.kept, "That version"), ...problems("not found", "query refused", ...ALWAYS) },
  }),
  async (c) => {
    const { id, version } = c.req.valid("param");
    const found = await books.findVersion(c.var.db, id, version);
    return found ? (c.json(found as never, 200) as never) : refused(c, "not found", { detail: "There is no such version." });
  },
);

apiDoor(rateBooks, changeRateBook, {
  ...{ path: "/api/rate-books/{id}/changes", tag: "rate books", onVersion: true, refusals: ["not found"] },
  on: ({ id }, seen) => ({ id, seen }),
  statusOf: ({ written }) => (written ? 201 : 200),
  shown: ({ record, effect, written }) => ({ record, effect, written }),
  headers: ({ record, written }): Record<string, string> => (written ? { etag: etagOf(record) } : {}),
  headersTold: { ETag: "The version that was written" },
});

export const kept = [owners, units, models, rateBooks, partKinds, offers, donorUnits, exchangeRates, jobs];
