/** How near estimates were, what jobs earned, and what a rate book should learn from them. */
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
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";

export const accuracy = router();
const NO_BOOK = "The shop's rate book is not on record.";
const MOST_DEAREST = 5;

look(accuracy, {
  ...{ path: "/api/accuracy", tag: "looking back", name: "findAccuracy", query: accuracyQuery, answer: accuracyAnswer },
  title: "How near the estimates of closed jobs were, what the jobs earned, and the standards that cost most",
  ...{ says: "Over the jobs closed", none: NO_BOOK },
  one: async (c, { from, to, model }) => {
    const { db } = c.var;
    const { currency, rateBookId } = await shopSettings(db);
    const book = (await rateBooks.find(db, rateBookId))?.book;
    if (!book) return undefined;
    const [all, costs] = await Promise.all([
      outcomes(db, { currency, from, to, model }),
      standardCosts(db, book, currency, { from: from?.slice(0, 7), to: to?.slice(0, 7) }),
    ]);
    const named = dearest(costs, MOST_DEAREST).map(({ standard, ...rest }) => ({
      ...rest,
      standard: standardId(standard),
      name: standardName(standard),
    }));
    return { currency, ...accuracyBoard(all), dearest: named };
  },
});

look(accuracy, {
  ...{ path: "/api/accuracy/proposals", tag: "looking back", name: "findProposals", answer: proposalsAnswer },
  title: "What the shop's closed jobs say its rate book should be; put the accepted ones into a new version",
  ...{ says: "Proposals for the newest version", none: NO_BOOK },
  one: async ({ var: { db } }) => {
    const book = (await rateBooks.find(db, (await shopSettings(db)).rateBookId))?.book;
    return book && proposalsFor(db, book);
  },
});

async function proposalsFor(db: Database, book: RateBook) {
  const [{ jobs, unread, observations, numbers }, received] = await Promise.all([learnt(db, book), goodsTested(db)]);
  const { proposals } = proposeRateBook(book, observations, { received });
  return {
    version: book.version,
    jobs,
    unread,
    proposals: proposals.map(({ id, standard, changes, observations: pieces, jobs: of, weight, most }) => ({
      ...{ id, name: standardName(standard), changes, observations: pieces, jobs: of, weight },
      ...(most && { most: { ...most, number: numbers.get(most.job) ?? "" } }),
    })),
  };
}
