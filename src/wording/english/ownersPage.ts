/** What the pages say that an owner's link opens. */

type AnswerGiven = "agreed" | "part agreed" | "declined";
type Channel = "page" | "in person" | "telephone" | "e-mail";

const frame = {
  error: "Error",
  skip: "Skip to the page",
  reach: "How to reach us",
  write: "How to write to us",
  keepToYourself: "This page is for you alone. Keep its address to yourself: whoever has it can read and answer the estimate.",
  problems: (count: number) =>
    count === 1 ? "One thing is still missing or unclear" : `${count} things are still missing or unclear`,
  notTaken: "Your answer was not taken",
  /** `by`: a sentence. */
  answered: (answer: string, by: string) =>
    `An answer is on record already, and it stands: ${answer}. ${by} What was sent now changes nothing. If the record is not what you meant, tell us.`,
};

const gone = {
  title: "This link has ended",
  expired: (since: string) => `It was good until ${since}.`,
  withdrawn: (shop: string, since: string) => `${shop} withdrew it on ${since}.`,
  nothingLost: "Nothing you answered before is lost.",
  current: "The current estimate is",
  openIt: "If you have a newer link to it, or the code on its paper, open it with that; otherwise ask us for one.",
};

const wait = {
  title: "One moment",
  tooOften: (seconds: number) =>
    `The price was worked out for this link very often within a minute. Nothing you ticked or typed is lost: wait ${seconds} seconds, then try again.`,
  again: "Try again",
};

const entry = {
  title: "Your estimate",
  typeBoth: "Type the two that stand at the end of the printed estimate, beside the square code.",
  number: "Estimate number",
  numberHint: "Such as J-2026-0001.",
  code: "Code",
  codeHint: "Ten letters and figures. Capitals, spaces and dashes do not matter.",
  open: "Open the estimate",
  tooMany: (minutes: number) => `Too many attempts. Wait ${minutes} minutes, then try again.`,
  bothWanted: "Type the number of the estimate and the code that stands beside it.",
  nothingHere:
    "This link opens nothing here; it may have been cut short. Type the number and the code from your estimate instead.",
  noSuch: "No estimate has this number with this code. Both stand beside the square code at the end of the estimate.",
};

/** By the refusal, or the field it is about. What is not here is said as the act says it. */
const refused: Readonly<Record<string, string>> = {};

const head = {
  ref: (number: string, revision: number) => `${number}, revision ${revision}`,
  title: (number: string, revision: number) => `Estimate ${number}, revision ${revision}`,
  estimateFor: (unit: string) => `Estimate for your ${unit}`,
  forOwner: (owner: string) => `For ${owner}.`,
  serial: (serial: string) => `Serial number ${serial}`,
  youTold: "You told us",
  weFound: (found: string) => `We found: ${found}`,
  pdf: "This estimate as PDF",
  workOut: "Work out the price",
  total: "Total",
  toAnswer: "Answer",
  photos: "Photos",
  photo: (number: number) => `Photo ${number}`,
  notices: "What you should know",
  caution: "Caution",
  reckoning: "How it adds up",
  reckoningOffered: "How this estimate added up",
};

