/** Guides to the bench, the parts and the end of a job. */
import type { Guide } from "./guide.js";

export const work: readonly Guide[] = [
  {
    slug: "bench",
    title: "At the bench, also offline",
    gist: "The work order on a tablet: time, ticks, readings and parts used",
    pages: ["/jobs/:id/bench", "/jobs/:id/work-log", "/jobs/:id/work-log/:id/withdrawal"],
    text: `
*Bench*, on the job's page, is the work order: what comes off first, then each work with its count.

- Start and pause a timer beside the work, or enter minutes. Tick off counts. Note readings, expected and found.
- Use a part by scanning a code, by a number of the list and Enter, or by name. *Undo* stands beside what was used last.
- *Another in its place* takes another part for the agreed one; log and account say both.
- Before an answer, time for opening and finding the fault may be logged up to what the intake receipt allows: the diagnosis fee, or the most the owner said to owe.
- *Work that is on no list* takes your own words. Nobody agreed to it, so it is never billed; the close-out shows what it was worth.
- What is not agreed is blocked, and *Extra fault* is one tap away.

## Offline {#offline}

On a bad network, entries wait on the tablet and are sent once, in order. One that is refused stays there until you correct or drop it. The last page of each job can be read without a network, in that browser.

## The work log {#log}

What is not agreed is refused unless someone overrides it by name with a reason; so are time and parts billed as they come that pass the limit, and possible work whose price would. Work billed as agreed is never refused for the hours it takes: log them as they were, and the job tells you once they come to more than is billed. Before an answer, time for opening and finding the fault may be logged up to what the intake receipt allows. A wrong entry is withdrawn or corrected: *Withdraw or correct*. It stays on record, struck through, no longer counts, and its parts go back on the shelf.
`,
  },
  {
    slug: "parts",
    title: "Parts to get, orders and stock",
    gist: "What agreed work takes, what to order, what came in and what is on the shelf",
    pages: [
      "/jobs/:id/parts",
      "/parts",
      "/parts/orders",
      "/parts/orders/:id",
      "/parts/orders/:id/ending",
      "/parts/goods-in",
      "/parts/goods-in/:id/tests",
      "/parts/stock",
      "/parts/stock/:id",
      "/parts/donors",
      "/parts/donors/new",
      "/parts/donors/:id",
      "/parts/donors/:id/pulls",
      "/parts/donors/:id/withdrawal",
    ],
    text: `
- *Parts to get*, from the job's page, is what the agreed work takes: used, on the shelf for this job, on order, and to get. It prints with boxes to tick.
- *Parts*, in the menu, is the order list over all agreed jobs, by source and in whole packs. *Mark as ordered from* its source takes it off the list until it comes in.
- *Goods in* takes what came, what was paid, and how many tested good. The shelf rises, and the price paid becomes a dated [offer](/help/offers).
- **Stock** moves by itself. Where the count is wrong, type what the shelf says. Parts used that the count did not have never hold up the bench.

## Donor units {#donors}

A unit bought for what is in it: its cost, and the parts that can still be pulled, each at a price, at a share of the cost, or at what the others leave of it. Estimates meet them as offers that end where the unit does. *Pull them* takes them off its list: onto the shelf, or used at once on a job.
`,
  },
  {
    slug: "offers",
    title: "The catalogue, offers and other currencies",
    gist: "One dated way to get a part; exchange rates, duty and import tax",
    pages: [
      "/parts/kinds",
      "/parts/kinds/new",
      "/parts/kinds/:id",
      "/parts/kinds/:id/merging",
      "/parts/kinds/:id/offers",
      "/parts/kinds/:id/withdrawal",
      "/parts/offers/:id",
      "/parts/offers/:id/confirmation",
      "/parts/offers/:id/withdrawal",
      "/parts/rates",
      "/parts/rates/:id",
      "/parts/rates/:id/withdrawal",
    ],
    text: `
A part of the catalogue says what a position takes: type, value, rating, form. An offer is one dated way to get it: source, price, pack size, days, state (new, new old stock, used, donor pull, reproduction), how many are to be had, and [how many of them prove good](/help/scarce-parts#share-good).

- *Confirm* takes an offer over to today, at its price now.
- A part that stands there twice is merged into the other. A part or an offer that was a mistake is withdrawn: it stays on record, and out of estimates.

## Other currencies {#currencies}

An exchange rate is what one of another currency costs in yours, with its day and where you read it. An offer in that currency is taken at the rate, then duty in percent, then import tax on both, then a fee for the parcel; each is a step you can read in the line's explanation.

An estimate takes the newest rate that is not after its day, and keeps it. A rate older than 14 days, or than the rate book says, is warned about.
`,
  },
  {
    slug: "closing",
    title: "Closing a job",
    gist: "The final account; what was done, and what was not; a declined job",
    pages: ["/jobs/:id/close-out", "/jobs/:id/hand-back"],
    text: `
*Close out*, once the work is done, shows what was logged against what was allowed and the account as it will be.

- Agreed work that nothing was logged on is asked about in one step: done and not timed, not done, or as planned. What was done is billed and compared as agreed; what was not done is not billed; nothing is learned from either.
- Where nothing that was agreed was done, the diagnosis fee is not credited: owed is what declining would have cost at most, unless the form says that looking is not charged, and there is no warranty.
- A fixed price stays. Time and parts stop at the limit agreed, unless someone overrides it by name.
- Closing prints the final account, which the owner sees too, and shows what the job earned and why it differs: time, parts, scope, risk.
- After that nothing more is logged. A mistake is mended by a correction on top; both are kept.

## Declined {#declined}

Where nothing was agreed to, *Close and hand back* ends the job. Owed is the fee and the time logged, at most what the estimate promised under [if declined after opening](/help/pricing#declined). Where no opening is logged, it asks whether the unit was opened, and says on the account where it was not; an owner who answers before anything was logged is told of no refit. An owner who takes the unit back without a word has declined: record that answer first. Before any estimate was issued there is nothing to answer: *Close and hand back* is there at once, and owed is what was logged of opening and looking, at most what the receipt authorised.
`,
  },
  {
    slug: "learning",
    title: "What is learned from closed jobs",
    gist: "How near the estimates were, and which times the rate book should change",
    pages: ["/looking-back", "/looking-back/rate-book"],
    text: `
*Looking back* shows, for all closed jobs or those of a time or model, how near the estimates were, which standards cost most beyond what they allow, and what jobs earned. Declined jobs count in what was earned alone.

*What the rate book should learn* proposes a time once 3 closed jobs timed it. It names the job that moves the proposal most, and shows what it would have changed. One wild job moves it little, and never against what it took: where it would, the proposal leaves it out and says so. What you accept makes a new version of the rate book; estimates written before keep theirs.

Work that nobody timed is no observation: nothing is learned from it.
`,
  },
];
