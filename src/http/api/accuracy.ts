/** How near estimates were, what jobs earned, and what a rate book should learn from them. */
import { createRoute } from "@hono/zod-openapi";
import { learnt } from "../../acts/learnt.js";
import { accuracyAnswer, accuracyQuery, proposalsAnswer } from "../../acts/shapes/accuracy.js";
import { accuracyBoard } from "../../estimating/closeout/accuracy/board.js";
import { dearest } from "../../estimating/closeout/accuracy/costliest.js";
import { proposeRateBook } from "../../estimating/closeout/learning/propose.js";
import { standardId } from "../../estimating/closeout/learning/standard.js";
import type { RateBook } from "../../estimating/input.js";
import type { Database } from "../../records/database.js";
import { goodsTested } from "../../records/goodsIn.js";
import { outcomes } from "../../records/outcomes.js";
import { rateBooks } from "../../records/rateBooks.js";
import { shopSettings } from "../../records/settings.js";
import { standardCosts } from "../../records/standardCosts.js";
import { standardName } from "../../wording/learning.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const accuracy = router();
const tags = ["looking back"];
const MOST_DEAREST = 5;

accuracy.openapi(
  createRoute({
    method: "get",
    path: "/api/accuracy",
    tags,
    operationId: "findAccuracy",
    summary: "How near the estimates of closed jobs were, what the jobs earned, and the standards that cost most",
    request: { query: accuracyQuery },
    responses: { 200: json(accuracyAnswer, "Over the jobs closed"), ...problems("query refused", "not found", ...ALWAYS) },
  }),
  async (c) => {
    const { db } = c.var;
    const { from, to, model } = c.req.valid("query");
    const { currency, rateBookId } = await shopSettings(db);
    const book = (await rateBooks.find(db, rateBookId))?.book;
    if (!book) return refused(c, "not found", { detail: "The shop's rate book is not on record." });
    const [all, costs] = await Promise.all([
      outcomes(db, { currency, from, to, model }),
      standardCosts(db, book, currency, { from: from?.slice(0, 7), to: to?.slice(0, 7) }),
    ]);
    const named = dearest(costs, MOST_DEAREST).map(({ standard, ...rest }) => ({
      ...rest,
      standard: standardId(standard),
      name: standardName(standard),
    }));
    return c.json({ currency, ...accuracyBoard(all), dearest: named } as never, 200) as never;
  },
);

accuracy.openapi(
  createRoute({
    method: "get",
    path: "/api/accuracy/proposals",
    tags,
    operationId: "findProposals",
    summary: "What the shop's closed jobs say its rate book should be; put the accepted ones into a new version",
    responses: { 200: json(proposalsAnswer, "Proposals for the newest version"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { db } = c.var;
    const { rateBookId } = await shopSettings(db);
    const book = (await rateBooks.find(db, rateBookId))?.book;
    if (!book) return refused(c, "not found", { detail: "The shop's rate book is not on record." });
    return c.json((await proposalsFor(db, book)) as never, 200) as never;
  },
);

async function proposalsFor(db: Database, book: RateBook) {
  const [{ jobs, unread, observations }, received] = await Promise.all([learnt(db, book), goodsTested(db)]);
  const { proposals } = proposeRateBook(book, observations, { received });
  return {
    version: book.version,
    jobs,
    unread,
    proposals: proposals.map(({ id, standard, changes, observations: pieces, jobs: of, weight }) => ({
      ...{ id, name: standardName(standard), changes, observations: pieces, jobs: of, weight },
    })),
  };
}
