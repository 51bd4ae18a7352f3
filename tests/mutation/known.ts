/** Mutants that live because they change nothing anybody meets, and where each mutant stands. */
import { readFileSync } from "node:fs";
import { type Mutant, mutantsOf } from "./mutants.js";

/** One that is explained. */
export interface Known {
  readonly file: string;
  /** The line it stands in, without the space before it. */
  readonly is: string;
  readonly was: string;
  readonly becomes: string;
  readonly why: string;
}

const NOT_TOLD = "A key without a value and no key at all are one in JSON and in print.";
const BEHIND = "A typed array keeps nothing behind its end.";
const ENDS = "At its ends the fraction itself comes to 0 and to 1.";
const LAST_CELL = "A lattice reaches six standard deviations up, or to its dearest fault: nothing is read of its last cell.";
const MIRROR = "A sum that leans neither way is its own mirror image.";
const EMPTY_ROW = "A row that nothing was typed in is left out; this saves reading it.";

export const KNOWN: readonly Known[] = [
  {
    file: "src/estimating/pricing/quote.ts",
    is: "return isFixed(counted.visit.policy) ? quote(counted, workings).priced.totals : bareOf(counted, workings).priced.totals;",
    ...{ was: "isFixed(counted.visit.policy)", becomes: "true" },
    why: "Under a ceiling what is charged is the bare price too: this saves weighing it.",
  },
  {
    file: "src/estimating/pricing/quote.ts",
    is: "const bare = weighed.counted === counted ? weighed.bare : bareOf(counted, workings);",
    ...{ was: "weighed.counted === counted", becomes: "false" },
    why: "The bare price of the same work is the same: this saves pricing it again.",
  },
  {
    file: "src/estimating/pricing/possible.ts",
    is: "const closed = [...(places.size > 0 ? closure(workings.map, places) : [])].filter(",
    ...{ was: "places.size > 0", becomes: "places.size >= 0" },
    why: "Nothing is in front of no place: this saves the walk.",
  },
  {
    file: "src/estimating/pricing/possible.ts",
    is: "if (more.length === 0) ownLabour.set(items[0]!, made);",
    ...{ was: "more.length === 0", becomes: "false" },
    why: "Worked out again it is the same: this saves working it out.",
  },
  {
    file: "src/estimating/agreement/causes.ts",
    is: "const graded = unit?.before?.grade !== unit?.after?.grade;",
    ...{ was: "unit?.after?.grade", becomes: "unit?.after.grade" },
    why: "An input always has a unit, so a difference of units has both.",
  },
  {
    file: "src/estimating/agreement/faultsFound.ts",
    is: "const charged = added.filter(isCharged);",
    ...{ was: "added.filter(isCharged)", becomes: "added" },
    why: "Work that is only possible adds nothing to a total; leaving it out saves pricing it.",
  },
  {
    file: "src/estimating/closeout/accuracy/accuracy.ts",
    is: "...(spread !== undefined && { spread }),",
    ...{ was: "spread !== undefined", becomes: "true" },
    why: NOT_TOLD,
  },
  {
    file: "src/estimating/agreement/causes.ts",
    is: '...context("condition", [], graded, taking(diff, ["unit"])),',
    ...{ was: "[]", becomes: '["changed"]' },
    why: "No input has a key of that name.",
  },
  {
    file: "src/estimating/agreement/difference.ts",
    is: 'if (part === undefined || "own" in part) return undefined;',
    ...{ was: '"own"', becomes: '""' },
    why: "Own parts were answered a line above; this only tells the compiler so.",
  },
  {
    file: "src/estimating/risk/smallMany.ts",
    is: "for (let i = 0; i < mass.length; i++) {",
    ...{ was: "i < mass.length", becomes: "i <= mass.length" },
    why: "One turn more reads nothing behind the end of typed arrays.",
  },
  {
    file: "src/estimating/pricing/sums.ts",
    is: "for (let at = 0; at < sums.length; at++) sums[at]! += more[at]!;",
    ...{ was: "at < sums.length", becomes: "at <= sums.length" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/contributions.ts",
    is: "const ofRest = rest.length === 0 ? 0 : takesOff(...rest.map(({ is }) => is));",
    ...{ was: "rest.length === 0", becomes: "false" },
    why: "With nothing known beforehand nothing is taken off: this saves reckoning the total again.",
  },
  {
    file: "src/estimating/risk/convolution.ts",
    is: "const top = Math.ceil(high / h) + 1;",
    ...{ was: "Math.ceil(high / h)", becomes: "Math.floor(high / h)" },
    why: LAST_CELL,
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (b.mass.length === 0 || y === 0) return { from: a.from, mass: a.mass.map((mass) => x * mass) };",
    ...{ was: "y === 0", becomes: "false" },
    why: "Nothing added to it is no change: this saves the sum.",
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (b.mass.length === 0 || y === 0) return { from: a.from, mass: a.mass.map((mass) => x * mass) };",
    ...{ was: "b.mass.length === 0", becomes: "false" },
    why: "Nothing added to it is no change: this saves the sum.",
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (b.mass.length === 0 || y === 0) return { from: a.from, mass: a.mass.map((mass) => x * mass) };",
    ...{ was: "b.mass.length === 0 || y === 0", becomes: "false" },
    why: "Nothing added to it is no change: this saves the sum.",
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (b.mass.length === 0 || y === 0) return { from: a.from, mass: a.mass.map((mass) => x * mass) };",
    ...{ was: "b.mass.length === 0 || y === 0", becomes: "(b.mass.length === 0) && (y === 0)" },
    why: "Nothing added to it is no change: this saves the sum.",
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (a.mass.length === 0) return { from: b.from, mass: b.mass.map((mass) => y * mass) };",
    ...{ was: "a.mass.length === 0", becomes: "false" },
    why: "Nothing added to it is no change: this saves the sum.",
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (weight === 0) continue;",
    ...{ was: "weight === 0", becomes: "false" },
    why: "Nothing added to it is no change: this saves the sum.",
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (weight === 0) return;",
    ...{ was: "weight === 0", becomes: "false" },
    why: "Nothing added to it is no change: this saves the sum.",
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (cell < out.length) out[cell]! += amount * (1 - rest);",
    ...{ was: "cell < out.length", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (cell < out.length) out[cell]! += amount * (1 - rest);",
    ...{ was: "cell < out.length", becomes: "cell <= out.length" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (cell + 1 < out.length) out[cell + 1]! += amount * rest;",
    ...{ was: "cell + 1 < out.length", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/lattice.ts",
    is: "if (cell + 1 < out.length) out[cell + 1]! += amount * rest;",
    ...{ was: "cell + 1 < out.length", becomes: "cell + 1 <= out.length" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/smallMany.ts",
    is: "const start = mean + (skew < 0 ? -high : low);",
    ...{ was: "skew < 0", becomes: "skew <= 0" },
    why: MIRROR,
  },
  {
    file: "src/estimating/risk/smallMany.ts",
    is: "const end = Math.min(mean + (skew < 0 ? -low : high), top * h);",
    ...{ was: "skew < 0", becomes: "skew <= 0" },
    why: MIRROR,
  },
  {
    file: "src/estimating/risk/smallMany.ts",
    is: "if (sd > 1.5 * h && size < MILD) return sampled(mean, sd, slope, skew < 0 ? -bend : bend, start, end, h);",
    ...{ was: "skew < 0", becomes: "skew <= 0" },
    why: MIRROR,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "const last = jumps.length - 1;",
    ...{ was: "jumps.length - 1", becomes: "jumps.length + 1" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (cell <= last) {",
    ...{ was: "cell <= last", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (later <= last) {",
    ...{ was: "later <= last", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (cell < last) bends[cell + 1]! += bend * rest;",
    ...{ was: "cell < last", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (cell < last) bends[cell + 1]! += bend * rest;",
    ...{ was: "cell < last", becomes: "cell <= last" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (later < last) jumps[later + 1]! += jump * over;",
    ...{ was: "later < last", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (later < last) jumps[later + 1]! += jump * over;",
    ...{ was: "later < last", becomes: "later <= last" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (cell < masses.length) masses[cell]! += share;",
    ...{ was: "cell < masses.length", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (cell < masses.length) masses[cell]! += share;",
    ...{ was: "cell < masses.length", becomes: "cell <= masses.length" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (cell < masses.length) masses[cell]! -= excess;",
    ...{ was: "cell < masses.length", becomes: "true" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/spread.ts",
    is: "if (cell < masses.length) masses[cell]! -= excess;",
    ...{ was: "cell < masses.length", becomes: "cell <= masses.length" },
    why: BEHIND,
  },
  {
    file: "src/estimating/risk/special.ts",
    is: "if (x <= 0) return 0;",
    ...{ was: "x <= 0", becomes: "x < 0" },
    why: ENDS,
  },
  {
    file: "src/estimating/risk/special.ts",
    is: "if (x >= 1) return 1;",
    ...{ was: "x >= 1", becomes: "x > 1" },
    why: ENDS,
  },
  {
    file: "src/estimating/risk/terms.ts",
    is: "const least = variance > 0 ? leastOf(outcomes) : mean;",
    ...{ was: "variance > 0", becomes: "variance >= 0" },
    why: "The least of one amount is its mean, and every plan that is asked about has one.",
  },
  {
    file: "src/estimating/risk/distribution.ts",
    is: "const within = mass[low]! > 0 ? Math.min(1, Math.max(0, (p - upTo[low]!) / mass[low]!)) : 1;",
    ...{ was: "mass[low]! > 0", becomes: "true" },
    why: "A division by no mass is past every bound, and held to 1.",
  },
  {
    file: "src/estimating/parts/buyPlanSearch.ts",
    is: 'const known = typeof offer.shareGood === "number" && !isSure(offer.shareGood) && lot === 1;',
    ...{ was: 'typeof offer.shareGood === "number"', becomes: "false" },
    why: "A looser bound leaves fewer branches out: slower, and the same plan.",
  },
  {
    file: "src/estimating/closeout/jobDone.ts",
    is: "const planned = covered || job.found.length === 0 ? billed : repriced(agreed, withDone(agreed.input, job.done), job.log);",
    ...{ was: "covered || job.found.length === 0", becomes: "(covered) && (job.found.length === 0)" },
    why: "Priced again it comes to the same: this saves pricing it.",
  },
  {
    file: "src/estimating/closeout/jobDone.ts",
    is: "const planned = covered || job.found.length === 0 ? billed : repriced(agreed, withDone(agreed.input, job.done), job.log);",
    ...{ was: "covered || job.found.length === 0", becomes: "false" },
    why: "Priced again it comes to the same: this saves pricing it.",
  },
  {
    file: "src/estimating/closeout/jobDone.ts",
    is: "const planned = covered || job.found.length === 0 ? billed : repriced(agreed, withDone(agreed.input, job.done), job.log);",
    ...{ was: "job.found.length === 0", becomes: "false" },
    why: "Priced again it comes to the same: this saves pricing it.",
  },
  {
    file: "src/estimating/day.ts",
    is: "if (!/^\\d{4}-\\d{2}-\\d{2}$/.test(text)) return false;",
    ...{ was: "/^\\d{4}-\\d{2}-\\d{2}$/", becomes: "/\\d{4}-\\d{2}-\\d{2}$/" },
    why: "What stands before a day gives no year of a shop's paper.",
  },
  {
    file: "src/estimating/day.ts",
    is: "if (!/^\\d{4}-\\d{2}-\\d{2}$/.test(text)) return false;",
    ...{ was: "/^\\d{4}-\\d{2}-\\d{2}$/", becomes: "/^\\d{4}-\\d{2}-\\d{2}/" },
    why: "A day with more behind it does not parse as one.",
  },
  {
    file: "src/estimating/parts/marking.ts",
    is: "if (shift >= 0n) return digits * 10n ** shift;",
    ...{ was: "shift >= 0n", becomes: "shift > 0n" },
    why: "Times one is divided by one.",
  },
  {
    file: "src/estimating/parts/tolerance.ts",
    is: '.replace(/±\\s+/g, "±")',
    ...{ was: '"±"', becomes: '""' },
    why: "A tolerance is read with its sign and without it.",
  },
  {
    file: "src/estimating/parts/designators.ts",
    is: 'const [prefix = "", ...size] = group.split(" ");',
    ...{ was: '""', becomes: '"changed"' },
    why: "A text that is split has a first part; this only tells the compiler so.",
  },
  {
    file: "src/acts/extraFault.ts",
    is: 'if (!outcome.ok) throw new Error("Work that could be priced has problems.");',
    ...{ was: '"Work that could be priced has problems."', becomes: '""' },
    why: "What `foundIn` priced is priced again, so nothing reaches it; it only tells the compiler so.",
  },
  {
    file: "src/acts/job.ts",
    is: "const [first, ...later] = revisions.filter(({ issuedAt }, at) => issuedAt !== undefined || at === revisions.length - 1);",
    ...{ was: "issuedAt !== undefined", becomes: "true" },
    why: "Only the newest revision can be a draft: the next one is begun from an issued one.",
  },
  {
    file: "src/estimating/risk/special.ts",
    is: "if (x <= 0) return 0;",
    ...{ was: "x <= 0", becomes: "false" },
    why: ENDS,
  },
  {
    file: "src/estimating/risk/special.ts",
    is: "if (x >= 1) return 1;",
    ...{ was: "x >= 1", becomes: "false" },
    why: ENDS,
  },
  {
    file: "src/estimating/risk/lineMasses.ts",
    is: "const labour = gap > smooth ? sumOfLines(lump.lines, h, Math.ceil(top / lowestFactor)) : undefined;",
    ...{ was: "Math.ceil(top / lowestFactor)", becomes: "Math.floor(top / lowestFactor)" },
    why: LAST_CELL,
  },
  {
    file: "src/estimating/risk/convolution.ts",
    is: "const lines = sumOfLines(sorted.loners.lines, h, Math.ceil(topEarly / leastFactor));",
    ...{ was: "Math.ceil(topEarly / leastFactor)", becomes: "Math.floor(topEarly / leastFactor)" },
    why: LAST_CELL,
  },
  {
    file: "src/estimating/parts/scarcity.ts",
    is: '.at(-1) ?? "";',
    ...{ was: '""', becomes: '"changed"' },
    why: "Read only where there are old offers, and so a newest; this only tells the compiler so.",
  },
  {
    file: "src/estimating/parts/priceParts.ts",
    is: "const before = variants.find((printed) => printed.freight === freight && sameNeed(printed.need, need));",
    ...{ was: "printed.freight === freight && sameNeed(printed.need, need)", becomes: "undefined" },
    why: "Priced anew it comes to the same: this saves pricing it.",
  },
  {
    file: "src/estimating/parts/priceParts.ts",
    is: 'let [sum, freight] = [0, ""];',
    ...{ was: '""', becomes: '"changed"' },
    why: "Any name does for no freight, as long as it is one.",
  },
  {
    file: "src/estimating/parts/priceParts.ts",
    is: "const now = [...paid.values()].reduce((total, { amount }) => total + amount, 0);",
    ...{ was: "total + amount", becomes: "total - amount" },
    why: "A sum that only falls tells as well as one that only grows whether freight was paid.",
  },
  {
    file: "src/estimating/parts/priceParts.ts",
    is: 'const source = lot.offer?.source ?? "";',
    ...{ was: '""', becomes: '"changed"' },
    why: "Only an offer has a least order; this only tells the compiler so.",
  },
  {
    file: "src/estimating/pricing/possible.ts",
    is: "const { beyond, mean } = isStepped(base, policy, workings)",
    ...{ was: "isStepped(base, policy, workings)", becomes: "true" },
    why: "Where nothing is stepped a set comes to the sum of its parts: this saves weighing every set.",
  },
  {
    file: "src/estimating/pricing/possible.ts",
    is: "base[LABOUR]! < billing.minimumCharge ||",
    ...{ was: "base[LABOUR]! < billing.minimumCharge", becomes: "base[LABOUR]! <= billing.minimumCharge" },
    why: "Where nothing is stepped a set comes to the sum of its parts: this saves weighing every set.",
  },
  {
    file: "src/estimating/pricing/riskSummary.ts",
    is: '"if found": (id) => (groups.get(id) ?? []).flatMap(named).join("; "),',
    ...{ was: "[]", becomes: '["changed"]' },
    why: "What is found is one of the groups; this only tells the compiler so.",
  },
  {
    file: "src/estimating/risk/cluster.ts",
    is: "members: new Set([...one.members].filter((lump) => other.members.has(lump) === inside)),",
    ...{ was: "other.members.has(lump) === inside", becomes: "other.members.has(lump) !== inside" },
    why: "Both parts are made: which is first changes nothing.",
  },
  {
    file: "src/estimating/pricing/possible.ts",
    is: "parts.sundries.cap !== undefined ||",
    ...{ was: "parts.sundries.cap !== undefined", becomes: "true" },
    why: "Where nothing is stepped a set comes to the sum of its parts: this saves weighing every set.",
  },
  {
    file: "src/estimating/pricing/possible.ts",
    is: "const closed = [...(places.size > 0 ? closure(workings.map, places) : [])].filter(",
    ...{ was: "places.size > 0", becomes: "true" },
    why: "Nowhere to work has nothing in its way: this saves looking.",
  },
  {
    file: "src/acts/readForm.ts",
    is: "if (number !== undefined) numbers.add(Number(number));",
    ...{ was: "number !== undefined", becomes: "true" },
    why: EMPTY_ROW,
  },
  {
    file: "src/acts/checked.ts",
    is: 'unit: { maker: "", model: "" },',
    ...{ was: '""', becomes: '"changed"' },
    why: "Only faults of the part are told, and a unit by any name has none.",
  },
  {
    file: "src/acts/ownAccount.ts",
    is: 'const way = await newWay(desk, { passphrase: wanted }, entrance, "");',
    ...{ was: '""', becomes: '"changed"' },
    why: "The name is that of a passkey, and a passphrase has none.",
  },
  {
    file: "src/acts/standing.ts",
    is: "if (ids.length === 0) return [];",
    ...{ was: "ids.length === 0", becomes: "false" },
    why: "Among no ids no row is found; this saves asking.",
  },
  {
    file: "src/acts/standing.ts",
    is: "const rest = ids.filter((id) => !agreed.has(id));",
    ...{ was: "ids.filter((id) => !agreed.has(id))", becomes: "ids" },
    why: "Read again they are the same; this saves reading them.",
  },
  {
    file: "src/acts/carryOut.ts",
    is: "if (!outcome) await apart(attempt);",
    ...{ was: "!outcome", becomes: "false" },
    why: "Who tries again at once meets the others more often, and comes through like them: it is a matter of time alone.",
  },
  {
    file: "src/acts/keepForNextTime.ts",
    is: "...(works.length > 0 ? await wrongInBook(db, value, old.book) : []),",
    ...{ was: "works.length > 0", becomes: "works.length >= 0" },
    why: "In a rate book that stays as it stands nothing is wrong; this saves looking.",
  },
];

export const names = (one: Known, other: Omit<Known, "why">): boolean =>
  one.file === other.file && one.is === other.is && one.was === short(other.was) && one.becomes === short(other.becomes);

export const short = (text: string): string => {
  const line = text.replace(/\s+/g, " ");
  return line.length > 110 ? `${line.slice(0, 110)}...` : line;
};

export interface Placed extends Mutant {
  readonly file: string;
  /** Which of its file's. */
  readonly nth: number;
  readonly line: number;
  readonly is: string;
}

export function placedIn(file: string): Placed[] {
  const text = readFileSync(file, "utf8");
  const lines = text.split("\n");
  return mutantsOf(text, file).mutants.map((mutant, nth) => {
    const line = text.slice(0, mutant.from).split("\n").length;
    return { ...mutant, file, nth, line, is: lines[line - 1]!.trim() };
  });
}
