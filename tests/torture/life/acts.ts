/** What a shop or an owner may do next, drawn by where the job stands; now and then what it does not allow, which must be refused. */
import type { JobAsItStands } from "../../../src/acts/job.js";
import { owed } from "../../../src/acts/owed.js";
import { declinedIn } from "../../../src/acts/reckoning.js";
import { today } from "../../../src/acts/today.js";
import { strikeable } from "../../../src/estimating/agreement/choices.js";
import type { Certainty, Pricing, WorkItem } from "../../../src/estimating/input.js";
import { partOf } from "../../../src/estimating/resolve.js";
import type { Agreement } from "../../../src/records/agreements.js";
import type { Issue } from "../../../src/records/issues.js";
import { issues } from "../../../src/records/issues.js";
import { paymentsOf } from "../../../src/records/payments.js";
import { shopRows } from "../../../src/records/shopRows.js";
import { canonical, plain } from "./holds.js";
import type { Dice, LivedIn } from "./shop.js";
import { HAND, KINDS, type ShopKind } from "./shops.js";
import { type JobTold, newJob } from "./told.js";

export interface Drawn {
  readonly name: string;
  readonly method?: "POST" | "PUT";
  readonly to: string;
  readonly body: unknown;
  readonly headers?: Readonly<Record<string, string>>;
  /** Absent: whichever, as long as it is whole. */
  readonly must?: "be done" | "be refused";
  /** Into the simulator's own books. */
  readonly told?: (answer: Record<string, unknown>) => void | Promise<void>;
}

export interface At {
  readonly shop: LivedIn;
  readonly kind: ShopKind;
  readonly of: Dice;
  readonly told: JobTold;
  readonly job: JobAsItStands;
  readonly shelf: Map<string, number>;
}

const one = <T>(of: Dice, among: readonly T[]): T | undefined => (among.length === 0 ? undefined : of.one(among));
const some = <T>(of: Dice, among: readonly T[], chance: number): T[] => among.filter(() => of.next() < chance);
const dayAt = ({ shop, kind }: Pick<At, "shop" | "kind">) => today(shop.now(), kind.timeZone);
const by = { by: HAND };
const text = (value: unknown) => canonical(plain(value));

// ---- intake

const PRICINGS: readonly (Pricing | undefined)[] = [
  undefined,
  { is: "as counted" },
  { is: "fixed price", confidencePercent: 80 },
  { is: "time and parts with ceiling", confidencePercent: 90 },
  { is: "expected cost plus", percent: 20 },
];

function certainty(of: Dice): Certainty {
  const drawn = of.next();
  if (drawn < 0.6) return { is: "planned" };
  if (drawn < 0.8) return { is: "if found", probability: of.one([0.1, 0.3, 0.5, 0.9, 1]) };
  return { is: "optional", chosen: of.next() < 0.4 };
}

function work(of: Dice, id: string): WorkItem {
  const kindOf = () => of.one(KINDS);
  const drawn = of.below(7);
  const own = { name: of.one(["Straighten the lid", "Refit the badge", "Ruß entfernen"]) };
  const said: Partial<WorkItem> =
    drawn === 0
      ? { operation: "clean-pots", count: 1 + of.below(8) }
      : drawn === 1
        ? { operation: "replace", part: { kind: kindOf() }, count: 1 + of.below(3) }
        : drawn === 2
          ? { operation: "replace", part: { type: of.one(["electrolytic", "fuse", "jack"]) }, count: 1 + of.below(5) }
          : drawn === 3
            ? { own: { ...own, minutes: { low: 5, likely: 10 + of.below(40), high: 90 } }, count: 1 }
            : drawn === 4
              ? { own: { ...own, price: 500 + of.below(6000) }, count: 1 + of.below(2) }
              : drawn === 5
                ? { operation: "fault-finding", count: 1 + of.below(3) }
                : {
                    operation: "exchange",
                    part: {
                      own: {
                        name: "Tube, pulled",
                        cost: 1500 + of.below(4000),
                        source: "Wrendale Surplus",
                        state: "used",
                        shareGood: 0.8,
                      },
                    },
                    minutes: { low: 5, likely: 15, high: 40 },
                    count: 1,
                  };
  return { id, ...(said as Omit<WorkItem, "id" | "certainty">), certainty: certainty(of) };
}

