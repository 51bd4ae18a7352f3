/** Closed jobs looked back on: how near their estimates were, what they earned, and what the rate book should learn from them. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { pastJobs } from "../../acts/closedJobs.js";
import { learnt, readMore } from "../../acts/learnt.js";
import { replaceRateBook } from "../../acts/rateBook.js";
import { today } from "../../acts/today.js";
import { accuracyBoard } from "../../estimating/closeout/accuracy/board.js";
import { dearest } from "../../estimating/closeout/accuracy/costliest.js";
import { whatIf } from "../../estimating/closeout/accuracy/whatIf.js";
import { modelFindings } from "../../estimating/closeout/learning/modelFindings.js";
import { proposeRateBook } from "../../estimating/closeout/learning/propose.js";
import { sharesGood } from "../../estimating/closeout/learning/shareGood.js";
import { isDay } from "../../estimating/day.js";
import { BoardPage } from "../../pages/looking/boardPage.js";
import { ProposalsPage } from "../../pages/looking/proposalsPage.js";
import { WhatIfPage } from "../../pages/looking/whatIfPage.js";
import { goodsTested } from "../../records/goodsIn.js";
import { newestClosed, outcomes } from "../../records/outcomes.js";
import { rateBooks } from "../../records/rateBooks.js";
import { shopSettings } from "../../records/settings.js";
import { standardCosts } from "../../records/standardCosts.js";
import { proposalNote } from "../../wording/learning.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { NOT_A_FORM, type SentForm, sentForm } from "./sentForm.js";

export const lookingBack = new Hono<AppEnv>();

const DRAWN = 300;
const REPRICED = 40;
const NO_DAY = "Give a day, such as 2026-01-31, or leave it empty.";
const NO_BOOK = { detail: "The shop's rate book is not on record." };

lookingBack.get("/looking-back", async (c) => {
  const { db } = c.var;
  const settings = await shopSettings(db);
  const book = (await rateBooks.find(db, settings.rateBookId))?.book;
  if (!book) return refuse(c, "not found", NO_BOOK);
  const fields = new Map(["from", "to", "model"].map((name) => [name, c.req.query(name)?.trim() ?? ""]));
  const errors = new Map(
    ["from", "to"].filter((name) => fields.get(name) && !isDay(fields.get(name)!)).map((name) => [name, NO_DAY]),
  );
  const dayOf = (name: string) => (errors.has(name) ? undefined : fields.get(name) || undefined);
  const [from, to] = [dayOf("from"), dayOf("to")];
  const wanted = { currency: settings.currency, from, to, model: fields.get("model") || undefined };
  const months = { from: from?.slice(0, 7), to: to?.slice(0, 7) };
  const [all, newest, costs] = await Promise.all([
    outcomes(db, wanted),
    newestClosed(db, wanted, DRAWN),
    standardCosts(db, book, settings.currency, months),
  ]);
  return pageAnswer(
    c,
    <BoardPage
      frame={frameFor(c, settings.name)}
      tongue={{ locale: settings.locale, currency: settings.currency }}
      board={accuracyBoard(all)}
      newest={newest}
      dearest={dearest(costs)}
      fields={fields}
      errors={errors}
    />,
    errors.size > 0 ? 422 : 200,
  );
});

lookingBack.get("/looking-back/rate-book", (c) => show(c, { say: c.req.query("read") === undefined ? undefined : "Read." }));

lookingBack.post("/looking-back/rate-book/read", async (c) => {
  const book = await bookOf(c);
  if (!book) return refuse(c, "not found", NO_BOOK);
  await readMore(c.var.db, book);
  return c.redirect("/looking-back/rate-book?read", 303);
});

/** Accepting changes every later price, so it is for a manager. */
lookingBack.post("/looking-back/rate-book", (c) =>
  withTicks(c, async ({ accepted, inForceFrom, version }) => {
    const book = await bookOf(c);
    if (!book) return refuse(c, "not found", NO_BOOK);
    const { apply } = await proposed(c, book);
    const next = apply(accepted, inForceFrom, proposalNote);
    const outcome = await carryOut(replaceRateBook, deskOf(c), { ...next }, { id: book.id, seen: [version] });
    if (outcome.ok) return c.redirect("/rate-book", 303);
    return show(c, {
      say: "The rate book was changed meanwhile. These are the proposals for it as it stands now; nothing was accepted.",
    });
  }),
);

