/** What the bench page shows. */
import type { Context } from "hono";
import type { Desk } from "../../acts/act.js";
import { beginUnpaid, begunUnpaid } from "../../acts/beginUnpaid.js";
import { saysOf } from "../../acts/field.js";
import type { JobAsItStands } from "../../acts/job.js";
import { logWork } from "../../acts/logWork.js";
import { owed } from "../../acts/owed.js";
import { declinedIn } from "../../acts/reckoning.js";
import { takeReading } from "../../acts/takeReading.js";
import { itemsOf } from "../../estimating/agreement/choices.js";
import { lookingLimit } from "../../estimating/agreement/workLog.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { type BenchView, type Need, type ReadingRow, type RunningTimer, workValue } from "../../pages/bench/view.js";
import { donorsWith } from "../../records/donors.js";
import { limitText } from "../../wording/account.js";
import { plainNumber } from "../../wording/figures.js";
import { clock } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { benchScriptFor, frameFor } from "../frame/frame.js";
import { cautionsOf, leaveIn, needsOf, wantedOf, worksOf } from "./benchWorks.js";
import { type JobSubject, lastHand } from "./jobSubject.js";
import { logRow, workedOnTitle } from "./logRows.js";
import { agreedProps } from "./standing.js";

export interface OpenBench {
  readonly subject: JobSubject;
  readonly input: EstimateInput;
  /** Who works. */
  readonly by: string;
  readonly sheet: Sheet;
  readonly needs: readonly Need[];
}

/** Undefined where there is nothing to work by. */
export function openBench(subject: JobSubject, named?: string): OpenBench | undefined {
  const { stands } = subject;
  const input = stands.input();
  const sheet = stands.latest?.sheet ?? stands.agreed()?.sheet;
  if (!input || !sheet) return undefined;
  const by = (named ?? subject.hand ?? stands.entries.at(-1)?.person ?? lastHand(subject)).trim();
  return { subject, input, by, sheet, needs: needsOf(stands, input, subject.when) };
}

export type BenchShown = Omit<BenchView, "fields" | "errors" | "token" | "say" | "refusal" | "insteadFor" | "dangers">;

const OF_LOG = saysOf(logWork.fields);
/** Fields of the form of work in own words that the form of minutes has too. */
const OWN = ["minutes", "assembly", "note", "override.by", "override.reason"].map(
  (name) => [`own.${name}`, OF_LOG.get(name)!] as const,
);
const BEGIN = [...saysOf(beginUnpaid.fields)].map(([name, says]) => [`begin.${name}`, says] as const);
const SAYS = new Map([...OF_LOG, ...saysOf(takeReading.fields), ...OWN, ...BEGIN]);

export async function benchView(c: Context<AppEnv>, desk: Desk, open: OpenBench): Promise<BenchShown> {
  const { subject, input, by, sheet, needs } = open;
  const { stands, head, settings, tongue } = subject;
  const { closedOn, readings, timers } = stands;
  const at = (iso: string) => clock(iso, tongue.locale, settings.timeZone);
  const mine = stands.everyTimer.find(({ person }) => person === by);
  const agreed = agreedProps(stands);
  const begun = begunUnpaid(stands);
  return {
    frame: frameFor(c, settings.name),
    script: benchScriptFor(c),
    job: head,
    at: at(desk.at),
    revision: stands.latest!.id,
    says: SAYS,
    ...{ tongue, input, by, needs: await withDonors(desk, needs) },
    sheet: { ...sheet, hazards: cautionsOf(sheet, stands) },
    ...(closedOn !== undefined && { closedOn }),
    deposit: owed(stands).deposit,
    ...(begun && { begunUnpaid: { by: begun.by, reason: begun.reason } }),
    declined: declinedIn(stands) !== undefined,
    looking: lookingLimit(input),
    ...(agreed && { agreed }),
    ...(mine && { timer: running(mine, await desk.job(mine.jobId), subject, at) }),
    others: timers.filter(({ person }) => person !== by).map((each) => running(each, stands, subject, at)),
    ...worksOf(stands, input, sheet),
    leaveIn: leaveIn(sheet, stands),
    ...aboveOf(stands, tongue),
    readings: readings.map((reading): ReadingRow => {
      const said = (figure: number) => `${plainNumber(figure, tongue.locale)} ${reading.unit}`;
      const { expected, found, label, person, assembly } = reading;
      const where = input.map?.assemblies.find(({ id }) => id === assembly)?.name;
      return {
        ...{ label, person, found: said(found), at: at(reading.at) },
        ...(where !== undefined && { where }),
        ...(expected !== undefined && { expected: said(expected), off: said(Math.round((found - expected) * 1000) / 1000) }),
      };
    }),
    wanted: wantedOf(
      input,
      readings.map(({ label }) => label),
    ),
    recent: stands.entries
      .slice(-5)
      .reverse()
      .map((entry) => logRow(entry, input, [], subject.when)),
  };
}

/** What was found is charged at its price, up to the limit. */
function aboveOf(stands: JobAsItStands, tongue: Tongue): Pick<BenchView, "above"> {
  const [agreed, limit, over] = [stands.agreed(), stands.limit(), stands.agreedWork()?.asAgreed && stands.bill()?.over];
  const why = limit && over ? limitText({ held: { over, allowances: [] }, limit }, tongue) : undefined;
  if (!agreed || !why || stands.closeOut) return {};
  return { above: { of: new Set(itemsOf(agreed.input, stands.found()).map(({ id }) => id)), why } };
}

/** What is still in a donor unit is pulled there, which logs it too; used from the shelf, the unit would go on offering it. */
async function withDonors({ db }: Desk, needs: readonly Need[]): Promise<readonly Need[]> {
  const open = needs.filter(({ blocked, needed, used }) => !blocked && used < needed);
  const held = await donorsWith(db, [...new Set(open.flatMap(({ kind }) => kind ?? []))]);
  return needs.map((need) => {
    const own = open.includes(need) ? held.filter(({ kind }) => kind === need.kind) : [];
    const donors = own.map(({ donor, source, available }) => ({ id: donor!, name: source, pieces: available! }));
    return donors.length > 0 ? { ...need, donors } : need;
  });
}

/** `on`: the job it runs on. */
function running(
  timer: JobAsItStands["timers"][number],
  on: JobAsItStands | undefined,
  { job }: JobSubject,
  at: (iso: string) => string,
): RunningTimer {
  const input = on?.input();
  return {
    person: timer.person,
    title: input ? workedOnTitle(timer, input) : "work",
    startedAt: timer.startedAt,
    since: at(timer.startedAt),
    work: workValue(timer),
    ...(timer.jobId !== job.id && { elsewhere: { id: timer.jobId, number: timer.jobNumber } }),
  };
}
