/** Every problem as a sentence: what is wrong, why, and what to do. The type of SAY refuses a problem without a text. */
import { LIMITS, type LogProblem, type LogProblemName, type Problem, type ProblemName } from "../estimating/problems.js";
import { decimalMark, plainOf, shift, typed } from "./decimal.js";
import { FALLBACK_LOCALE, type Figures, money, plainNumber } from "./figures.js";
import { capital, listed, listedShort } from "./list.js";
import { day, duration } from "./time.js";

type Any = Problem | LogProblem;
/** `figures`: of a person who reads amounts as money; a program is answered in the minor units that it sent. */
type Say = {
  readonly [N in ProblemName | LogProblemName]: (problem: Extract<Any, { name: N }>, figures?: Figures) => string;
};

const SAY: Say = {
  "count negative": ({ where, value }) => `${where}: the count is ${value}; give a whole number of 0 or more.`,
  "count fractional": ({ where, value }, figures) =>
    `${where}: the count is ${written(value, figures)}, and pieces come whole; give a whole number.`,
  "count too large": ({ where, value, limit }) =>
    limit < LIMITS.count
      ? `${where}: the count is ${value}, and there are ${limit} of it; give at most ${limit}.`
      : `${where}: the count is ${value}, above the limit of ${limit}; check it, or split the work over several jobs.`,
  "count missing": ({ where }) => `${where}: there is no count to work with; give a whole number, such as 1.`,
  "assembly unknown": ({ where, id, known }) =>
    `${where}: there is no assembly '${id}' in the teardown map; ${chooseFrom(known, "draw it in the map first")}`,
  "operation unknown": ({ where, id, known }) =>
    `${where}: the rate book has no operation '${id}'; ${chooseFrom(known, "add it to the rate book first")}`,
  "part type unknown": ({ where, id, known }) =>
    `${where}: the rate book has no part type '${id}'; ${chooseFrom(known, "add it to the rate book first")}`,
  "part kind unknown": ({ where, id, known }) =>
    `${where}: the catalogue has no part '${id}'; ${chooseFrom(known, "add it to the catalogue first")}`,
  "part missing": ({ where }) =>
    `${where}: a replacement needs a part to price it and time its leads; name a part type or a part of the catalogue.`,
  "work missing": ({ where }) =>
    `${where}: nothing says what is done; choose an operation or a service of the rate book, or say it in your own words.`,
  "work said twice": ({ where, ways }) =>
    `${where}: what is done is said by ${listed(ways)}, and only one of them can count; leave the others out.`,
  "own words missing": ({ where, what }) =>
    what === "work"
      ? `${where}: the work has no name, and the owner reads it; say in a few words what is done.`
      : `${where}: the part has no name, and the owner reads it; say in a few words what it is.`,
  "own words too long": ({ where, length, limit }) =>
    `${where}: the text has ${length} characters, above the limit of ${limit}; shorten it, and put the rest into the reason of the line.`,
  "time or price missing": ({ where }) =>
    `${where}: work in your own words has neither minutes nor a price, so it cannot be charged; give its minutes, or a fixed price.`,
  "own part without time": ({ where }) =>
    `${where}: the time to replace this part is not known; choose the part type it is like, or give minutes for the line.`,
  "own part without cost": ({ where }) => `${where}: the part has no cost; say what a piece costs, or that the owner brings it.`,
  "brought part with cost": ({ where }) =>
    `${where}: the owner brings this part, so it costs nothing here; leave the cost out, or say that the shop buys it.`,
  "service unknown": ({ where, id, known }) =>
    `${where}: the rate book has no service '${id}'; ${chooseFrom(known, "add it to the rate book first")}`,
  "service without work": ({ where }) =>
    `${where}: nothing stands behind its price, so neither time nor parts would be known; name at least one piece of work.`,
  "price of no known part": ({ where }) =>
    `${where}: another price needs a part of the rate book or the catalogue; name the part, or leave the price out. A part in your own words has its own cost.`,
  "price without reason": ({ where }) =>
    `${where}: the part has another price here and nothing says why; give the reason in a few words.`,
  "id reserved": ({ where, id }) =>
    `${where}: the id '${id}' is the one this tool gives to work or a part in your own words; give it another id.`,
  "labour class unknown": ({ where, id, known }) =>
    `${where}: the rate book has no labour class '${id}', so the work has no rate; ${chooseFrom(known, "add it to the rate book first")}`,
  "grade unknown": ({ id, known }) =>
    `Unit: the rate book has no condition grade '${id}'; ${chooseFrom(known, "add it to the rate book first")}`,
  "profile unknown": ({ where, id, known }) =>
    `${where}: there is no agreement profile '${id}'; ${chooseFrom(known, "leave it out for the shop's own terms")}`,
  "fastener unknown": ({ where, id }) =>
    `${where}: the rate book has no time for a fastener of kind '${id}'; add that kind to the rate book, or give a measured time.`,
  "access standard missing": ({ where, size, mounting }) =>
    `${where}: the rate book has no access standard for a ${size} board ${mounting}; add it to the rate book, or choose another size or mounting.`,
  "id repeated": ({ what, id }) =>
    `${what}: the id '${id}' stands twice, so it does not tell which one is meant; give each its own.`,
  "behind cycle": ({ cycle, joined }) =>
    `Teardown map: ${circle(cycle, "is behind", joined)}, so none of them could ever come off; remove one of these 'behind' entries.`,
  "fit before cycle": ({ cycle, joined }) =>
    `Teardown map: ${circle(cycle, "must be fitted before", joined)}, so there is no order to refit them in; remove one of these 'fit before' or 'behind' entries.`,
  "currency unknown": ({ code }) =>
    `Currency: '${code}' is not a currency of ISO 4217 with minor units; give a three-letter code such as EUR, GBP or USD.`,
  "currency differs": ({ where, code, expected }) =>
    `${where}: the price is in ${code} and the estimate in ${expected}, and no exchange rate for ${code} is given; give the shop's, convert it to ${expected}, or leave it out.`,
  "exchange rate unreadable": ({ where, value }) =>
    `${where}: the rate is '${value}'; give a decimal above 0, such as 0.7915: units of the estimate's currency for one.`,
  "exchange rate ahead": ({ where, on, asOf }) =>
    `${where}: the rate is of ${on}, after ${asOf}, the day of the estimate; give a rate of that day or before.`,
  "exchange rate of itself": ({ where, code }) =>
    `${where}: the estimate is in ${code} already, which needs no rate; leave it out.`,
  "tax category unknown": ({ where, id, known }) =>
    `${where}: the rate book has no tax category '${id}'; ${chooseFrom(known, "add it to the rate book first")}`,
  "percent out of range": ({ where, value, low, high }, figures) =>
    `${where}: ${written(value, figures)} % is out of range; give a percentage from ${low} to ${high}.`,
  "probability out of range": ({ where, value }, figures) =>
    figures
      ? `${where}: the chance of being needed is ${written(value, figures, 2)} %; give one from 0 to 100 %, such as 30 % for three in ten.`
      : `${where}: the chance of being needed is ${value} (${shift(plainOf(value), 2)} %); give one from 0 to 1 (0 % to 100 %), such as 0.3 (30 %) for three in ten.`,
  "share good out of range": ({ where, value }) =>
    `${where}: the share expected to be good is ${value}; give a number from 0.01 to 1 (1 % to 100 %), such as 0.7 (70 %) for seven in ten.`,
  "service level out of range": ({ value }) =>
    `Rate book, scarcity: the chance wanted of having enough good pieces is ${value}, and neither never nor always can be bought; give a number above 0 and below 1, such as 0.9.`,
  "group differs": ({ group, what }) =>
    what === "probability"
      ? `Group '${group}': its items turn up together, so they share one probability, but theirs differ; give them the same, or separate groups.`
      : `Group '${group}': its items are one choice, but some are chosen and some are not; choose all or none, or give them separate groups.`,
  "times out of order": ({ where, low, likely, high }) =>
    `${where}: the times are low ${low}, likely ${likely}, high ${high} minutes; put them in order, low first, none below 0.`,
  "minutes out of range": ({ where, value }, figures) =>
    `${where}: ${written(value, figures)} minutes is out of range; give 0 or more, up to ${grouped(LIMITS.minutes)}.`,
  "amount out of range": ({ where, value }, figures) =>
    figures
      ? `${where}: ${Number.isSafeInteger(value) ? money(value, figures) : "the amount"} is out of range; give ${money(0, figures)} or more, up to ${money(LIMITS.amount, figures)}.`
      : `${where}: the amount ${value} (in the smallest unit of the currency) is out of range; give 0 or more, up to ${grouped(LIMITS.amount)}.`,
  "amount fractional": ({ where, value }, figures) =>
    figures
      ? `${where}: the amount has more decimals than ${figures.currency} has; round it.`
      : `${where}: the amount ${value} is not whole; amounts are whole numbers of the currency's smallest unit, such as 1250 for 12.50.`,
  "total too large": ({ limit }, figures) =>
    `Estimate: the sums pass ${figures ? money(limit, figures) : `${grouped(limit)} of the currency's smallest unit`} and could no longer be exact; check counts and prices, or split the work over several jobs.`,
  "mark-up bands out of order": ({ where }) =>
    `${where}: each band must reach higher than the one before, and only the last is open; put them in order and leave 'up to' off the last.`,
  "leads or minutes": ({ where }) =>
    `${where}: the time of a part follows either from its leads or from minutes given; give one of the two.`,
  "date unreadable": ({ where, value }) => `${where}: '${value}' is not a day; write it as year, month, day, such as 2026-11-25.`,
  "too many assemblies": ({ count, limit }) =>
    `Teardown map: it has ${count} assemblies, above the limit of ${limit}; join some, or split the unit into two jobs.`,
  "too many items": ({ count, limit }) =>
    `Estimate: it has ${count} work items, above the limit of ${limit}; join lines, or split the work over several jobs.`,
  "too many choices": ({ what, count, limit, items }) =>
    what === "worth doing"
      ? `Teardown map: ${count} works are named as worth doing while it is open, above the limit of ${limit}${besideText(items)}; name fewer.`
      : `Estimate: it has ${count} options and if-found works, above the limit of ${limit}${besideText(items)}, and each is priced by itself; group those that belong together.`,
  "options beside possible work": ({ count, found, limit }) =>
    `Estimate: it has ${count} options, above the limit of ${limit} at a fixed price beside ${found} works that may be found, since each is priced with the risk of them all; group those that belong together, or price as counted.`,
  "too many offers": ({ looked, limit }) =>
    `Estimate: the plans of what to buy would look at some ${grouped(looked)} pieces, above the limit of ${grouped(limit)}; leave out offers that nobody will take up, or split the work over several jobs.`,
  "moment unreadable": ({ where, value }) =>
    `${where}: '${value}' is not a moment in time; write it as date, time and zone, such as 2026-11-25T09:30+00:00.`,
  "time negative": ({ where, minutes }) =>
    `${where}: the time comes to ${duration(minutes)}, as if it had ended before it began; correct the start, the end or the minutes.`,
  "time too long": ({ where, minutes, limit }) =>
    `${where}: the timer ran for ${duration(minutes)} on end, above the limit of ${duration(limit)}, so it was probably left running; enter when the work really ended.`,
  "times overlap": ({ where, other, minutes }) =>
    `${where}: ${duration(minutes)} of this time are also logged for the same person on ${other}; correct one of the two.`,
  "two timers": ({ where, other }) =>
    `${where}: a timer of the same person is running on ${other} already, and nobody works in two places; stop that one first.`,
  "timer running": ({ where }) =>
    `${where}: a timer is still running, so its time is not known yet; stop it before closing the job.`,
  "job closed": ({ where, on }, figures) =>
    `${where}: the job was closed on ${figures ? day(on, figures.locale) : on} and its account is final; log this on a new job, or by override with a reason and a name, and correct the close-out.`,
  "person missing": ({ where }) => `${where}: nobody is named for this time; say who did the work.`,
  "work unknown": ({ where, id }) =>
    `${where}: the job has no '${id}'; choose work of the job, or add it in a new revision first.`,
  "work not agreed": ({ where, why }) =>
    `${where}: ${NOT_AGREED[why]}, so it may not be worked on yet; send a revision and wait for the answer, or override with a reason and a name.`,
  "part not agreed": ({ where, part }) =>
    `${where}: '${part}' is not in the agreed revision for this work; use the part agreed, say that this one stands in for it, send a revision, or override with a reason and a name.`,
  "override incomplete": ({ where, lacks }) =>
    `${where}: the override has no ${lacks}, and without one it is no record; give a reason and the name of who decided.`,
};

