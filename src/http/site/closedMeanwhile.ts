/**
 * A close-out sent after the job was closed or corrected elsewhere, such as in another tab: the form of a correction of what stands, with
 * what was typed and is not on record. Nothing typed is lost, and no payment comes twice or goes.
 */
import { uuidv7 } from "uuidv7";
import { closeJob, shortly } from "../../acts/closeJob.js";
import type { JobAsItStands } from "../../acts/job.js";
import { readForm, type Tongue, type Typed, typedFrom } from "../../acts/readForm.js";
import { writeForm } from "../../acts/writeForm.js";
import type { Payment } from "../../estimating/closeout/account/terms.js";
import { daysBetween } from "../../estimating/parts/catalogue.js";
import { paymentsIn } from "../../pages/closeout/closeFields.js";
import { creditOf, type PaymentValue, standing, unrecorded } from "../../records/payments.js";
import { idOf } from "../../wording/fieldName.js";
import { money } from "../../wording/figures.js";
import { workTitle } from "../../wording/line.js";
import type { Saying } from "../../wording/saying.js";
import { day } from "../../wording/time.js";

type Texts = ReadonlyMap<string, string>;

/** In place of the rest: the page draws these always, so what is on record can stand beside what was typed. */
const BESIDE = /^(?:closedOn|basis|warrantyDays|oldParts\.|costs\.|done\.)/;
const APART = /^(?:token|was|seen|corrects|by|reason|intent|found|paidAgain|untouched\.all|payments\..*)$/;

const EACH = "untouched.each.";

type Paid = Payment & { readonly how?: PaymentValue["how"] };

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
  const told = (paid: Paid) => toldOf(paid, tongue);
  const kept: readonly Paid[] = [
    ...unrecorded(basis.terms.payments, job.payments),
    ...standing(job.payments).map((each) => ({ ...creditOf(each), how: each.how })),
  ];
  const fields = new Map(record);
  // What happened stands first.
  const errors = new Map([["", ""]]);
  const apart: string[] = [];
  /** What was said of work that nothing was logged on -> which. */
  const works = new Map<string, string[]>();
  const form = readForm(closeJob.fields, typed, tongue);
  const read = writeForm(closeJob.fields, form.ok ? form.value : form.read, tongue);
  for (const name of new Set([...typed.names, ...record.keys()])) {
    if (APART.test(name)) continue;
    const all = name.startsWith(EACH) ? typed.get("untouched.all") : undefined;
    const mine = (typed.get(name)?.replaceAll("\r\n", "\n").trim() || all) ?? "";
    const theirs = record.get(name) ?? "";
    const same = [mine, read.get(name)];
    if (same.includes(theirs) || same.includes(drawn.get(name) ?? "")) continue;
    fields.set(name, mine);
    const item = name.startsWith(EACH) && job.agreed()?.input.items.find(({ id }) => id === idOf(name.slice(EACH.length)));
    if (item) {
      const said = `'${mine || "nothing"}' of …: on record is '${theirs || "nothing"}'`;
      works.set(said, [...(works.get(said) ?? []), `'${workTitle(item, job.agreed()!.input)}'`]);
      continue;
    }
    const label = (says.get(name) ?? says.get(name.replaceAll(/\.\d+(?=\.)/g, ".*")) ?? says.get(name.replace(/\.[^.]+$/, ".*")))
      ?.label;
    const stands = `${label}: ${theirs ? `on record is '${theirs}'` : "nothing is on record"}`;
    if (BESIDE.test(name)) errors.set(name, `${stands}.`);
    else apart.push(stands);
  }
  for (const [said, titles] of works) apart.push(said.replace("…", shortly(titles)));
  const { fresh, left, cleared, lost, set } = paymentsTyped({ typed, tongue, kept, drawn, record });
  for (const [name, text] of set) fields.set(name, text);
  fields.set("was", paymentsIn(record));
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
      ...(fresh > 0 ? [" The last payments below are those you typed that are not on record."] : []),
      ...(left.length > 0
        ? [` Left out, since on record: ${left.join("; ")}; if it was paid again, record it under Payments.`]
        : []),
      ...(cleared.length > 0 ? [` Cleared below, as you cleared it: ${cleared.map(told).join("; ")}.`] : []),
      ...(lost.length > 0 ? [` You changed what is on record no more: ${lost.join("; ")}; if it was paid, add it.`] : []),
      ...(apart.length > 0 ? [` You said otherwise: ${apart.join("; ")}.`] : []),
    ].join(""),
  );
  return {
    ...{ fields, errors, says, status: 409 as const },
    found: [...new Set([...found.record.filter((each) => ticked.includes(each) || !found.drawn.includes(each)), ...ticked])],
  };
}

