/** Guides to running the shop. */
import type { Guide } from "./guide.js";

export const shop: readonly Guide[] = [
  {
    slug: "rate-book",
    title: "Your own rates and times",
    gist: "Hourly rates, times, mark-up, fees; what a change does before you save it",
    pages: ["/rate-book", "/rate-book/:id", "/rate-book/:id/:id"],
    text: `
*Rate book* holds what an hour costs, what each kind of work takes, mark-up, sundries, fees, tax, deposit, validity and ceiling. Type a figure and press *See what it does*: the open drafts and the last 10 jobs are priced by both versions. *Save* makes the next version, in force from the day you say. Estimates written before keep theirs.

What you retire stays for what rests on it, and is not offered any more. Each figure says what it rests on, and what closed jobs say of it. *Files and versions* takes the tables out and in again.

## Services {#services}

A flat-rate line: a name, a price, and the work and parts behind it, so that closed jobs tell whether the price holds.
`,
  },
  {
    slug: "staff",
    title: "Staff, sign-in and tokens",
    gist: "Who gets in, and what each may do",
    pages: ["/sign-in", "/sign-in/secret", "/sign-in/invitation", "/account", "/staff", "/tokens"],
    text: `
Until someone has an account, a shop on this machine opens to everyone at this machine. Once there is one, everyone signs in.

- **Managers** do everything. **Technicians** do jobs, bench and estimates; they change neither settings, rates, staff nor tokens, and take no data out.
- *Staff*, under your name, adds people by a link that works once within 3 days, changes roles, closes accounts and lists sign-ins. The last manager stays.
- *Your account* lists your passkeys and where you are signed in; each can be ended there.

| way in | what it needs |
| --- | --- |
| passkey | HTTPS and a name, or localhost; an address such as 127.0.0.1 cannot have one |
| name and passphrase | 15 characters or more |
| recovery code | one of 10, shown once; print them |

A sign-in ends 7 days after its last use, and after 30 days in any case. 10 wrong attempts close that door for 15 minutes, but not to a browser that the account was signed in with before.

## If no manager gets in {#locked-out}

Whoever runs the machine opens *use the shop's secret* on the sign-in page and adds a manager. Everyone sees that in the list of sign-ins.

## Tokens {#tokens}

For programs: what they may do is \`read\` or \`write\`, and \`admin\` beside them for what only a manager may. A token is shown once, and acts in your name. [Programs](/help/programs) says more.
`,
  },
  {
    slug: "safety",
    title: "Safety",
    gist: "What the shop assumes of a unit until someone says otherwise",
    pages: [],
    text: `
**Opening mains equipment can kill.** Bench sheets and bench pages print the usual cautions. They do not replace local codes or a qualified person, and they never hold up printing an estimate.

- A unit counts as mains powered, and its supply as charged, until someone says otherwise under *Hazards of this unit*.
- Work on mains parts is offered its safety test.
- Work on a memory cell asks what the unit holds. *Save the memory first* stands before all other work, and the owner is told on the estimate.
- Work in your own words may name its danger; the caution follows.

Cautions are told for mains and stored charge, valve high tension, lithium cells, lead solder, solvent vapour, mercury, asbestos, selenium and picture tubes.
`,
  },
  {
    slug: "backup",
    title: "Backup, and data in and out",
    gist: "The whole shop in one file; CSV; one owner's data and their erasure",
    pages: ["/data", "/data/in/:id", "/data/owners", "/data/owners/:id"],
    text: `
Everything of a shop is its database and its photos. Whoever runs it takes a backup of all of it in one file, also while the shop runs; README says how, and how to go back. Do it every day, keep it on another machine, and try once that it can be read back.

## CSV in {#in}

Part kinds, offers, exchange rates and parts lists (bills of materials), in any order of columns and under any headings: which is which is asked once and remembered. Each file is shown row by row first, with what is wrong and where; then all of it is written, or nothing. Files up to 5 MiB. *Lines as CSV*, on a job, takes the lines of a draft out and in.

## CSV out {#out}

Owners, units, jobs, models, estimates and their lines, agreements, work log, payments, closed jobs, parts, offers and standards. Texts that begin with =, +, - or @ have an apostrophe in front, so that no spreadsheet runs them.

## One owner {#owner}

Everything held about them in one file, and their erasure. Names, contact, texts, papers and photos go; numbers, amounts and the chain of events stay. Backups made before still hold them. How long accounts must be kept: check your local law.
`,
  },
  {
    slug: "find",
    title: "Find, calendar and mail",
    gist: "Look through all jobs and this help; days for the calendar; the shop's own mail",
    pages: ["/find", "/settings/sending"],
    text: `
*Find* looks through owners, units, serial numbers, complaints, faults and notes, and through these pages. 2 letters are enough; several words narrow it down. Arrow keys and Enter open what was found.

*Days for the calendar*, on a job's page, holds the promised day and the last day of the offer. *Write the e-mail*, where the owner's link is shown, opens your mail program with recipient, subject, text and link.

## Send hook {#sending}

For a shop whose own program sends its mail: a signed message (Standard Webhooks) goes to it when you tick it while issuing. *Sending*, under *Shop*.
`,
  },
  {
    slug: "programs",
    title: "Programs: the API",
    gist: "What pages do, programs do too",
    pages: ["/api", "/problems", "/problems/:id"],
    text: `
[The API](/api) is a reference of every call, each with an example that works on the demo shop; the same stands as OpenAPI at \`/openapi.json\`. README has a chain of calls from intake to the closed job.

- Money is whole minor units; minutes and percentages are plain numbers.
- What is refused is answered as problem details (RFC 9457). [All kinds of them](/problems).
- A change wants \`If-Match\`. A new record may carry an \`Idempotency-Key\`, kept for 24 hours, so that sending twice does it once.
- A [token](/help/staff#tokens) says who is asking.
`,
  },
];
