import type { Scarcity, ThreePoint } from "../../estimating/input.js";
import type { Detail, Rule, ScarcityReason, Source, Warning, Why } from "../../estimating/sheet.js";
import { decimal, type Figures, money, percent, plainNumber } from "../figures.js";
import { counted, listed, listedShort } from "../list.js";
import { day, duration } from "../time.js";

export const lists = {
  and: "and",
  spread: ({ low, likely, high }: ThreePoint, locale?: string) =>
    `between ${duration(low, locale)} and ${duration(high, locale)}, most likely ${duration(likely, locale)}`,
  days: (count: number) => `${count} ${count === 1 ? "day" : "days"}`,
};

export const detail: Readonly<Record<Detail, string>> = {
  counts: "by plain counts and the rate book's standards, with no assembly named",
  grid: "assembly by assembly, by the rate book's standards",
  map: "assembly by assembly, by the teardown map of the model",
  mixed: "partly assembly by assembly, partly by plain counts or standards",
  none: "as nothing, for there is none",
};

export const rules: Readonly<Record<Rule, string>> = {
  "access charged once per opening": "Opening and refitting an assembly is charged once, however much is done inside.",
  "billing increment": "The time of each labour class is rounded up to the shop's billing step.",
  "minimum charge": "Labour and access together come to no less than the minimum charge.",
  "mark-up by unit cost": "The mark-up on a part follows from what one piece costs.",
  "whole packs": "The part is only to be had in whole packs, and whole packs are charged.",
  "scarcity margin": "A part that is hard to get carries the rate book's margin for the risk of buying it.",
  "sundries percentage": "Solder, flux, cleaner and the like are charged as a percentage.",
  "sundries cap": "Sundries stop at the rate book's cap.",
  "freight once per source": "Freight is charged once for each source, however many parts come from it.",
  "rush percentage": "Work ahead of the queue carries a percentage on labour and access.",
  "diagnosis fee": "Finding the faults and writing this estimate carries a fee.",
  "diagnosis fee credited": "The diagnosis fee is taken off again when the work goes ahead.",
  storage: "Storage is charged by the day.",
  discount: "A discount was given for the reason stated.",
  "promised price": "Work with a price of its own is never charged above it, whatever all of it together would come to.",
  "ceiling above total": "It stands a fixed percentage above the total.",
  "ceiling set by owner": "It is the amount the owner set.",
  "ceiling by agreement profile": "It stands no further above the total than the agreement profile allows.",
  "ceiling for what may turn up": "It leaves room for what cannot be known before the work is done.",
  "price is fixed": "The price is fixed, so it is never more than the total.",
  "allowance for risk": "A fixed price carries an allowance for what cannot be known before the work is done.",
  "diagnosis limit": "What is owed if the work is declined stops at the limit agreed beforehand.",
  "deposit on scarce parts": "Scarce parts are paid for before they are ordered.",
  "deposit on labour": "A share of the labour is paid before the work starts.",
};

type Whys = { readonly [K in Why["rule"]]: (why: Extract<Why, { rule: K }>, figures: Figures) => string };

export const why: Whys = {
  worked: () => "Work is done on it.",
  "in the way of": ({ of }) => `It must come off to reach ${listed(of)}.`,
  "joined to": ({ to }) => `It comes out together with ${listed(to)}.`,
  "by standard": ({ size, mounting, lowMinutes, highMinutes }, { locale }) =>
    `Timed by the rate book's standard for a ${size} board ${mounting}: ${duration(lowMinutes, locale)} to ${duration(highMinutes, locale)}.`,
  leads: ({ leads, minutesEach, setupMinutes, gradePercent }, { locale }) =>
    `${counted(leads, "lead")} each: ${duration(minutesEach, locale)} apiece${andSetup(setupMinutes, 1, locale)}${inCondition(gradePercent, locale)}.`,
  each: ({ minutesEach, setupMinutes, setups, gradePercent }, { locale }) =>
    `${duration(minutesEach, locale)} each${andSetup(setupMinutes, setups, locale)}${inCondition(gradePercent, locale)}.`,
  "fixed price": ({ price, service }, figures) =>
    service
      ? `A service of the shop at ${money(price, figures)}, all that stands behind it included.`
      : `At a fixed price of ${money(price, figures)}, whatever time it takes.`,
  "brought by the owner": () => "Brought by the owner; no warranty of the shop on it.",
  "price of this line": ({ catalogue, per, cost, reason, source }, figures) =>
    `Catalogue price ${money(catalogue, figures)}${per === 1 ? "" : ` for ${per}`}, this price ${money(cost, figures)}${source ? ` (${source})` : ""}: ${reason}`,
  scarcity: ({ scarcity: how, percent: margin, because }, figures) =>
    `${scarcity.names[how]}: ${reasonText(because, figures)}; ${percent(margin, figures.locale)} of its cost covers pieces that turn out bad or dearer.`,
  "buy plan": ({ needed, pieces, probability }, { locale }) =>
    pieces > needed
      ? `Not every piece proves good: ${pieces} are bought to have ${needed} that ${needed === 1 ? "works" : "work"}, which is enough in ${percent(Math.round(probability * 100), locale)} of cases.`
      : `Not every piece proves good; this is what buying it again may come to.`,
  increment: ({ minutes, increment }, { locale }) =>
    `${duration(minutes, locale)} in all, billed in steps of ${duration(increment, locale)}.`,
  minimum: ({ minimum }, figures) => `Brings labour and access up to the minimum charge of ${money(minimum, figures)}.`,
  credited: () => "Taken off if the work goes ahead.",
  "storage days": ({ days }) => `Stored for ${counted(days, "day")}.`,
  "labour allowance": () =>
    "Some of the work may take longer than is usual; this is set against that, and you pay no more if it does.",
  "sourcing allowance": ({ parts }) =>
    `${listed(parts)} ${parts.length === 1 ? "is" : "are"} hard to get and not every piece proves good; this is for buying enough good ones, and you pay no more if it takes more.`,
  "if-found allowance": ({ work }) =>
    `Whether this is needed shows only during the work: ${work.join("; ")}. This covers it, and it is not charged again.`,
  "margin allowance": () => "What the shop asks over what the work and its parts are expected to come to.",
  reason: ({ text }) => text,
};
const reasonText = (reason: ScarcityReason, figures: Figures): string =>
  (scarcity.reasons[reason.is] as (reason: ScarcityReason, figures: Figures) => string)(reason, figures);