const toldOf = ({ for: what, amount, on, how }: Paid, tongue: Tongue, more = ""): string => {
  const aside = [how === "other" ? "" : how, more].filter(Boolean).join("; ");
  return `${what} of ${money(Math.abs(amount), tongue)} of ${day(on, tongue.locale)}${aside && ` (${aside})`}`;
};

interface PaymentsSeen extends Pick<Late, "typed" | "drawn" | "record"> {
  readonly tongue: Tongue;
  /** All that counts. */
  readonly kept: readonly Paid[];
}

/**
 * What was typed of payments. Of a correction, a row the form had already is changed or cleared where that still stands on record; what
 * nothing on record stands for is new.
 */
function paymentsTyped({ typed, tongue, kept, drawn, record }: PaymentsSeen) {
  const schema = closeJob.fields.pick({ payments: true });
  const read = (texts: Texts): Partial<Paid> => {
    const row = new URLSearchParams([...texts].map(([key, text]) => [`payments.0.${key}`, text]));
    const form = readForm(schema, typedFrom(row), tongue);
    return ((form.ok ? form.value : form.read) as { payments?: Partial<Paid>[] }).payments?.[0] ?? {};
  };
  const isSame = (one: Partial<Paid>, other: Partial<Paid>, within = 1) =>
    one.for === other.for &&
    one.amount === other.amount &&
    (one.on === other.on || (within > 0 && (!one.on || !other.on || Math.abs(daysBetween(one.on, other.on)) <= within)));
  const known = [...kept];
  const take = (row: Partial<Paid>, within?: number): Paid | undefined => {
    const at = known.findIndex((each) => isSame(each, row, within));
    return at < 0 ? undefined : known.splice(at, 1)[0];
  };
  const stands = new Map([...rowsOf(record)].map(([at, texts]) => [at, read(texts)]));
  let next = Math.max(-1, ...stands.keys()) + 1;
  const was = new Map(new URLSearchParams(typed.get("was") ?? paymentsIn(drawn)));
  // Row of the form -> what it had, and the row it has on record.
  const old = [...(typed.get("corrects") ? rowsOf(was) : [])].map(([row, texts]) => {
    const had = read(texts);
    const [at] = [...stands].find(([, each]) => isSame(each, had, 0)) ?? [];
    if (at !== undefined) stands.delete(at);
    return { row, had: at === undefined ? had : { ...had, ...take(had, 0) }, at };
  });
  const mine = rowsOf(new Map(typed.names.map((name) => [name, typed.get(name)!])));
  const set = new Map<string, string>();
  const put = (at: number, texts: Texts) => {
    for (const [key, text] of texts) set.set(`payments.${at}.${key}`, text);
  };
  const [left, lost, cleared]: [string[], string[], Paid[]] = [[], [], []];
  /** Whether it is on record, and so left out. */
  const isLeft = (row: Partial<Paid>): boolean => {
    const there = take(row);
    if (there) left.push(toldOf(there, tongue, row.how && row.how !== there.how ? `you typed ${row.how}` : ""));
    return there !== undefined;
  };
  for (const { row, had, at } of old) {
    const texts = mine.get(row);
    mine.delete(row);
    const now = texts && read(texts);
    // A row that the form had already is nobody's typing.
    if (now ? isSame(now, had, 0) || isLeft(now) : typed.get(`payments.${row}.amount`) === undefined || at === undefined)
      continue;
    if (at === undefined) lost.push(`${toldOf(had as Paid, tongue)}, to ${[...texts!.values()].filter(Boolean).join(", ")}`);
    else put(at, texts ?? new Map(PAID_KEYS.map((key) => [key, ""])));
    if (!texts) cleared.push(had as Paid);
  }
  const fresh = [...mine.values()].filter((texts) => !isLeft(read(texts)));
  for (const texts of fresh) put(next++, texts);
  return { fresh: fresh.length, left, lost, cleared, set };
}

const PAID_KEYS = ["on", "amount", "for", "how"] as const;

/** Rows that say a day or an amount, by their numbers. */
function rowsOf(fields: Texts): Map<number, Texts> {
  const numbers = new Set([...fields.keys()].flatMap((name) => /^payments\.(\d{1,4})\./.exec(name)?.[1] ?? []));
  const rows = [...numbers].flatMap((row) => {
    const texts = new Map(PAID_KEYS.map((key) => [key as string, fields.get(`payments.${row}.${key}`)?.trim() ?? ""]));
    return texts.get("on") || texts.get("amount") ? [[Number(row), texts] as const] : [];
  });
  return new Map(rows);
}