const NOT_AGREED: Readonly<Record<Extract<LogProblem, { name: "work not agreed" }>["why"], string>> = {
  "nothing agreed": "nothing is agreed on this job",
  "not in what was agreed": "this work is not in the agreed revision",
  "left out by the owner": "the owner left this work out",
  "option not chosen": "the owner did not choose this option",
  "changed since": "this work was changed since it was agreed",
  "more than agreed": "this is more than was agreed",
};

export const problemText = (problem: Any): string => problemIn(problem);
/** As a person reads it: amounts as money. */
export const problemIn = (problem: Any, figures?: Figures): string =>
  capital((SAY[problem.name] as (problem: Any, figures?: Figures) => string)(problem, figures));

/** As it was typed: with the decimal sign of whoever reads it; `places`: a share in percent. */
const written = (value: number, figures?: Figures, places = 0): string =>
  figures ? typed(shift(plainOf(value), places), decimalMark(figures.locale)) : String(value);

const chooseFrom = (known: readonly string[], otherwise: string): string =>
  known.length === 0
    ? `${otherwise}.`
    : `choose ${known.length === 1 ? known[0] : `one of ${listedShort(known)}`}, or ${otherwise}.`;

const grouped = (limit: number): string => plainNumber(limit, FALLBACK_LOCALE);

/** 'A is behind B, B is behind A'; the cycle may or may not name its start again at the end. `joined`: links of another sort. */
function circle(cycle: readonly string[], link: string, joined: readonly number[] = []): string {
  const around = cycle.length > 1 && cycle[0] === cycle.at(-1) ? cycle.slice(0, -1) : cycle;
  return around
    .map((id, index) => `'${id}' ${joined.includes(index) ? "is joined to" : link} '${around[(index + 1) % around.length]}'`)
    .join(", ");
}

const besideText = (items: number | undefined): string => (items === undefined ? "" : ` in an estimate of ${items} works`);
