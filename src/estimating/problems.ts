/**
 * What can be wrong with an input: a closed union. A problem is a value, never an exception. Wording turns it into a sentence
 * that says what is wrong, why, and what to do; `pointer` is the JSON pointer (RFC 6901) to the offending value in the input.
 */

/** A work item that no agreement covers. */
export interface Unagreed {
  readonly id: string;
  readonly why:
    | "nothing agreed"
    | "not in what was agreed"
    | "left out by the owner"
    | "option not chosen"
    | "changed since"
    | "more than agreed";
}

interface At {
  readonly pointer: string;
}

export type Problem = At &
  (
    | { readonly name: "count negative"; readonly where: string; readonly value: number }
    | { readonly name: "count fractional"; readonly where: string; readonly value: number }
    | { readonly name: "count too large"; readonly where: string; readonly value: number; readonly limit: number }
    | { readonly name: "count missing"; readonly where: string }
    | { readonly name: "assembly unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "operation unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "part type unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "part kind unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "part missing"; readonly where: string }
    /** Neither an operation, nor own words, nor a service. */
    | { readonly name: "work missing"; readonly where: string }
    | { readonly name: "work said twice"; readonly where: string; readonly ways: readonly string[] }
    | { readonly name: "own words missing"; readonly where: string; readonly what: "work" | "part" }
    | { readonly name: "own words too long"; readonly where: string; readonly length: number; readonly limit: number }
    | { readonly name: "time or price missing"; readonly where: string }
    | { readonly name: "own part without time"; readonly where: string }
    | { readonly name: "own part without cost"; readonly where: string }
    | { readonly name: "brought part with cost"; readonly where: string }
    | { readonly name: "service unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "service without work"; readonly where: string }
    | { readonly name: "price of no known part"; readonly where: string }
    | { readonly name: "price without reason"; readonly where: string }
    /** An id that the tool makes itself for own work, own parts and services. */
    | { readonly name: "id reserved"; readonly where: string; readonly id: string }
    | { readonly name: "labour class unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "grade unknown"; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "profile unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | { readonly name: "fastener unknown"; readonly where: string; readonly id: string }
    | { readonly name: "access standard missing"; readonly where: string; readonly size: string; readonly mounting: string }
    | { readonly name: "id repeated"; readonly what: string; readonly id: string }
    /** Names, each behind the next; `joined` has the positions of those that are joined to the next instead. */
    | { readonly name: "behind cycle"; readonly cycle: readonly string[]; readonly joined?: readonly number[] }
    /** Names, each to be fitted before the next; `joined` as above. */
    | { readonly name: "fit before cycle"; readonly cycle: readonly string[]; readonly joined?: readonly number[] }
    | { readonly name: "currency unknown"; readonly code: string }
    | { readonly name: "currency differs"; readonly where: string; readonly code: string; readonly expected: string }
    | { readonly name: "exchange rate unreadable"; readonly where: string; readonly value: string }
    | { readonly name: "exchange rate ahead"; readonly where: string; readonly on: string; readonly asOf: string }
    | { readonly name: "exchange rate of itself"; readonly where: string; readonly code: string }
    | { readonly name: "tax category unknown"; readonly where: string; readonly id: string; readonly known: readonly string[] }
    | {
        readonly name: "percent out of range";
        readonly where: string;
        readonly value: number;
        readonly low: number;
        readonly high: number;
      }
    | { readonly name: "probability out of range"; readonly where: string; readonly value: number }
    | { readonly name: "share good out of range"; readonly where: string; readonly value: number }
    | { readonly name: "service level out of range"; readonly value: number }
    | { readonly name: "group differs"; readonly group: string; readonly what: "probability" | "choice" }
    | {
        readonly name: "times out of order";
        readonly where: string;
        readonly low: number;
        readonly likely: number;
        readonly high: number;
      }
    | { readonly name: "minutes out of range"; readonly where: string; readonly value: number }
    | { readonly name: "amount out of range"; readonly where: string; readonly value: number }
    | { readonly name: "amount fractional"; readonly where: string; readonly value: number }
    | { readonly name: "total too large"; readonly limit: number }
    | { readonly name: "mark-up bands out of order"; readonly where: string }
    | { readonly name: "leads or minutes"; readonly where: string }
    | { readonly name: "date unreadable"; readonly where: string; readonly value: string }
    | { readonly name: "too many assemblies"; readonly count: number; readonly limit: number }
    | { readonly name: "too many items"; readonly count: number; readonly limit: number }
    | {
        readonly name: "too many choices";
        readonly what: "option or if found" | "worth doing";
        readonly count: number;
        readonly limit: number;
        /** Works there are, where the limit follows from them. */
        readonly items?: number;
      }
    /** `count`: options; `found`: groups of possible work. */
    | { readonly name: "options beside possible work"; readonly count: number; readonly found: number; readonly limit: number }
    | { readonly name: "too many offers"; readonly looked: number; readonly limit: number }
  );

export type ProblemName = Problem["name"];

/** What can be wrong with a work log; `pointer` is into the log. Ids, counts and amounts are refused by the names above. */
export type LogProblem = At & { readonly where: string } & (
    | { readonly name: "moment unreadable"; readonly value: string }
    | { readonly name: "time negative"; readonly minutes: number }
    | { readonly name: "time too long"; readonly minutes: number; readonly limit: number }
    /** `other` is where the person was at the same time. */
    | { readonly name: "times overlap"; readonly other: string; readonly minutes: number }
    | { readonly name: "two timers"; readonly other: string }
    | { readonly name: "timer running"; readonly since: string }
    | { readonly name: "job closed"; readonly on: string }
    | { readonly name: "person missing" }
    | { readonly name: "work unknown"; readonly id: string }
    | { readonly name: "work not agreed"; readonly why: Unagreed["why"] }
    | { readonly name: "part not agreed"; readonly part: string }
    | { readonly name: "override incomplete"; readonly lacks: "reason" | "name" }
  );

export type LogProblemName = LogProblem["name"];

export const LIMITS = {
  assemblies: 60,
  items: 2000,
  /** Letters of the shop's own words for work, a part or where it comes from. */
  ownWords: 200,
  /** Works behind one service. */
  serviceWork: 100,
  choices: 200,
  /** Where the rate book has risk shared, or the price follows from it, each choice is weighed among all the work: so many choices, and choices times works. */
  weighedChoices: 100,
  weighed: 12_000,
  /** At a fixed price: options times groups of possible work. */
  beside: 400,
  /** Counts of pieces that buy plans look at, about. */
  looked: 75_000,
  count: 10_000,
  /** Pieces on the shelf. */
  stock: 1_000_000,
  amount: 1_000_000_000_000,
  minutes: 100_000,
  /** Of pieces that are good. Below it a plan would look at thousands of pieces. */
  leastShare: 0.01,
  boards: 60,
} as const;