const andSetup = (minutes: number, setups: number, locale: string): string =>
  minutes === 0 || setups === 0
    ? ""
    : setups === 1
      ? `, and ${duration(minutes, locale)} to set up`
      : `, and ${duration(minutes, locale)} to set up ${setups} times`;

const inCondition = (gradePercent: number | undefined, locale: string): string =>
  gradePercent === undefined ? "" : `; ${percent(gradePercent, locale)} of that in this condition`;

type ScarcityReasons = {
  readonly [K in ScarcityReason["is"]]: (reason: Extract<ScarcityReason, { is: K }>, figures: Figures) => string;
};

/** Each completes a sentence such as 'Scarce: ...'. */
const reasons: ScarcityReasons = {
  "set by hand": () => "said so by the shop",
  "on the shelf": ({ stock }) => `${stock} on the shelf`,
  "new parts offered": ({ sources }) => `still made; offered new by ${counted(sources, "source")}`,
  "few sources": ({ sources }) => `no longer made; only ${counted(sources, "source")} found`,
  "several sources": ({ sources }) => `no longer made, but ${counted(sources, "source")} found`,
  "not enough offered": ({ offered, needed }) =>
    `about ${offered} good ${offered === 1 ? "one is" : "ones are"} to be had and ${needed} ${needed === 1 ? "is" : "are"} needed`,
  "old offers only": ({ newest }, { locale }) => `the newest offer is of ${day(newest, locale)}`,
  "donor pulls only": () => "only to be had from donor units, and not every piece will be good",
  "no offers": () => "no offer is on record",
  "usual part": () => "a usual part, counted by type",
};

const names: Readonly<Record<Scarcity, string>> = {
  "in stock": "In stock",
  "to order": "To order",
  scarce: "Scarce",
  "donor only": "Donor only",
};

export const scarcity = { reasons, names };

/** Boards and rules have words of their own. */
type SourceTexts = {
  readonly [K in Exclude<Source["is"], "boards" | "rule">]: (source: Extract<Source, { is: K }>, figures: Figures) => string;
};

const texts: SourceTexts = {
  item: ({ id }) => `Work item ${id}.`,
  assembly: ({ name }) => `Assembly ${name}.`,
  operation: ({ name }) => `Operation ${name}.`,
  "rate book": ({ entry }) => `Rate book entry ${entry}.`,
  offer: ({ source, on }, { locale }) => `Offer from ${source} of ${day(on, locale)}.`,
  exchange: ({ what, price, currency, rate, on, source, amount }, figures) =>
    `${what === "pack" ? "A pack" : "Freight"} at ${money(price, { ...figures, currency })}, 1 ${currency} = ${exact(rate, figures)} ${figures.currency} of ${day(on, figures.locale)} (${source}): ${money(amount, figures)}.`,
  duty: ({ percent: share, base, amount }, figures) =>
    `Duty, ${percent(share, figures.locale)} of ${money(base, figures)}: ${money(amount, figures)}.`,
  "import tax": ({ percent: share, base, amount }, figures) =>
    `Import tax, ${percent(share, figures.locale)} of ${money(base, figures)}: ${money(amount, figures)}.`,
  landed: ({ packSize, amount }, figures) =>
    `In all ${money(amount, figures)} for a pack${packSize === 1 ? "" : ` of ${packSize}`}.`,
  "parcel fee": ({ amount }, figures) => `With the fee for the parcel, ${money(amount, figures)}.`,
  "minimum order": ({ packs, packSize, used }) =>
    `The source sells no fewer than ${counted(packs, "pack")}${packSize === 1 ? "" : ` of ${packSize}`}: ${used} of ${counted(packs * packSize, "piece")} ${used === 1 ? "is" : "are"} used, all are charged.`,
  stock: () => "From the shop's shelf.",
  policy: ({ entry }) => `Decided for this estimate: ${entry}.`,
};