const standing = {
  label: "Where this estimate stands",
  closed: {
    done: "The work is done",
    "nothing done": "Nothing that was agreed was done",
    "handed back": "The unit was handed back",
  } as Readonly<Record<"done" | "nothing done" | "handed back", string>>,
  notDone: (names: string) => `Not done: ${names}.`,
  account: (day: string, total: string, corrected: boolean) =>
    `${corrected ? "Corrected final account" : "Final account"} of ${day}: total ${total}, tax included;`,
  paidBack: (amount: string) => `${amount} to be paid back to you`,
  stillToPay: (amount: string) => `${amount} still to pay`,
  accountPdf: "Final account as PDF",
  replaced: (revision: number) => `Revision ${revision} has taken the place of this one.`,
  notAnyMore: "This one can no longer be agreed to.",
  since: {
    declined: (revision: number) => `Revision ${revision} was declined.`,
    offered: (revision: number) => `Revision ${revision} waits for your answer.`,
  },
  stillStands: "This one is agreed to, and it stands.",
  openRevision: (revision: number) => `Open revision ${revision}`,
  open: "We do nothing that you have not agreed to. This offer is good until",
  ended: (until: string) => `This offer ended on ${until}`,
  afterEnd: ", so it can no longer be agreed to. You may still decline it, or ask us for a new one below.",
  deposit: (amount: string) => `Deposit still to pay: ${amount}.`,
  found: (amount: string, total: string) =>
    `Of the work you agreed to in case it is necessary, ${amount} has proved necessary so far; with it the total is ${total}.`,
  paid: (amount: string, due: string | undefined, when: "once done" | "now" | "back") =>
    `Paid so far: ${amount}${due === undefined ? "" : `; ${{ "once done": "still to pay once the work is done", now: "still to pay", back: "to be paid back to you" }[when]}: ${due}`}.`,
  lastDay: "Put the last day in your calendar",
  readyDay: "Put the day it should be ready in your calendar",
  readyOn: (on: string) => `About ready on ${on}.`,
  answers: { agreed: "Agreed", "part agreed": "Agreed in part", declined: "Declined" } as Readonly<Record<AnswerGiven, string>>,
  channels: {
    page: "on this page",
    "in person": "in person",
    telephone: "by telephone",
    "e-mail": "by e-mail",
  } as Readonly<Record<Channel, string>>,
  by: (name: string, channel: string, at: string) => `By ${name}, ${channel}, ${at}.`,
  corrects: "This corrects an earlier answer.",
  amount: (total: string, most: string | undefined) => `Total ${total}${most === undefined ? "" : `, never more than ${most}`}.`,
  optionsTaken: (names: string) => `Options taken: ${names}.`,
  leftOut: (names: string) => `Left out: ${names}.`,
  receipt: "Receipt",
  receiptWhy: "Keep it: it shows that this answer stands on record as it is. If it is not what you meant, tell us.",
};

const inShort = {
  name: "In short",
  total: (taxed: boolean): string => (taxed ? "Total, tax included" : "Total"),
  due: "Still due",
  paid: (amount: string) => `${amount} is paid already.`,
  ceiling: "Never more than",
  ceilingWhy: "We stop and ask you before the bill passes it.",
  deposit: "Deposit",
  depositWhy: "To be paid before we start; part of the total.",
  depositPaid: (paid: string, due: string | undefined) =>
    due === undefined ? `${paid} of it is paid.` : `${paid} of it is paid; ${due} is still due.`,
  depositBegun: (paid: string) => `${paid} of it is paid and work has begun; the rest is due with the balance.`,
  ...{ agreedIn: (revision: number) => `Agreed in revision ${revision}`, agreedWhy: "It stands until you agree to more." },
  ...{ stands: (revision: number) => `Agreed in revision ${revision}, which stands`, account: "Final account" },
  declinedThis: (revision: number, earlier: number) =>
    `Revision ${revision} was declined; what was agreed in revision ${earlier} stands.`,
  ...{ paidSoFar: "Paid so far", toPay: "Still to pay", paidBack: "To be paid back to you" },
  ...{ declined: "Declined; at most you owe" },
  agreedThen: (amount: string, within: boolean) =>
    `${within ? "Of that" : "Beside it"}, work done while it was agreed, before that was taken back, comes to ${amount}, tax included.`,
  ifDeclined: "If you decline once it is open",
  ifDeclinedWhy: "The most you would owe for finding the fault, opening and closing it.",
  ready: "Ready in about",
  days: (days: number) => `${days} ${days === 1 ? "day" : "days"}`,
  readyWhy: "From your answer.",
  until: "Good until",
};

