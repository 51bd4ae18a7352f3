/**
 * A close-out sent after the job was closed or corrected elsewhere, such as in another tab: the form of a correction of what stands, with
 * what was typed and is not on record. Nothing typed is lost, and no payment comes twice or goes.
 */
import { uuidv7 } from "uuidv7";
import { closeJob } from "../../acts/closeJob.js";
import type { JobAsItStands } from "../../acts/job.js";
import { readForm, type Tongue, type Typed, typedFrom } from "../../acts/readForm.js";
import { writeForm } from "../../acts/writeForm.js";
import type { Payment } from "../../estimating/closeout/account/terms.js";
import { daysBetween } from "../../estimating/parts/catalogue.js";
import { credited } from "../../records/payments.js";
import { money } from "../../wording/figures.js";
import type { Saying } from "../../wording/saying.js";
import { day } from "../../wording/time.js";

type Texts = ReadonlyMap<string, string>;

/** In place of the rest: the page draws these always, so what is on record can stand beside what was typed. */
const BESIDE = /^(?:closedOn|basis|warrantyDays|oldParts\.|costs\.|done\.)/;
const APART = /^(?:token|seen|corrects|by|reason|intent|found|paidAgain|untouched\.all|payments\..*)$/;

export interface Late {
  readonly job: JobAsItStands;
  readonly typed: Typed;
  readonly says: ReadonlyMap<string, Saying>;
  /** The close-out that stands as the form of a correction has it. */
  readonly record: Texts;
  /** The form as it was drawn. */
  readonly drawn: Texts;
  readonly found: { readonly record: readonly string[]; readonly drawn: readonly string[] };
}

export const isClosedMeanwhile = ({ closeOut }: JobAsItStands, typed: Typed): boolean =>
  closeOut !== undefined && typed.get("corrects") !== closeOut.id;

export function closedMeanwhile({ job, typed, says, record, drawn, found }: Late) {
  const { closedOn, by, result, basis } = job.closeOut!;
  const { tongue } = job;
  const cash = (amount: number) => money(amount, tongue);
  const told = ({ for: what, amount, on }: Payment) => `${what} of ${cash(Math.abs(amount))} of ${day(on, tongue.locale)}`;
  const kept = credited(job.payments, basis.terms.payments);
  const fields = new Map(record);
  // What happened stands first.
  const errors = new Map([["", ""]]);
  const apart: string[] = [];
  const form = readForm(closeJob.fields, typed, tongue);
  const read = writeForm(closeJob.fields, form.ok ? form.value : form.read, tongue);
  for (const name of new Set([...typed.names, ...record.keys()])) {
    if (APART.test(name)) continue;
    const all = name.startsWith("untouched.each.") ? typed.get("untouched.all") : undefined;
    const mine = (typed.get(name)?.replaceAll("\r\n", "\n").trim() || all) ?? "";
    const theirs = record.get(name) ?? "";
    const same = [mine, read.get(name)];
    if (same.includes(theirs) || same.includes(drawn.get(name) ?? "")) continue;
    fields.set(name, mine);
    const label = (says.get(name) ?? says.get(name.replaceAll(/\.\d+(?=\.)/g, ".*")) ?? says.get(name.replace(/\.[^.]+$/, ".*")))
      ?.label;
    const stands = `${label}: ${theirs ? `on record is '${theirs}'` : "nothing is on record"}`;
    if (BESIDE.test(name)) errors.set(name, `${stands}.`);
    else apart.push(stands);
  }
  const { fresh, left } = paymentsTyped(typed, tongue, kept, drawn);
  const rows = [...record.keys()].filter((name) => /^payments\.\d+\.for$/.test(name)).length;
  for (const [at, row] of fresh.entries()) for (const [key, text] of row) fields.set(`payments.${rows + at}.${key}`, text);
  for (const name of ["by", "reason"]) fields.set(name, typed.get(name) ?? fields.get(name) ?? "");
  fields.set("token", uuidv7());
  fields.set("seen", "");
  const ticked = typed.all("found");
  const { total } = result.account.totals;
  errors.set(
    "",
    [
      `It was closed on ${day(closedOn, tongue.locale)} by ${by}. On record it comes to ${cash(total)}`,
      kept.length > 0 ? `, and paid are: ${kept.map(told).join("; ")}. ` : ", and nothing is paid. ",
      "What you typed is below beside what is on record, and nothing of it is recorded: send it as a correction, with its reason, or leave it.",
      ...(fresh.length > 0 ? [" The last payments below are those you typed that are not on record."] : []),
      ...(left.length > 0
        ? [` Left out, since on record: ${left.map(told).join("; ")}; if it was paid again, record it under Payments.`]
        : []),
      ...(apart.length > 0 ? [` You said otherwise: ${apart.join("; ")}.`] : []),
    ].join(""),
  );
  return {
    ...{ fields, errors, says, status: 409 as const },
    found: [...new Set([...found.record.filter((each) => ticked.includes(each) || !found.drawn.includes(each)), ...ticked])],
  };
}

/** What was typed of payments: what nothing on record stands for, row by row as it was typed, and what is left out. */
function paymentsTyped(typed: Typed, tongue: Tongue, kept: readonly Payment[], drawn: Texts) {
  const schema = closeJob.fields.pick({ payments: true });
  const read = (pairs: Iterable<readonly [string, string]>): Partial<Payment> => {
    const row = new URLSearchParams([...pairs].map(([key, text]) => [`payments.0.${key}`, text]));
    const form = readForm(schema, typedFrom(row), tongue);
    return ((form.ok ? form.value : form.read) as { payments?: Partial<Payment>[] }).payments?.[0] ?? {};
  };
  const known = [...kept];
  const old = rowsOf([...drawn.keys()], (name) => drawn.get(name)).map(read);
  const [fresh, left]: [ReadonlyMap<string, string>[], Payment[]] = [[], []];
  for (const row of rowsOf(typed.names, typed.get)) {
    const { on, amount, for: what } = read(row);
    const isSame = (each: Partial<Payment>) =>
      each.for === what && each.amount === amount && (!each.on || !on || Math.abs(daysBetween(each.on, on)) <= 1);
    // A row that the form had already is nobody's typing.
    const drawnAt = typed.get("corrects") ? old.findIndex((each) => isSame(each) && each.on === on) : -1;
    const at = known.findIndex(isSame);
    if (drawnAt >= 0) old.splice(drawnAt, 1);
    else if (at < 0) fresh.push(row);
    else left.push(known[at]!);
    if (at >= 0) known.splice(at, 1);
  }
  return { fresh, left };
}

/** Rows that say a day or an amount. */
function rowsOf(names: readonly string[], get: (name: string) => string | undefined): ReadonlyMap<string, string>[] {
  const numbers = new Set(names.flatMap((name) => /^payments\.(\d{1,4})\./.exec(name)?.[1] ?? []));
  return [...numbers].flatMap((row) => {
    const texts = ["on", "amount", "for", "how"].map((key) => [key, get(`payments.${row}.${key}`)?.trim() ?? ""] as const);
    return texts[0]![1] || texts[1]![1] ? [new Map(texts)] : [];
  });
}