async function inputFor(at: Pick<At, "shop" | "kind" | "of">) {
  const { shop, kind, of } = at;
  const items = Array.from({ length: 1 + of.below(5) }, (_, n) => work(of, `w${n + 1}`));
  items[0] = { ...items[0]!, certainty: { is: "planned" } };
  const named = new Set(items.flatMap(({ part }) => (part && "kind" in part ? [part.kind] : [])));
  const { kinds, offers } = await shopRows(shop.db, (zone) => today(shop.now(), zone));
  const pricing = of.one(PRICINGS);
  return {
    ...{ schema: 1, asOf: dayAt(at), currency: kind.currency },
    unit: { maker: "Threnwick", model: "Cadence 3", grade: of.one(["sound", "worn", "poor"]) },
    items,
    ...(named.size > 0 && {
      kinds: kinds.filter(({ id }) => named.has(id)),
      offers: offers.filter(({ kind: of_ }) => named.has(of_)),
    }),
    policy: {
      ...{ benchQueueDays: of.below(10), profile: kind.profile },
      ...(pricing && { pricing }),
      ...(of.next() < 0.5 && { diagnosis: true }),
      ...(of.next() < 0.5 && { diagnosisLimit: 3000 + of.below(9000) }),
      ...(of.next() < 0.15 && { discount: { percent: of.one([5, 10]), reason: "came before" } }),
      ...(of.next() < 0.1 && { discount: { amount: 500 + of.below(900), reason: "promised" } }),
      ...(of.next() < 0.1 && { rush: true }),
      ...(of.next() < 0.1 && { ceiling: 20_000 + of.below(60_000) }),
    },
  };
}

/** Owner, unit, visit and estimate: each an act, the last of them the draft. */
export async function intake(
  at: Pick<At, "shop" | "kind" | "of">,
  send: (act: Drawn) => Promise<Record<string, unknown> | undefined>,
) {
  const { of, shop } = at;
  const owner = await send({
    ...{ name: "owner in", to: "/api/owners", must: "be done" },
    body: {
      name: of.one(["Orla Thistlewick", "Žofie Kapradinová", "Jürgen Birkenmoos"]),
      ...(of.next() < 0.2 && { language: "de" }),
    },
  });
  const ownerId = owner?.id as string;
  const unit = await send({
    ...{ name: "unit in", to: "/api/units", must: "be done" },
    body: { ownerId, maker: "Threnwick", model: "Cadence 3" },
  });
  const job = await send({
    ...{ name: "job in", to: "/api/jobs", must: "be done" },
    body: { ownerId, unitId: unit?.id, arrivedOn: dayAt(at), reported: "Hum on every voice." },
  });
  const { id } = shop.rateBook;
  const { rateBook } = await shopRows(shop.db, (zone) => today(shop.now(), zone));
  if (of.next() < 0.9)
    await send({
      ...{ name: "estimate in", to: "/api/estimates", must: "be done" },
      body: { jobId: job?.id, rateBookId: id, rateBookVersion: rateBook.version, input: await inputFor(at) },
    });
  return newJob(job?.id as string, ownerId);
}

// ---- drawing

type Drawing = (at: At) => Drawn | undefined | Promise<Drawn | undefined>;

const saveDraft: Drawing = ({ job, of }) => {
  const { draft } = job;
  if (!draft) return undefined;
  const { paperwork: _, ...input } = draft.input;
  const items = input.items.map((item) => (of.next() < 0.4 ? { ...item, count: 1 + of.below(6) } : item));
  const more =
    of.next() < 0.3 ? [work(of, `n${draft.revision}${items.length}`)].filter(({ part }) => !(part && "kind" in part)) : [];
  return {
    ...{ name: "draft saved", method: "PUT", to: `/api/estimates/${draft.id}` },
    headers: { "if-match": `"${of.next() < 0.9 ? draft.version : draft.version + 7}"` },
    body: {
      ...{ jobId: job.id, rateBookId: draft.rateBookId, rateBookVersion: draft.rateBookVersion },
      input: { ...input, items: [...items, ...more] },
    },
  };
};