lookingBack.post("/looking-back/rate-book/what-if", (c) =>
  withTicks(c, async ({ accepted, inForceFrom, version }) => {
    const { db } = c.var;
    const [settings, book] = await Promise.all([shopSettings(db), bookOf(c)]);
    if (!book) return refuse(c, "not found", NO_BOOK);
    const { apply } = await proposed(c, book);
    const [past, named] = await Promise.all([
      pastJobs(db, REPRICED),
      newestClosed(db, { currency: settings.currency }, 4 * REPRICED),
    ]);
    const names = new Map(named.map(({ jobId, number, model }) => [jobId, `${number}, ${model}`]));
    return pageAnswer(
      c,
      <WhatIfPage
        frame={frameFor(c, settings.name)}
        tongue={{ locale: settings.locale, currency: settings.currency }}
        result={whatIf(
          past.filter(({ input }) => input.currency === settings.currency),
          apply(accepted, inForceFrom),
        )}
        accepted={accepted}
        version={version}
        inForceFrom={inForceFrom}
        nameOf={(job) => names.get(job) ?? "a job"}
      />,
    );
  }),
);

async function bookOf(c: Context<AppEnv>) {
  const { rateBookId } = await shopSettings(c.var.db);
  return (await rateBooks.find(c.var.db, rateBookId))?.book;
}

async function proposed(c: Context<AppEnv>, book: NonNullable<Awaited<ReturnType<typeof bookOf>>>) {
  const [of, received] = await Promise.all([learnt(c.var.db, book), goodsTested(c.var.db)]);
  return { ...of, received, ...proposeRateBook(book, of.observations, { received }) };
}

interface Ticked {
  readonly accepted: readonly string[];
  readonly inForceFrom: string;
  readonly version: number;
}

async function withTicks(c: Context<AppEnv>, then: (ticked: Ticked) => Promise<Response>): Promise<Response> {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const inForceFrom = sent.fields.get("inForceFrom")?.trim() ?? "";
  const accepted = sent.all("accept");
  const errors = new Map<string, string>();
  if (!isDay(inForceFrom)) errors.set("inForceFrom", "Give the day from which it is in force, such as 2026-12-01.");
  if (accepted.length === 0) errors.set("", "Tick at least one proposal.");
  if (errors.size > 0) return show(c, { sent, errors });
  return then({ accepted, inForceFrom, version: Number(sent.fields.get("version")) || 0 });
}

interface Shown {
  readonly sent?: SentForm;
  readonly errors?: ReadonlyMap<string, string>;
  readonly say?: string | undefined;
}

async function show(c: Context<AppEnv>, { sent, errors = new Map(), say }: Shown) {
  const [settings, book] = await Promise.all([shopSettings(c.var.db), bookOf(c)]);
  if (!book) return refuse(c, "not found", NO_BOOK);
  const { jobs, unread, observations, numbers, proposals, received } = await proposed(c, book);
  const blank = new Map([["inForceFrom", today(c.var.clock(), settings.timeZone)]]);
  return pageAnswer(
    c,
    <ProposalsPage
      frame={frameFor(c, settings.name)}
      locale={settings.locale}
      book={{ name: book.name, version: book.version }}
      proposals={proposals}
      numbers={numbers}
      ticked={new Set(sent?.all("accept") ?? [])}
      jobs={jobs}
      unread={unread}
      models={modelFindings(book, observations)}
      shares={sharesGood(received, book)}
      fields={sent?.fields ?? blank}
      errors={errors}
      say={say}
    />,
    errors.size > 0 ? 422 : 200,
  );
}
