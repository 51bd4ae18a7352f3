/** Quoted, agreed, allowed and actual, by item, by assembly and by category: every breakdown sums to the total, to the minor unit. */
import type { CurrencyCode, EstimateInput, Minutes } from "../../input.js";
import { fromMilli, toMilli } from "../../money/scales.js";
import type { LogProblem, Problem } from "../../problems.js";
import { behindOf } from "../../resolve.js";
import { actualLines } from "../actual/actualLines.js";
import { recorded } from "../actual/partsDone.js";
import { workedIn } from "../actual/untimed.js";
import type { WorkDone } from "../actual/workDone.js";
import { type Allowed, agreedOf, allowedFor, type JobDone, quotedOf, type Untimed } from "../jobDone.js";
import { checkForClosing, withoutRefused } from "../log/checkLog.js";
import { partedBeside, withoutThen } from "../log/parted.js";
import type { WorkLog } from "../log/workLog.js";
import { adjustmentRows, notAgreedRows, standingRows } from "./otherRows.js";
import { partRows } from "./partRows.js";
import { type FoundOrNot, foundOrNot, type RiskWorth, riskWorth } from "./riskWorth.js";
import { asAllowed, CLOSE_OUT_CATEGORIES, type CloseOutCategory, type Figures, type Row, sumOfFigures } from "./row.js";
import { type ScopeChange, scopeChanges } from "./scope.js";
import { labourRows } from "./variance.js";

export interface CloseOut {
  readonly currency: CurrencyCode;
  readonly rows: readonly Row[];
  /** Labour and parts of each work item; what belongs to none has no id. */
  readonly items: readonly (Figures & { readonly item?: string })[];
  /** What belongs to no assembly, or to the unit as a whole, has none. */
  readonly assemblies: readonly (Figures & { readonly assembly?: { readonly id: string; readonly name: string } })[];
  readonly categories: readonly (Figures & { readonly category: CloseOutCategory })[];
  readonly total: Figures;
  /** Sums to allowed less quoted. */
  readonly scope: readonly ScopeChange[];
  readonly risk: readonly RiskWorth[];
  readonly ifFound: readonly FoundOrNot[];
  /**
   * Person at the bench; what nobody timed, or no time was allowed for, is on neither side. Allowed is what is charged where the book charges expected minutes, else
   * likely time with the condition grade, before billing steps; `charged` tells which, and is absent in close-outs from before it did.
   */
  readonly attended: { readonly allowed: Minutes; readonly actual: Minutes; readonly charged?: "expected" };
}

type CloseOutResult =
  /** `worked`: the log, and what nobody timed as it was allowed. */
  | { readonly ok: true; readonly closeOut: CloseOut; readonly worked: WorkLog }
  /** `partial`: without the entries that have problems. */
  | { readonly ok: false; readonly problems: readonly (Problem | LogProblem)[]; readonly partial?: CloseOut };

/** Without work of an agreement that was taken back, by the entries of it. Never throws for a log and revisions of the right shape. The revisions must be ones that were issued. */
export function closeOut(job: JobDone, then: readonly string[] = []): CloseOutResult {
  const agreed = agreedOf(job).input;
  const checked = checkForClosing(job.log, { current: job.current ?? agreed, agreed });
  const problems = withoutThen(checked, job.log, then);
  const [log] = partedBeside(agreed, problems.length === 0 ? job.log : withoutRefused(job.log, problems), then);
  const allowed = allowedFor({ ...job, log });
  if (!allowed.ok) return { ok: false, problems: [...problems, ...allowed.problems] };
  const worked = workedIn(job, log, allowed.allowed);
  const made = compare(job, worked, allowed);
  return problems.length === 0 ? { ok: true, closeOut: made, worked } : { ok: false, problems, partial: made };
}