const issue: Drawing = ({ job, told, shop }) => {
  const draft = job.draft ?? job.latest;
  if (!draft) return undefined;
  return {
    ...{ name: "issued", to: `/api/estimates/${draft.id}/issue` },
    headers: { "if-match": `"${draft.version}"` },
    ...(draft.issuedAt && { must: "be refused" as const }),
    body: { ...by },
    told: async ({ id, sheet }) => {
      const record = (await issues.find(shop.db, String(id)))!;
      told.issued.set(String(id), { sheet: text(sheet), pdfHash: record.pdfHash });
    },
  };
};

const link: Drawing = ({ job, told }) =>
  job.current && {
    ...{ name: "link made", to: `/api/estimates/${job.current.id}/owner-links`, must: "be done" },
    body: { ...by, deliveredTo: "orla@thistlewick.example" },
    told: ({ address }) => {
      if (typeof address === "string") told.fragment = address.slice(address.indexOf("#") + 1);
    },
  };

/** A set of the revision: options taken as drawn, some work left out. */
export function setOf(job: JobAsItStands, { id }: Issue, of: Dice) {
  const revision = job.revision(id)!;
  const input = job.inputOf(revision);
  const options = revision.sheet!.options;
  const chosen =
    of.next() < 0.4
      ? options.filter(({ chosen }) => chosen).map(({ id: option }) => option)
      : some(of, options, 0.5).map(({ id: option }) => option);
  const struck = of.next() < 0.6 ? [] : some(of, strikeable(input), 0.4).map(({ id: item }) => item);
  return { chosen, struck };
}

const answer: Drawing = async ({ job, told, of, shop }) => {
  const revision = of.next() < 0.9 ? job.current : one(of, job.issues);
  if (!revision) return undefined;
  const declines = of.next() < 0.2;
  const { chosen, struck } = setOf(job, revision, of);
  const is = declines ? "declined" : struck.length > 0 ? "part agreed" : "agreed";
  const before = job.answerTo(revision.id);
  const corrects = before && of.next() < 0.5 ? { corrects: before.id, reason: "ticked wrongly" } : {};
  const asked = { answer: is, chosen, struck };
  const shown = await shop.post("POST", `/api/estimates/${revision.id}/agreements/preview`, asked, {});
  return {
    ...{ name: declines ? "declined" : is, to: `/api/estimates/${revision.id}/agreements` },
    ...(job.closedOn && !before && { must: "be refused" as const }),
    body: { ...asked, by: "Orla Thistlewick", channel: "e-mail", recordedBy: HAND, writing: "e-mail, 10:12", ...corrects },
    told: (record) => {
      if (told.answers.some((each) => (JSON.parse(each) as Agreement).id === record.id)) return;
      told.answers.push(text(record));
      const said = JSON.parse(shown.text) as Partial<Agreement>;
      for (const key of ["wording", "amount", "ceiling", "deposit"] as const)
        if (said[key] !== record[key]) throw new Error(`shown ${key} '${said[key]}', recorded '${record[key]}'`);
    },
  };
};

const nextRevision: Drawing = ({ job }) => ({
  ...{ name: "next revision", to: `/api/jobs/${job.id}/estimates`, body: {} },
  ...(job.draft && { must: "be refused" as const }),
  told: ({ sheet }) => {
    if (job.latest?.sheet && !sheet) throw new Error("the next revision of one that could be priced has problems");
  },
});

const withdrawDraft: Drawing = ({ job }) =>
  job.draft && {
    name: "draft withdrawn",
    to: `/api/estimates/${job.draft.id}/withdrawal`,
    body: { ...by, reason: "begun by mistake" },
  };

