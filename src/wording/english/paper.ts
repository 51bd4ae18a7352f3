import type { EstimateInput } from "../../estimating/input.js";
import { listedShort } from "../list.js";

/** Of parts that wait for their day, so many by name. */
export const NAMED = 3;

/** What the estimate says of its own accord, part by part. */
const furniture = {
  page: (page: number, of: number) => `Page ${page} of ${of}`,
  record: (head: string) => `Record ${head}`,
  logo: (shop: string) => `Logo of ${shop}`,
  photos: "Photos",
  photo: (number: number) => `Photo ${number}`,
};

const head = {
  estimate: "Estimate",
  revision: (number: number) => `revision ${number}`,
  revisionOf: (name: string, day: string) => `${name} of ${day}`,
  asAgreed: (name: string) => `${name} as agreed`,
  theOneBefore: "the estimate before",
  number: "Number",
  date: "Date",
  draft: "Draft",
  notIssued: "not issued yet; it may still change",
  replaces: "Replaces",
  goodUntil: "Good until",
  owner: "Owner",
  name: "Name",
  notGiven: "not given",
  address: "Address",
  phone: "Phone",
  email: "E-mail",
  taxNumber: "Tax number",
  taxNumberOf: (number: string) => `Tax number ${number}`,
  registeredAs: (number: string) => `Registered ${number}`,
};

const unit = {
  unit: "Unit",
  makerAndModel: "Maker, model",
  serial: "Serial",
  declaredValue: "Declared value",
  grade: "Grade",
  cameWith: "Came with",
  storedData: "Stored data",
  none: "none",
  keepACopy: (held: string) => `${held}. Keep a copy: the work may erase it.`,
  faultAndCondition: "Fault and condition",
  reported: "Reported",
  found: "Found",
  onArrival: "On arrival",
};

export const unitDetails: Readonly<Record<keyof EstimateInput["unit"], string>> = {
  maker: "the maker",
  model: "the model",
  serial: "the serial number",
  declaredValue: "the declared value",
  grade: "the grade of condition",
  accessories: "what came with the unit",
  condition: "the condition on arrival",
  reported: "the reported fault",
  found: "what was found",
  storedData: "the stored data",
  hazards: "the dangers inside",
  power: "what it runs on",
};

const inShort = {
  total: "Total, tax included",
  ceiling: "Never more than, without a new agreement",
  ifDeclined: "If you decline after opening",
  deposit: "Deposit before work starts",
  depositPaid: (paid: string, due: string | undefined) =>
    `${paid} of it is paid${due === undefined ? "" : `; ${due} is still due`}`,
  depositBegun: (paid: string) => `${paid} of it is paid and work has begun; the rest is due with the balance`,
  days: "Days to complete",
  notCounted: (parts: readonly string[]) => `Not counting the delivery of ${listedShort(parts, NAMED)}, which is not known yet.`,
  about: (days: number) => `about ${days} ${days === 1 ? "day" : "days"}`,
  benchTime: "Bench time, somebody at work",
  unattended: (time: string) => `and ${time} of soak or charging, unattended`,
};

const ledger = {
  workAndParts: "Work and parts",
  ...{ item: "Item", count: "Count", time: "Time", each: "Each", amount: "Amount", tax: "Tax" },
  asAbove: "as above",
  sumOfLines: "Sum of the lines",
  withoutTax: "Without tax",
  taxBelow: "Tax, as in the table below",
  total: "Total, tax included",
  paid: "Paid already",
  stillToPay: "Still to pay",
};

const taxTable = {
  tax: "Tax",
  within: "Tax within the prices",
  category: "Category",
  rate: "Rate",
  net: "Net",
  together: "Together",
};