function compare(job: JobDone, log: WorkLog, { billed, planned, allowed }: Extract<Allowed, { ok: true }>): CloseOut {
  const { input } = allowed;
  const [quoted, agreed] = [quotedOf(job), agreedOf(job)];
  const { work, parts } = recorded(job, log, allowed);
  const sheets = { quoted: quoted.sheet, agreed: agreed.sheet, allowed: allowed.sheet };
  const actual = actualLines(work, parts, allowed);
  const { untimed = {} } = job;
  const partsOnly = partRows({ quoted, agreed, allowed }, parts);
  const timed = labourRows(sheets, work, input);
  const stood = job.atPrice ? timed.map((row) => atItsPrice(row, [...timed, ...partsOnly], untimed, input)) : timed;
  const rows = [
    ...stood.map((row) => told(row, untimed, job.log)),
    ...partsOnly,
    ...standingRows(sheets, actual),
    ...adjustmentRows(sheets, actual),
    ...notAgreedRows(work, parts),
  ];
  // What it took is not known, so its hours are on neither side.
  const unknown = new Set(rows.flatMap(({ id, untimed: how }) => (how === "done" ? [id] : [])));
  const attendedOf = (done: readonly WorkDone[]) =>
    done.flatMap(({ portions }) => portions).reduce((sum, { labourClass, milli }) => sum + (labourClass.attended ? milli : 0), 0);
  const left = attendedOf(work.filter(({ line }) => unknown.has(line.id)));
  const bare = new Set(job.allowedTime ? notAllowedTime(rows, input) : []);
  const attended = attendedOf(work.filter(({ line }) => !bare.has(line.id))) - left;
  return {
    currency: input.currency,
    rows,
    items: grouped(rows, ({ item }) => item ?? "").map(([first, sum]) => ({
      ...(first.item !== undefined && { item: first.item }),
      ...sum,
    })),
    assemblies: grouped(rows, ({ assembly }) => assembly?.id ?? "").map(([first, sum]) => ({
      ...(first.assembly && { assembly: first.assembly }),
      ...sum,
    })),
    categories: CLOSE_OUT_CATEGORIES.flatMap((category) => {
      const own = rows.filter((row) => row.category === category);
      return own.length === 0 ? [] : [{ category, ...sumOfFigures(own) }];
    }),
    total: sumOfFigures(rows),
    scope: scopeChanges(job.revisions, planned.sheet, allowed.sheet),
    risk: riskWorth(billed.sheet, allowed.sheet, rows),
    ifFound: foundOrNot(agreed.sheet, job.found),
    attended:
      input.rateBook.billing.minutes === "expected"
        ? { allowed: expectedOf(rows, unknown, input), actual: fromMilli(attended), charged: "expected" }
        : { allowed: fromMilli(toMilli(allowed.sheet.time.attended) - left), actual: fromMilli(attended) },
  };
}

/** Attended minutes that the rows are charged for. */
function expectedOf(rows: readonly Row[], unknown: ReadonlySet<string>, { rateBook }: Pick<EstimateInput, "rateBook">): Minutes {
  const attended = new Set(rateBook.labourClasses.flatMap((each) => (each.attended ? [each.id] : [])));
  const milli = rows.reduce((sum, { id, is, minutes }) => {
    const by = "line" in is ? is.line.labourClass?.id : undefined;
    return minutes && by !== undefined && attended.has(by) && !unknown.has(id) ? sum + toMilli(minutes.allowed) : sum;
  }, 0);
  return fromMilli(milli);
}

/** Work at a fixed price that nobody timed is as allowed; of a service, together with all that stands behind it. */
function atItsPrice(row: Row, rows: readonly Row[], untimed: Untimed, { items }: Pick<EstimateInput, "items">): Row {
  const { item, is } = row;
  const how = item === undefined ? undefined : untimed[item];
  if (!how || !("line" in is) || is.line.why?.rule !== "fixed price") return row;
  const behind = new Set(items.flatMap((each) => (behindOf(each) === item ? [each.id] : [])));
  const rest = sumOfFigures(rows.filter((each) => behind.has(each.item ?? "")));
  const { actual, variance } = asAllowed(row, rest);
  return { ...row, actual, variance, logged: false, untimed: how };
}

/** At a fixed price, with no time allowed for it or for what stands behind it. */
const notAllowedTime = (rows: readonly Row[], { items }: Pick<EstimateInput, "items">): string[] =>
  rows.flatMap(({ item, is }) => {
    if (item === undefined || !("line" in is) || is.line.why?.rule !== "fixed price") return [];
    const ids = [item, ...items.flatMap((each) => (behindOf(each) === item ? [each.id] : []))];
    const own = rows.filter((each) => ids.includes(each.item ?? ""));
    return own.some(({ minutes }) => minutes?.allowed) ? [] : own.map(({ id }) => id);
  });

/** Whether anybody timed it; opening goes with the work. */
function told(row: Row, untimed: Untimed, log: WorkLog): Row {
  const opening = row.category === "access" && !log.time.some(({ work }) => work.is === "access");
  const how = row.item !== undefined ? untimed[row.item] : opening && Object.keys(untimed).length > 0 ? "done" : undefined;
  return how && row.minutes && row.minutes.actual > 0 ? { ...row, logged: false, untimed: how } : row;
}

/** In order of first row; what belongs to none stands last. */
function grouped(rows: readonly Row[], key: (row: Row) => string): [first: Row, sum: Figures][] {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const group = groups.get(key(row));
    if (group) group.push(row);
    else groups.set(key(row), [row]);
  }
  const none = groups.get("");
  groups.delete("");
  return [...groups.values(), ...(none ? [none] : [])].map((group) => [group[0]!, sumOfFigures(group)]);
}