const extraFault: Drawing = ({ job, of }) =>
  job.latest && {
    ...{ name: "extra fault", to: `/api/jobs/${job.id}/extra-fault` },
    body: {
      ...of.one<object>([
        { reason: "a cracked jack", work: "Clean a board", count: 1 + of.below(3) },
        { reason: "regulator drops out when warm", own: "Rebuild the regulator", minutes: 20 + of.below(60) },
        { reason: "a dead stage", part: "jack", count: 2 },
        { reason: "a bent bracket", own: "New bracket", price: 900 + of.below(3000) },
      ]),
      ...(of.next() < 0.3 && { certainty: "if found", chance: of.one([10, 40, 80]) }),
    },
  };

const question: Drawing = ({ job, told, of }) => {
  const open = one(
    of,
    job.questions.filter(({ replies }) => replies.length < 2),
  );
  return (
    open && {
      ...{ name: "replied", to: `/api/questions/${open.id}/replies`, must: "be done" },
      body: { ...by, text: "Yes, the old parts go back." },
      told: () => void told.questions.set(open.id, (told.questions.get(open.id) ?? 0) + 1),
    }
  );
};

// ---- money

const payment: Drawing = (at) => {
  const { job, told, of } = at;
  const { due = 0, deposit, paid } = owed(job);
  const refund = paid > 0 && of.next() < 0.25;
  const usual = refund
    ? 1 + of.below(paid)
    : deposit > 0 && of.next() < 0.6
      ? deposit
      : of.next() < 0.6
        ? due
        : 100 + of.below(20_000);
  const amount = Math.max(0, usual);
  const beyond = of.next() < 0.3;
  const owing = owed(job).due;
  const most = refund
    ? Math.max(0, Math.min(paid, owing === undefined ? paid : -owing))
    : deposit > 0
      ? Math.min(deposit, due)
      : owing;
  const over = most !== undefined && amount > most && !beyond;
  return {
    ...{ name: refund ? "refund" : "payment", to: `/api/jobs/${job.id}/payments` },
    ...(amount === 0 || over ? { must: "be refused" as const } : { must: "be done" as const }),
    body: {
      ...{
        ...by,
        amount,
        on: dayAt(at),
        how: "card",
        for: refund ? "refund" : deposit > 0 ? "deposit" : of.one(["balance", "other"]),
      },
      ...(beyond && { beyond: true }),
    },
    told: ({ id }) => void told.payments.push({ id: String(id), amount: refund ? -amount : amount, gone: false }),
  };
};

const unpay: Drawing = ({ job, told, of }) => {
  const taken = one(of, told.payments);
  return (
    taken && {
      ...{ name: "payment withdrawn", to: `/api/jobs/${job.id}/payments/${taken.id}/withdrawal` },
      must: taken.gone ? "be refused" : "be done",
      body: { ...by, reason: "typed on the wrong job" },
      told: () => {
        taken.gone = true;
      },
    }
  );
};

// ---- bench

const log: Drawing = (at) => {
  const { job, told, of, shelf } = at;
  const input = job.input();
  if (!input) return undefined;
  const item = of.next() < 0.85 ? one(of, input.items) : undefined;
  const part = item && partOf(item);
  const withPart = part !== undefined && !("own" in part) && of.next() < 0.6;
  const pieces = withPart ? 1 + of.below(Math.max(1, item!.count)) : 0;
  const kind = withPart && "kind" in part ? part.kind : undefined;
  const overrides = of.next() < 0.25;
  const passes = job.closedOn !== undefined && !overrides;
  return {
    ...{ name: "logged", to: `/api/jobs/${job.id}/work-log` },
    ...(passes && { must: "be refused" as const }),
    body: {
      ...(item && { item: item.id }),
      ...((!withPart || of.next() < 0.5) && { minutes: of.one([0.5, 6, 12.125, 30, 75]) }),
      ...(withPart && {
        partCount: pieces,
        ...("kind" in part ? { partKind: part.kind } : "type" in part ? { partType: part.type } : {}),
      }),
      ...(of.next() < 0.3 && { beyond: true }),
      ...(overrides && { override: { by: HAND, reason: "the owner said so by telephone" } }),
      ...{ person: HAND, workedOn: dayAt(at) },
    },
    told: ({ id }) => {
      const took = kind === undefined ? undefined : { kind, pieces: Math.min(pieces, shelf.get(kind) ?? 0) };
      if (took) shelf.set(took.kind, (shelf.get(took.kind) ?? 0) - took.pieces);
      told.entries.push({ id: String(id), ...(took && { took }), gone: false });
    },
  };
};

