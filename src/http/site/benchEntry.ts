/** One entry of the bench page, read from its form and put on record. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import { today } from "../../acts/today.js";
import { readMoment } from "../../estimating/closeout/log/spent.js";
import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import { type PartTyped, partTyped } from "../../pages/bench/partTyped.js";
import { workFrom } from "../../pages/bench/view.js";
import { key } from "../../pages/form/fields.js";
import { choice, count, line, money, number, reading } from "../../pages/form/reading.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { contentHash } from "../../records/contentHash.js";
import { logWork } from "../../records/logWork.js";
import type { OverrideValue } from "../../records/overrides.js";
import { partKinds } from "../../records/partKinds.js";
import { startTimer, stopTimer } from "../../records/runTimer.js";
import { takeReading, tickOff } from "../../records/tickOff.js";
import { timerBy } from "../../records/timers.js";
import type { LogEntryValue } from "../../records/workLog.js";
import type { AppEnv } from "../bindings.js";
import { type Made, madeOf, type Outcome } from "./benchOutcome.js";
import type { OpenBench } from "./benchView.js";

type Fields = ReadonlyMap<string, string>;

export async function makeEntry(c: Context<AppEnv>, open: OpenBench, fields: Fields, overriding: boolean): Promise<Made> {
  const { db } = c.var;
  const { subject, standing } = open;
  const { id: jobId } = subject.job;
  const now = c.var.clock().toISOString();
  const at = reading(plainContext(standing.input.asOf, subject.tongue, standing.input.rateBook));
  const person = line(at, "by", fields.get("person"), 200);
  const by = line(at, "override.by", fields.get("override.by"), 200);
  const reason = line(at, "override.reason", fields.get("override.reason"));
  const wrong = new Map<string, string>();
  if (!person) wrong.set("by", "Who works: type the name, then make the entry again.");
  if (overriding && !by) wrong.set("override.by", "Who decides: an override needs a name.");
  if (overriding && !reason) wrong.set("override.reason", "Why: an override needs a reason.");
  const override: OverrideValue | undefined = overriding && by && reason ? { by, reason } : undefined;
  const token = await idOf(fields);
  const act = fields.get("act") ?? "";
  const answer = (outcome: Outcome, names: Readonly<Record<string, string>> = {}, anchor?: string) =>
    madeOf(outcome, { act, tongue: subject.tongue, names, ...(anchor && { anchor }) });
  const stopped = () => errorsOf(at, wrong);
  const log = (entry: Partial<LogEntryValue>, names: Readonly<Record<string, string>>, anchor: string) => {
    const errors = stopped();
    if (errors.size > 0) return { is: "wrong", errors } as const;
    const workedOn = today(typedAt(fields.get("moment"), now), subject.settings.timeZone);
    const whole = { person: person!, workedOn, ...entry };
    return logWork(db, jobId, { id: token, overrideId: uuidv7(), entry: whole, override }, now).then((outcome) =>
      answer(outcome, names, anchor),
    );
  };

  switch (act) {
    case "start":
    case "stop": {
      const worked = number(at, "worked", fields.get("worked"), 3);
      const errors = stopped();
      if (errors.size > 0) return { is: "wrong", errors };
      const running = await timerBy(db, person!);
      const here = running?.jobId === jobId && running.id !== token ? running : undefined;
      const moment = momentOf(fields.get("moment"), now);
      if (here || act === "stop") {
        const endedAt =
          worked === undefined || !here
            ? moment
            : new Date(Date.parse(here.startedAt) + Math.round(worked * 60_000)).toISOString();
        const workedOn = today(new Date(here?.startedAt ?? now), subject.settings.timeZone);
        const outcome = await stopTimer(db, jobId, person!, { overrideId: uuidv7(), endedAt, workedOn, override }, now);
        if (outcome.is !== "logged" || act === "stop")
          return answer(outcome, { endedAt: "worked", minutes: "worked" }, "at-work");
      }
      const work = workFrom(fields.get("work") ?? "");
      return answer(
        await startTimer(db, jobId, { id: token, person: person!, startedAt: moment, ...work }),
        {},
        work.item === undefined ? "at-work" : `work-${key(work.item)}`,
      );
    }
    case "minutes": {
      const minutes = number(at, "minutes", fields.get("minutes"), 3);
      const remark = line(at, "note", fields.get("note"));
      if (minutes === undefined && !errorsIn(at).has("minutes")) wrong.set("minutes", "Minutes: give the time.");
      const entry = {
        ...workFrom(fields.get("work") ?? ""),
        ...(minutes !== undefined && { minutes }),
        ...(remark && { note: remark }),
      };
      return log(entry, { item: "work", assembly: "work", offer: "work", minutes: "minutes" }, "recent");
    }
    case "tick": {
      const item = fields.get("item") ?? "";
      const field = `count.${key(item)}`;
      const done = fields.get("all") ? Number(fields.get("all")) : count(at, field, fields.get("count"));
      if (done === undefined && !errorsIn(at).has(field)) wrong.set(field, "Done: give a number.");
      const errors = stopped();
      if (errors.size > 0) return { is: "wrong", errors };
      return answer(
        await tickOff(db, jobId, token, { item, count: done!, person: person! }, now),
        { count: field },
        `work-${key(item)}`,
      );
    }
    case "part": {
      const pieces = count(at, "pieces", fields.get("pieces"));
      const paid = money(at, "paid", fields.get("paid"));
      const state = choice(at, "state", fields.get("state"), PART_STATES);
      const code = (fields.get("code") ?? "").trim();
      const scanned = code === "" ? undefined : await partKinds.find(db, code);
      const found: PartTyped = partTyped(fields, open.needs, open.revision, standing.input, scanned);
      if (found.is === "wrong") wrong.set(found.field, found.text);
      const entry: Partial<LogEntryValue> =
        found.is === "wrong"
          ? {}
          : {
              ...found.part,
              partCount: pieces ?? 1,
              ...(paid !== undefined && { paidPrice: paid, paidPer: 1 }),
              ...(state && { partState: state }),
              ...(fields.get("instead") === "yes" && { insteadOf: true as const }),
            };
      const names = { partKind: "code", partType: "code", item: "for", partCount: "pieces", paidPrice: "paid" };
      return log(entry, names, "parts");
    }
    case "reading": {
      const label = line(at, "label", fields.get("label"), 200);
      const unit = line(at, "unit", fields.get("unit"), 20) ?? "V";
      const expected = number(at, "expected", fields.get("expected"), 3);
      const found = number(at, "found", fields.get("found"), 3);
      const assembly = fields.get("assembly");
      if (!label) wrong.set("label", "What was measured: name it, such as supply +12 V.");
      if (found === undefined && !errorsIn(at).has("found")) wrong.set("found", "Found: give the figure that was read.");
      const errors = stopped();
      if (errors.size > 0) return { is: "wrong", errors };
      const value = {
        label: label!,
        unit,
        found: found!,
        person: person!,
        ...(expected !== undefined && { expected }),
        ...(assembly && { assembly }),
      };
      return answer(await takeReading(db, jobId, token, value, now), {}, "readings");
    }
    default:
      return { is: "wrong", errors: new Map([["", "This form is not one of the bench; open the page again."]]) };
  }
}

const errorsOf = (at: ReturnType<typeof reading>, wrong: ReadonlyMap<string, string>): Map<string, string> =>
  new Map([...errorsIn(at), ...wrong]);

/** As the tablet's clock said when it could not be sent; otherwise now. */
const momentOf = (typed: string | undefined, now: string): string => (typed ? typed : now);

/** A tablet whose clock is ahead tells no day that is still to come. */
function typedAt(typed: string | undefined, now: string): Date {
  const at = readMoment(typed ?? "");
  return new Date(at === undefined ? now : Math.min(at, Date.parse(now)));
}

/** The same form sent twice has one id; gone back to and sent with something else in it, it is another entry. */
async function idOf(fields: Fields): Promise<string> {
  const hash = await contentHash(fields.has("token") ? [...fields] : uuidv7());
  return hash.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12}).*$/, "$1-$2-$3-$4-$5");
}