const changes = {
  since: (revision: number, agreed: boolean) =>
    agreed ? `What changed since what you agreed to in revision ${revision}` : `What changed since revision ${revision}`,
  declined: (revision: number) => `What revision ${revision}, which was declined, would have changed`,
  caption: "What the total changed by, by cause",
  because: "Because of",
  same: "The total is the same.",
  rows: (count: number) => `Row by row (${count})`,
  hint: "Amounts of rows are before tax where tax comes on top; those of options and of what we may find have it in.",
  notInTotal: "not in the total",
};

const madeOf = {
  name: "What it is made of",
  sum: "Sum of the lines",
  withoutTax: "Without tax",
  ofBase: (percent: string, base: string) => `${percent} of ${base}`,
  total: (within: boolean): string => (within ? "Total; the lines include tax" : "Total"),
  paid: "Paid already",
  due: "Still due",
};

const choice = {
  name: "Your choice",
  tick: "Tick what you want. ",
  shared: "Options share work, so each price goes with the others as they are ticked; the total is worked out for the whole set.",
  packages: "Pick one",
  packagesHint: (open: boolean): string =>
    `Each price is that of everything with exactly these options.${open ? " You can still change single ticks below." : ""}`,
  noOptions: "The work above, without any option.",
  pick: (name: string) => `Take ${name}`,
  taken: "taken",
  left: "left",
  inTotal: "in the total",
  toTotal: "to the total",
  work: "The work, piece by piece:",
  ticked: (ticked: number, of: number): string => (ticked === of ? `all ${of} ticked` : `${ticked} of ${of} ticked`),
  workToDo: "The work to be done",
  /** `more`, `less`: charges and discounts by percent, by name. */
  workHint: (beforeTax: boolean, more: string, less: string): string =>
    `What is ticked will be done. Take a tick away to leave that work out; the total follows. ${beforeTax ? "The amounts here are before tax: tax, openings" : "Openings"} and what several works share come on top${more && `, as well as: ${more}`}.${less && ` Taken off: ${less}.`} Leaving work out may leave the fault in; ask us if you are not sure.`,
  onlyIf: "Only if it proves necessary, and not in the total; these amounts have all of that in:",
  onlyIfCovered: "Only if it proves necessary; the fixed price covers it:",
  ifFound: "What we may find",
  covered: "The fixed price covers it: it is done when it proves necessary, and you pay no more for it.",
  notCovered:
    "Not in the total. Agreeing covers it: it is done and charged only if it proves necessary, and never past the amount under ‘Never more than’.",
  coveredShort: "covered",
  chance: (share: string) => `chance ${share}`,
  worthDoing: "Worth doing while it is open",
  worthDoingHint: "Not part of this estimate. If you want any of it, ask us on this page, and we put it into a new revision.",
  worthDoingCaption: "What it would come to now and at a later visit, tax included",
  ...{ workHead: "Work", now: "Now", later: "At a later visit" },
};

const answer = {
  name: "Your answer",
  hint: "It is for what is ticked above. You see it once more before it is sent.",
  fullName: "Your full name",
  fullNameHint: "It counts as your signature.",
  agree: (amount: string) => `Agree to this work for ${amount}`,
  agreeInPart: (amount: string) => `Agree to part of the work, for ${amount}`,
  ask: "Ask us something",
  decline: (amount: string) => `Decline, and owe ${amount} at most`,
  declineUnopened: (amount: string) => `Decline and have it back as it came, and owe ${amount} at most`,
  declineRevision: (revision: number, earlier: number) => `Decline revision ${revision}; revision ${earlier} stands`,
};

const check = {
  title: "One last look before you send",
  notSent: "Your answer is not sent yet.",
  estimate: "Estimate",
  yourAnswer: "Your answer",
  acts: { agreed: "Agree", "part agreed": "Agree in part", declined: "Decline" } as Readonly<Record<AnswerGiven, string>>,
  ifDeclined: "If you decline once it is open",
  owed: "You owe",
  atMost: (amount: string) => `${amount} at most`,
  taken: "Options taken",
  none: "none",
  left: "Options left",
  struck: "Work left out",
  total: "Total",
  ceiling: "Never more than",
  by: "Name",
  onRecord: "These words go on record:",
  goBack: "Go back and change it",
};