const choices = {
  options: "Options: tick what you want",
  packages: "Pick one: each with exactly these options",
  allTogether: "Total, tax included",
  noOptions: "no option",
  option: "Option",
  inTheTotal: "In the total",
  refused: (revision: number) => `You left this out in revision ${revision}; tick it if you want it after all.`,
  ...{ yes: "yes", no: "no" },
  price: "Price, tax included",
  filledBox:
    "A filled box is in the total already; strike it out to leave it. Each price is for that option alone, beside what is chosen now: " +
    "options behind the same panel share its opening, so several together may come to another figure, which we will confirm.",
  ifFound: "Only if found necessary",
  notInTheTotal:
    "Not in the total. By agreeing you let us do this when it proves necessary, at the price given and never past the amount under 'Never more than', without asking again.",
  fixedPriceCovers: "The fixed price covers this: we do it when it proves necessary, and you pay no more for it.",
  couldPass: "All of it together would come to more than we may charge: before it does, we ask you.",
  covered: "covered",
  work: "Work",
  chance: "Chance",
  priceIfNeeded: "Price if needed, tax included",
  worthDoing: "Worth doing while it is open",
  tickToAdd: "Not in the total: tick to add",
  now: "Now",
  later: "At a later visit",
};

const agreement = {
  terms: "Terms",
  storage: (amount: string) => `Storage, where it is charged: ${amount} a day, tax included.`,
  yourRights: "Your rights under local consumer law stand beside these terms.",
  notices: "Notices",
  caution: "Caution",
  yourAnswer: "Your answer",
  notABill: (number: string, until: string) =>
    `This is a written estimate${number && ` (${number})`}, not a bill. It is good until ${until}.`,
  agreeing: (total: string, ceiling: string, ticking?: "both" | "total") =>
    `Agreeing lets us do this work for ${total}, tax included, and never for more than ${ceiling}.${ticking ? ` What you tick or strike out changes ${ticking === "both" ? "both; we confirm them" : "the price; we confirm it"} first.` : ""}`,
  /** By time and parts; `flat`: some of it is not. */
  billed: (most: string, flat: boolean) =>
    `What is billed is the time it really takes and the parts really used, at most ${most}${flat ? "; work at a fixed price stays at that" : ""}.`,
  agree: (ticked: boolean) => `I agree to this estimate${ticked ? ", with what is ticked" : ""}.`,
  agreeInPart: "I agree to part of it only; I have struck out what is not to be done.",
  decline: "I decline. Please return the unit, closed up as it came.",
  declineRevision: (earlier: number) => `I decline this revision. What I agreed to in revision ${earlier} stands.`,
  name: "Name",
  signature: "Signature",
  date: "Date",
  scan: "Scan to answer",
  yourPage: "Your page: ",
  typeThere: (number: string, code: string) => `. Type the number ${number} and the code ${code} there.`,
};

/** Of the letter, and of the words above it at every level. */
const letter = {
  inWords: "What is wrong, and what we will do",
  work: "The work",
  neverMore: "Never more than",
  weStop: "We stop and ask you before that.",
  ready: "Ready, from your agreement",
  opening: (time: string) => `Opening and closing it once is included: ${time}.`,
  paid: (paid: string, due: string) => `Paid already: ${paid}; still to pay: ${due}.`,
  mayFind: "We may find, and then do without asking again",
  youChoose: "You choose: tick what you want",
  inIt: "in the total",
  onTop: "on top",
  filledBox:
    "A filled box is in the total; strike it out to leave it. Options share work, so several together may come to another figure, which we confirm.",
  more: (paged: boolean) => `Every line and sum: ${paged ? "there" : "ask us, free of charge"}.`,
  inPart: (paged: boolean) =>
    `To agree to part of it only: ${paged ? "on your page, below" : "ask us for every line, and strike out there what is not to be done"}.`,
};

/** The receipt at the counter, and the tag of the unit below it. */
const intake = {
  title: "Intake receipt",
  received: "Received on",
  authority: "What we may do",
  upTo: (limit: string) =>
    `We may open and examine the unit for at most ${limit}, tax included. We do nothing beyond that before you have agreed to an estimate.`,
  forFee: (fee: string, withTax: boolean) =>
    `We may open and examine the unit for the diagnosis fee of ${fee}${withTax ? ", tax included" : ""}. If you then decline our estimate, opening and closing it is owed too, and the estimate says the most that it all comes to. We do nothing beyond that before you have agreed to an estimate.`,
  nothing: "We do nothing that costs you anything before you have agreed to an estimate.",
  bring: "Please bring this receipt when you collect the unit.",
  tag: "Tag: cut here and tie it to the unit.",
};