const unlog: Drawing = ({ job, told, of, shelf }) => {
  const entry = one(of, told.entries);
  return (
    entry && {
      ...{ name: "entry withdrawn", to: `/api/jobs/${job.id}/work-log/${entry.id}/withdrawal` },
      must: entry.gone ? "be refused" : "be done",
      body: { ...by, reason: "200 typed for 20" },
      told: () => {
        entry.gone = true;
        if (entry.took) shelf.set(entry.took.kind, (shelf.get(entry.took.kind) ?? 0) + entry.took.pieces);
      },
    }
  );
};

const relog: Drawing = ({ job, told, of, shelf }) => {
  const entry = one(
    of,
    job.everyEntry.filter(
      ({ withdrawal, minutes, item, partKind, partType }) =>
        !withdrawal && minutes !== undefined && item && !partKind && !partType,
    ),
  );
  return (
    entry && {
      ...{ name: "entry corrected", to: `/api/jobs/${job.id}/work-log/${entry.id}/correction` },
      body: {
        ...{ item: entry.item, minutes: 3 + of.below(60), person: HAND, workedOn: entry.workedOn },
        ...(of.next() < 0.4 && { override: { by: HAND, reason: "agreed by telephone" } }),
        withdrawal: { ...by, reason: "typed wrongly" },
      },
      told: ({ id }) => {
        const old = told.entries.find((each) => each.id === entry.id)!;
        old.gone = true;
        if (old.took) shelf.set(old.took.kind, (shelf.get(old.took.kind) ?? 0) + old.took.pieces);
        told.entries.push({ id: String(id), gone: false });
      },
    }
  );
};

const timer: Drawing = ({ job, told, of }) => {
  if (job.timers.length > 0)
    return {
      ...{ name: "timer stopped", to: `/api/jobs/${job.id}/timers/stop` },
      body: {
        person: HAND,
        ...(of.next() < 0.3 && { worked: 5 }),
        ...(of.next() < 0.3 && { override: { by: HAND, reason: "it took longer" } }),
      },
      told: ({ id }) => void told.entries.push({ id: String(id), gone: false }),
    };
  const item = one(of, job.agreed()?.input.items ?? job.input()?.items ?? []);
  return item && { name: "timer started", to: `/api/jobs/${job.id}/timers`, body: { item: item.id, person: HAND } };
};

const tick: Drawing = ({ job, told, of }) => {
  const item = one(of, job.input()?.items ?? []);
  return (
    item && {
      ...{ name: "ticked off", to: `/api/jobs/${job.id}/tick-offs` },
      ...(job.closedOn && { must: "be refused" as const }),
      body: { item: item.id, count: of.below(item.count + 1), person: HAND },
      told: ({ id }) => void told.ticks.push(String(id)),
    }
  );
};

// ---- the end

