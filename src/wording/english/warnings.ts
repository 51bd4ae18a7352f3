import type { Warning } from "../../estimating/sheet.js";
import { day } from "../day.js";
import { listedShort } from "../list.js";
import { money } from "../money.js";
import { plainNumber } from "../number.js";
import { percent } from "../percent.js";
import type { Figures } from "../tongue.js";
import { lists } from "./lists.js";

export type Warnings = { readonly [K in Warning["is"]]: (warning: Extract<Warning, { is: K }>, figures: Figures) => string };

const volts = (value: number, { locale }: Figures) => `${plainNumber(value, locale)}\u00a0V`;

export const warnings: Warnings = {
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
  "access by standard": ({ lowMinutes: low, likelyMinutes: likely, highMinutes: high }, { locale }) =>
    `Access is by the rate book's standards, not by a teardown map: ${lists.spread({ low, likely, high }, locale)}.`,
  "above ceiling": ({ total, ceiling }, tongue) =>
    `The total of ${money(total, tongue)} is above the owner's ceiling of ${money(ceiling, tongue)}; drop work or agree a higher ceiling before starting.`,
  "discount limited": ({ asked, given }, tongue) =>
    `A discount of ${money(asked, tongue)} was asked for and ${money(given, tongue)} given, because a discount cannot exceed what it is taken from.`,
  "currency scale": ({ currency, decimals }) =>
    `${currency} has ${decimals} decimals and an EN 16931 document carries at most 2; an electronic copy may be rounded.`,
  "missing glyphs": ({ text, characters }) =>
    `The fonts have no sign for ${listedShort(characters)} in '${text}'; a mark is printed instead.`,
};