export const paper = { furniture, head, unit, inShort, ledger, taxTable, choices, agreement, letter, intake };

/** 'What the figures mean', under the sums. */
export const paperMeaning = {
  heading: "What the figures mean",
  ceiling: "Never more than",
  notAbove: (ceiling: string) => `We do not go above ${ceiling}, tax included, without a new agreement.`,
  ifDeclined: "If declined",
  agreedStands: (earlier: number) => `What you agreed to in revision ${earlier} stands; declining this revision costs nothing.`,
  owed: "What you owe when you say no after the unit has been opened.",
  owedFor: (diagnosis: string, access: string) => `Diagnosis ${diagnosis}, opening and refitting ${access}`,
  stoppedAt: (parts: string, amount: string) => `${parts}, stopped at the agreed limit: ${amount}.`,
  comesTo: (parts: string, amount: string) => `${parts}: ${amount}.`,
  deposit: "Deposit",
  noDeposit: "None.",
  beforeWork: (amount: string) => `${amount}, part of the total, before work starts.`,
  partOfTotal: (amount: string) => `${amount}, part of the total.`,
  days: "Days",
  daysFrom: (total: number, queue: number, lead: number, bench: number) =>
    `About ${total} ${total === 1 ? "day" : "days"} from your agreement: ${queue} in the bench queue, ${lead} waiting for parts, ${bench} at the bench.`,
  restsOn: "Rests on",
  opening: (how: string) => `Opening is reckoned ${how}.`,
  openingCharged: (time: string) => `Charged is ${time}, the mean of such times.`,
  work: (how: string) => `Work is counted ${how}.`,
  shareOfValue: (percent: string, value: string) => `The total is ${percent} of the value you declared, ${value}.`,
  aboveYourCeiling: (most: string) =>
    `You had allowed ${most} at most: work waits for your answer, and agreeing allows this much.`,
};

/** 'What changed', on a revision that replaces another. */
export const paperChanges = {
  heading: (earlier: string) => `What changed since ${earlier}`,
  replaces: (earlier: string) => `This estimate replaces ${earlier}`,
  otherCurrency: ", which was in another currency; the two are not compared.",
  marked: " From 'Work and parts' on, every row that changed has a bar at the edge and a word beside it.",
  whyTotalChanged: "Why the total changed",
  taxIncluded: "Tax included",
  difference: "Difference",
  totalOf: (earlier: string) => `Total of ${earlier}`,
  totalNow: "Total now, tax included",
  notSplit: "Prices are worked out in another way since, so the difference is not split by cause.",
  theTerms: "the terms",
  writtenAnew: (what: string) => `Written anew: ${what}.`,
  ...{ faults: "Faults found since, each by itself", ofItShared: "Of it shared", together: "Together, in the total" },
  newPlace: (place: string) => `${place} was not in the estimate before.`,
  ...{ onlyIfNecessary: "Only if it proves necessary.", yoursToChoose: "An option for you to choose." },
  rows: "Work, parts and charges",
  offers: "Options and possible work: own prices, tax included",
  ...{ change: "Change", was: "Was", isNow: "Is now" },
  unchanged: "All that did not change",
  withoutTax: "Without tax",
  tax: "Tax",
  total: "Total, tax included",
  foundSince: "Found since",
  provedNecessary: "Proved necessary",
  optionTaken: "Option taken up, or work left out",
};

/** Texts of the quotation for machines. */
export const quotation = {
  ceiling: (amount: string) => `Never more than, tax included: ${amount}`,
  earlierRevision: "Earlier revision",
  noWork: "No work is chosen yet",
  optional: "Optional: the price on top of this quotation, everything else as it stands.",
  ifFound: (covered: boolean) =>
    `Only if found necessary: ${covered ? "this quotation covers it" : "the price on top of this quotation"}.`,
  chance: (share: string) => ` Chance: ${share}.`,
};