const close: Drawing = (at) => {
  const { job, told, of, shop } = at;
  const { closeOut } = job;
  const corrects = closeOut && of.next() < 0.7 ? { corrects: closeOut.id, reason: "an entry was wrong" } : {};
  const agreed = job.agreed();
  const beside =
    !closeOut && of.next() < 0.2 ? { payments: [{ on: dayAt(at), amount: 100 + of.below(5000), for: "balance" }] } : {};
  const found = agreed ? some(of, agreed.sheet.ifFound, 0.4).map(({ id }) => id) : [];
  return {
    ...{ name: closeOut ? "close-out corrected" : "closed", to: `/api/jobs/${job.id}/close-outs` },
    ...((!agreed || (closeOut && !("corrects" in corrects))) && { must: "be refused" as const }),
    body: {
      ...{
        ...by,
        closedOn: dayAt(at),
        warrantyDays: 90,
        oldParts: of.one([{ is: "returned" }, { is: "kept", why: "an exchange part" }]),
      },
      untouched: { all: of.one(["done, not timed", "not done", "as planned"]) },
      ...{ unlogged: of.one(["as planned", "none used"]), ...(found.length > 0 && { found }) },
      ...(of.next() < 0.15 && { basis: of.one(["fixed price", "time and parts"]) }),
      ...(of.next() < 0.15 && { above: { by: HAND, reason: "agreed at the counter" } }),
      ...(of.next() < 0.5 && { costs: { otherwise: 2800 } }),
      ...{ ...corrects, ...beside },
    },
    told: async (record) => {
      told.closeOuts.push(text(record));
      const before = new Set(told.payments.map(({ id }) => id));
      const fresh = (await paymentsOf(shop.db, told.id)).filter(({ id }) => !before.has(id));
      if (fresh.length !== (beside.payments ?? []).length) throw new Error(`closed with ${fresh.length} payments`);
      for (const { id, amount } of fresh) {
        if (amount !== beside.payments?.[0]?.amount) throw new Error(`closed with a payment of ${amount}`);
        told.payments.push({ id, amount, gone: false });
      }
    },
  };
};

const erase: Drawing = ({ job, told }) => ({
  ...{ name: "owner erased", to: `/api/owners/${told.owner}/erasure` },
  ...(!job.closeOut && { must: "be refused" as const }),
  body: by,
  told: () => {
    told.erased = true;
  },
});

const handBack: Drawing = (at) => {
  const { job, told, of } = at;
  const { closeOut } = job;
  const corrects = closeOut && of.next() < 0.7 ? { corrects: closeOut.id, reason: "a lead was missing" } : {};
  return {
    ...{ name: closeOut ? "hand-back corrected" : "handed back", to: `/api/jobs/${job.id}/hand-backs` },
    ...(job.issues.length > 0 && !declinedIn(job) && { must: "be refused" as const }),
    body: { ...by, closedOn: dayAt(at), to: "Orla Thistlewick", oldParts: { is: "returned" }, ...corrects },
    told: (record) => void told.closeOuts.push(text(record)),
  };
};

// ---- the shop

const goodsIn: Drawing = (at) => {
  const { of, shelf } = at;
  const [kind, pieces] = [of.one(KINDS), 1 + of.below(12)];
  return {
    ...{ name: "goods in", to: "/api/goods-in", must: "be done" },
    body: {
      ...by,
      receivedOn: dayAt(at),
      kind,
      source: "Pindrake Components",
      state: "new",
      pieces,
      packSize: 1,
      leadDays: 4,
      paid: 20 + of.below(4000),
    },
    told: () => void shelf.set(kind, (shelf.get(kind) ?? 0) + pieces),
  };
};

const counted: Drawing = ({ of, shelf }) => {
  const [kind, now] = [of.one(KINDS), of.below(10)];
  return {
    ...{ name: "counted", to: "/api/stock/counts", must: "be done" },
    body: { ...by, kind, counted: now, reason: "counted on the shelf" },
    told: () => void shelf.set(kind, now),
  };
};

const rateBook: Drawing = async (at) => {
  const { shop, of } = at;
  const { rateBook: book } = await shopRows(shop.db, (zone) => today(shop.now(), zone));
  return {
    ...{ name: "rate book changed", to: `/api/rate-books/${book.id}/changes` },
    headers: { "if-match": `"${book.version}"` },
    body: {
      inForceFrom: dayAt(at),
      ...of.one<object>([
        { labourClasses: [{ id: "bench", ratePerHour: 4000 + of.below(3000) }] },
        { ceiling: { abovePercent: of.below(20) } },
        { operations: [{ id: "replace", unit: { likely: 1 + of.below(20) / 10 } }] },
        { parts: { sundries: { cap: 500 + of.below(2000) } } },
      ]),
    },
  };
};