const questions = {
  name: "Questions",
  asked: (at: string) => `You asked, ${at}`,
  notYet: "Not answered yet.",
  replied: (by: string, at: string) => `${by} replied, ${at}`,
  first: "Ask us something",
  more: "Ask something else",
  hint: "We reply here, on this page. A question is not an answer to the estimate.",
  send: "Send the question",
};

/** Said at the top when something was done. */
const said = {
  answer: "Your answer is on record. Keep the receipt below.",
  question: "Your question is with us. You will find the reply here.",
  other:
    "Nothing was sent. Another estimate was opened in this browser meanwhile, and this is that one; to go on with the other, open its link again.",
};

/** To a mailbox, with a link to the page. */
const mail = {
  subject: (number: string, revision: number, unit: string) => `Estimate ${number}, revision ${revision}: ${unit}`,
  dear: (name: string) => (name ? `Dear ${name},` : "Hello,"),
  ready: (unit: string) => `our written estimate for your ${unit} is ready. Read it and answer it here:`,
  otherwise: (page: string, number: string, code: string) =>
    `If the link does not open, go to ${page} and type the number ${number} and the code ${code}.`,
};

/** Of the days that an owner keeps. */
const calendar = {
  offerEnds: (number: string, unit: string) => `Estimate ${number} ends: ${unit}`,
  lastDay: (revision: number, number: string, shop: string) =>
    `Last day to agree to revision ${revision} of estimate ${number} of ${shop}.`,
  ready: (unit: string, number: string) => `${unit} about ready (${number})`,
  fromAnswer: (days: number, agreedOn: string, shop: string) =>
    `About ${days} ${days === 1 ? "day" : "days"} from the answer of ${agreedOn}, as the estimate of ${shop} says. Ask before you come.`,
};

/** The words of an answer, put on record as they are shown. */
const words = {
  estimate: (number: string | undefined) => `estimate ${number ?? ""}`.trim(),
  revision: (revision: number) => `revision ${revision}`,
  of: (day: string) => `of ${day}`,
  agree: (estimate: string) => `I agree to ${estimate}: do the work listed.`,
  agreeInPart: (estimate: string, left: string) => `I agree to ${estimate} in part: do the work listed, but not ${left}.`,
  noOptions: "I take none of the options.",
  options: (count: number, names: string) => `I take the ${count === 1 ? "option" : "options"}: ${names}.`,
  covered: "The possible work listed may be done when it proves necessary; the price covers it.",
  possible: "The possible work listed may be done when it proves necessary, at its price.",
  upTo: (total: string, most: string) =>
    `I agree that it comes to ${total}, tax included, and never to more than ${most} without a new agreement.`,
  declineRevision: (estimate: string, earlier: number) =>
    `I decline ${estimate}. What I agreed to in revision ${earlier} stands.`,
  declineUnopened: (estimate: string, owed: string) =>
    `I decline ${estimate}. Return the unit, and open nothing more of it. For what was done before this I owe no more than ${owed}, tax included.`,
  declineAfter: (most: string) =>
    `For work done while it was agreed I owe at most what was agreed for it, and for both together no more than ${most}, tax included.`,
  decline: (estimate: string, owed: string) =>
    `I decline ${estimate}. Refit the unit and return it. For opening and diagnosis already done I owe no more than ${owed}, tax included.`,
};

export const ownersPage = {
  ...{
    frame,
    gone,
    wait,
    entry,
    refused,
    head,
    standing,
    inShort,
    changes,
    madeOf,
    choice,
    answer,
    check,
    questions,
    said,
    mail,
    calendar,
    words,
  },
};

export type OwnersPage = typeof ownersPage;
