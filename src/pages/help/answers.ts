/** Guides to what an owner gets, agrees to and pays. */
import type { Guide } from "./guide.js";

export const answers: readonly Guide[] = [
  {
    slug: "issuing",
    title: "Issuing, and the owner's answer",
    gist: "Freeze the estimate, send the link or the paper, record what the owner said",
    pages: [
      "/jobs/:id/issue",
      "/jobs/:id/links",
      "/jobs/:id/links/:id/withdrawal",
      "/jobs/:id/answers",
      "/jobs/:id",
      "/jobs/:id/trail",
    ],
    text: `
*Issue*, on the job's page, freezes the estimate with its PDF: it never changes again. What is still missing is named first, with the way to fill it in.

If the shop has a public address, a link for the owner is made and shown once. Send it, or give the owner the paper with its number and code. If only this machine opens the shop there is no link: give the owner the PDF, and record the answer.

## The owner's answer {#answer}

The owner opens the link, ticks options and takes ticks away with the price following, agrees (in part, too), declines or asks. The answer is shown once more before it is sent, in the words that go on record. What was left out stays out of later revisions until someone asks for it.

An answer given by telephone, in person or by e-mail is recorded on the job's page: who, when, how, what, and the amount that was told. It is held against what is ticked. After the last day of the offer an agreement is taken only when its box says that the shop keeps its word, and the record tells of it; what was said by then is taken as it is. A wrong one is corrected by a new record, which asks anew when it was said; both are kept. Pages tell when an answer was given, and *Answers and questions* also when it was put on record.

An owner who takes an agreement back declines by such a correction: *Correct this answer, or record that the owner takes it back* stands below each answer. What an earlier revision was agreed at stands until that answer is corrected too; then the job is closed and the unit handed back like any declined one. Work that was done while it was agreed is no looking: the form asks whether it is charged, and says what it comes to: ticked off, at the price agreed; otherwise by its time and parts, and never more than was agreed for it.

## The trail {#trail}

Every event of the job, each holding the one before. *Check the record* works out the job's every figure and paper again, and says whether all is as it was written.
`,
  },
  {
    slug: "papers",
    title: "Papers at three levels",
    gist: "A letter of one page, by assembly, or every line; language, logo, terms",
    pages: ["/jobs/:id/papers", "/settings", "/settings/logo"],
    text: `
- **Letter**: your two sentences of what is wrong and what you will do, the price and its limits, what may be found, what can be chosen, the answer. One page, as a rule; a logo, photos, long terms or many options may make it two.
- **By assembly**: what each assembly comes to.
- **Every line**: all of it.

Totals, limits, terms and rights are the same on each. The usual level stands under *Shop*; *What the owner gets*, on the way to issuing, changes it for one estimate, with your two sentences.

## The shop on paper {#shop}

Name, address, tax number, a footer of up to 4 lines, a logo (PNG or JPEG, at most 200 kB), terms, and paper size stand under *Shop*. What is issued keeps what it went out with.

## Language {#language}

Owner's page, estimate, final account, notices and cautions are in English or German, as the shop has it, or as you say of the owner at intake or under *What the owner gets*. Words of your own stand as you wrote them; what they are called in the other language is asked there, and those that are right are told so at once. Letters the paper lacks (Chinese, Hebrew, Arabic) are named before you issue, so that you can spell them for the paper.

## Screen readers {#screen-readers}

PDFs name their title and language, and tag headings, lists, tables and pictures. Not covered: whether a box is ticked (the words beside it say so), and the language of words you wrote in another one. No validator was at hand, so no conformance with PDF/UA is claimed.
`,
  },
  {
    slug: "extra-faults",
    title: "Extra faults and a new revision",
    gist: "What was found on the bench: its price now, and what the owner is told",
    pages: ["/jobs/:id/extra-fault", "/jobs/:id/changes", "/jobs/:id/draft/withdrawal"],
    text: `
*Extra fault*, on the job's page or at the bench: say what was found, the work or the part, and where. It shows what that costs now, with the unit open, and what it would cost at a later visit, and makes the next revision. The owner is told what changed and why.

- Only what must still be opened is charged: what is open already is not paid again.
- Several faults stand in one revision, each with its own price, and what they share is told.
- Work that is not agreed to waits: the bench marks it, and the work log refuses it until the owner answers.
- A draft that was a mistake is withdrawn with a reason, and the next one takes its number.
`,
  },
  {
    slug: "payments",
    title: "Payments",
    gist: "Deposits, balances, fees and refunds, each with a receipt",
    pages: ["/jobs/:id/payments", "/jobs/:id/payments/:id/withdrawal"],
    text: `
A deposit, a balance, a fee or a refund is recorded on the day it was made: how, and by whom. Each has a receipt to print. Job, bench, list of jobs and owner's page say what is awaited; at the bench somebody lets work begin without the deposit by name and with a reason.

A wrong payment is withdrawn with a reason and stays on record. An amount above what is owed, a deposit above what is still awaited of it, and money given back that is not owed are asked about once.

## Deposit {#deposit}

[How it is worked out](/help/pricing#deposit). Until it is in, the list of jobs says so. What a later revision adds to it is owed with the balance once work has begun on a deposit that was paid; its paper and the owner's page say so. It is taken off the final account.
`,
  },
  {
    slug: "taxes",
    title: "Taxes and law profiles",
    gist: "Which tax stands on what, and what the law may want an estimate to carry",
    pages: [],
    text: `
Tax goes by what a line is: labour, parts, freight or fee, each at a category of the rate book. Prices hold the tax or it is added, as *Rates and prices include tax* says. What parts and freight cost the shop is given without the tax that it gets back. Where prices include tax, a mark-up has to cover that tax too (set-up makes it so), or the part is sold for less than it costs; the estimate says where. Freight has no mark-up: it is charged as it is given. Totals add up as EN 16931 has it: lines, then allowances and charges, then tax for each category, then the total, then what is paid already.

## Law profile {#law-profile}

An agreement profile is a set of rules that come with a place: how far the bill may pass what was agreed, whether the answer must be in writing, how long the offer stands, what happens to the old parts, and what the paper must carry. What an estimate still misses under its profile is named before you issue.

Profiles are data with their sources, for convenience. They are not legal advice: **check your local law**. The shop may have terms of its own for each profile.

## An earlier price {#earlier}

A change of tax, like any change of the rate book, makes a new version. Estimates written before keep theirs.
`,
  },
];