const nonsense: Drawing = ({ job, told, of }) =>
  of.one<Drawn>([
    {
      name: "no such job",
      to: "/api/jobs/none/payments",
      must: "be refused",
      body: { ...by, amount: 1, for: "other", how: "card", on: "2026-01-01" },
    },
    {
      name: "paid in advance",
      to: `/api/jobs/${job.id}/payments`,
      must: "be refused",
      body: { ...by, amount: 1, for: "other", how: "card", on: "2999-01-01" },
    },
    {
      name: "wrong words",
      to: `/api/jobs/${job.id}/work-log`,
      must: "be refused",
      body: { item: "no such work", minutes: 5, person: HAND },
    },
    { name: "wrong words", to: `/api/jobs/${job.id}/close-outs`, must: "be refused", body: { ...by, closedOn: "2026-02-30" } },
    { name: "wrong words", to: `/api/jobs/${job.id}/timers/stop`, must: "be refused", body: { person: "nobody there" } },
    { name: "wrong words", to: `/api/jobs/${job.id}/hand-backs`, must: "be refused", body: { ...by, to: told.owner } },
  ]);

const WEIGHTS: Readonly<Record<string, readonly (readonly [Drawing, number])[]>> = {
  draft: [
    [saveDraft, 2],
    [issue, 8],
    [withdrawDraft, 0.5],
    [extraFault, 1],
    [log, 1],
    [payment, 0.5],
    [handBack, 0.4],
    [nextRevision, 0.3],
    [timer, 0.5],
  ],
  owner: [
    [answer, 7],
    [link, 2],
    [question, 2],
    [nextRevision, 1],
    [extraFault, 1],
    [payment, 1],
    [log, 1],
    [close, 0.3],
    [issue, 0.2],
  ],
  agreed: [
    [log, 6],
    [timer, 2],
    [tick, 1.5],
    [payment, 2],
    [unlog, 1],
    [relog, 1],
    [unpay, 0.7],
    [extraFault, 1.5],
    [nextRevision, 0.7],
    [close, 2.5],
    [answer, 0.5],
    [question, 1],
    [link, 0.5],
    [handBack, 0.1],
  ],
  declined: [
    [handBack, 4],
    [payment, 1],
    [log, 1],
    [nextRevision, 1],
    [answer, 0.5],
    [extraFault, 0.5],
    [unpay, 0.4],
    [close, 0.3],
  ],
  closed: [
    [payment, 3],
    [close, 1.5],
    [handBack, 1],
    [unpay, 1],
    [unlog, 1],
    [log, 1],
    [relog, 0.5],
    [answer, 0.4],
    [nextRevision, 0.5],
    [issue, 0.3],
    [tick, 0.3],
    [link, 0.3],
    [erase, 0.4],
  ],
};
const SHOP: readonly (readonly [Drawing, number])[] = [
  [goodsIn, 3],
  [counted, 1],
  [rateBook, 1.5],
  [nonsense, 1.5],
];

export const stateOf = (job: JobAsItStands): keyof typeof WEIGHTS =>
  job.closeOut
    ? "closed"
    : job.draft || !job.current
      ? "draft"
      : declinedIn(job)
        ? "declined"
        : job.answerTo(job.current.id)
          ? "agreed"
          : "owner";

function drawnOf(of: Dice, among: readonly (readonly [Drawing, number])[]): Drawing {
  let left = of.next() * among.reduce((sum, [, weight]) => sum + weight, 0);
  for (const [drawing, weight] of among) {
    left -= weight;
    if (left < 0) return drawing;
  }
  return among[0]![0];
}

export async function nextAct(at: At): Promise<Drawn | undefined> {
  const among = at.of.next() < 0.18 ? SHOP : WEIGHTS[stateOf(at.job)]!;
  return drawnOf(at.of, among)(at);
}