export const sources = { texts, counted: (boards: string) => `Counted: ${boards}.` };

const exact = (digits: string, { locale }: Figures) => decimal(digits, locale, { maximumFractionDigits: 12 });

type Warnings = { readonly [K in Warning["is"]]: (warning: Extract<Warning, { is: K }>, figures: Figures) => string };

const volts = (value: number, { locale }: Figures) => `${plainNumber(value, locale)}\u00a0V`;

export const warnings: Warnings = {
  "possible work above ceiling": ({ total, ceiling }, figures) =>
    `If all that may be found is found, it comes to ${money(total, figures)}, above the ceiling of ${money(ceiling, figures)}; you then ask before going on, and the owner's paper says so.`,
  "value share": ({ percent: share, limit, total, declared }, tongue) =>
    `The total of ${money(total, tongue)} is ${percent(share, tongue.locale)} of the declared value of ${money(declared, tongue)}, more than the ${percent(limit, tongue.locale)} the shop flags; ask the owner whether the unit is worth it to them.`,
  "lower voltage": ({ part, original, replacement }, tongue) =>
    `${part} is rated ${volts(replacement, tongue)}, the original ${volts(original, tongue)}; choose a rating at least as high.`,
  derating: ({ part, working, rated, limitPercent }, tongue) =>
    `${part} would work at ${volts(working, tongue)} of its rated ${volts(rated, tongue)}, above the usual ${percent(limitPercent, tongue.locale)}; choose a higher rating.`,
  polarised: ({ part }) =>
    `${part} is polarised and the original is not; choose a bipolar or film part, or check the bias across it.`,
  "not audio grade": ({ part }) =>
    `${part} is not marked as audio grade and the original is; choose an audio-grade part or agree the change with the owner.`,
  "value off": ({ part, offPercent, tolerancePercent }, { locale }) =>
    `${part} is ${percent(offPercent, locale)} off the original value, beyond the original tolerance of ${percent(tolerancePercent, locale)}; check that the circuit allows it.`,
  "value unreadable": ({ part, marking }) =>
    `The marking '${marking}' of ${part} could not be read, so its value was not compared; check it by hand.`,
  "old offer": ({ part, on, days }, { locale }) =>
    `The price of ${part} rests on an offer of ${day(on, locale)}, ${days} days old; ask again before ordering.`,
  "not enough offered": ({ part, needed, offered }) =>
    `${needed} of ${part} are needed and ${offered} ${offered === 1 ? "is" : "are"} offered; find another source before the work is agreed.`,
  "minimum order": ({ part, source, packs, packSize, used, amount, unused }, tongue) =>
    `${used} of ${part} ${used === 1 ? "is" : "are"} used, and ${counted(packs, "pack")}${packSize === 1 ? "" : ` of ${packSize}`} charged, because ${source} sells no fewer: ${money(amount, tongue)}, of which ${money(unused, tongue)} for pieces left over; look for a source without a minimum, or tell the owner.`,
  "old exchange rate": ({ currency, rate, on, days, goodForDays }, tongue) =>
    `Prices in ${currency} are worked out at ${exact(rate, tongue)} of ${day(on, tongue.locale)}, ${counted(days, "day")} old, and a rate is good for ${goodForDays}; enter today's rate and take it in.`,
  "access by standard": ({ lowMinutes: low, likelyMinutes: likely, highMinutes: high }, { locale }) =>
    `Access is by the rate book's standards, not by a teardown map: ${lists.spread({ low, likely, high }, locale)}.`,
  "memory not asked": () =>
    "Work on a cell may erase what the unit holds, and nobody has asked what that is; ask the owner and note it with the unit's condition.",
  "above ceiling": ({ total, ceiling }, tongue) =>
    `The total of ${money(total, tongue)} is above the owner's ceiling of ${money(ceiling, tongue)}; drop work or agree a higher ceiling before starting.`,
  "discount limited": ({ asked, given }, tongue) =>
    `A discount of ${money(asked, tongue)} was asked for and ${money(given, tongue)} given, because a discount cannot exceed what it is taken from.`,
  "currency scale": ({ currency, decimals }) =>
    `${currency} has ${decimals} decimals and an EN 16931 document carries at most 2; an electronic copy may be rounded.`,
  "missing glyphs": ({ text, characters }) =>
    `The fonts have no sign for ${listedShort(characters)} in '${text}'; a mark is printed instead.`,
};
