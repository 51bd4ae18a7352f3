/** What must hold of a job after each act on it, whatever was done. A sentence for each thing that does not. */
import { type JobAsItStands, jobAsItStands } from "../../../src/acts/job.js";
import { owed } from "../../../src/acts/owed.js";
import type { FinalAccount } from "../../../src/estimating/closeout/account/finalAccount.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { owedShown } from "../../../src/http/site/standing.js";
import { closeOuts } from "../../../src/records/closeOuts.js";
import type { Database } from "../../../src/records/database.js";
import { issues } from "../../../src/records/issues.js";
import { sha256 } from "../../../src/records/sha256.js";
import { owedText } from "../../../src/wording/account.js";
import { money } from "../../../src/wording/figures.js";
import { words } from "../../http/support/noScript.js";
import { bare, paperText } from "./paperText.js";
import { type JobTold, paidOn } from "./told.js";

export const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value));

/** As keys come, wherever it was read. */
export const canonical = (value: unknown): string =>
  JSON.stringify(value, (_, each) =>
    typeof each === "object" && each !== null && !Array.isArray(each)
      ? Object.fromEntries(Object.entries(each).sort(([a], [b]) => (a < b ? -1 : 1)))
      : each,
  );

/** How the app is looked at: status, and text of what it answers. */
export type Look = (path: string) => Promise<{ readonly status: number; readonly text: string; readonly bytes: Uint8Array }>;

/** What is on record, against what was acknowledged. */
export function keptAsTold(job: JobAsItStands, told: JobTold): string[] {
  const faults: string[] = [];
  const same = (what: string, kept: unknown, said: unknown) => {
    if (canonical(plain(kept)) !== canonical(plain(said)))
      faults.push(`${what}: on record ${canonical(plain(kept)).slice(0, 400)}, acknowledged ${canonical(said).slice(0, 400)}`);
  };
  same(
    "answers",
    job.answers,
    told.answers.map((answer) => JSON.parse(answer)),
  );
  same(
    "payments",
    job.payments.map(({ id, amount, for: what, withdrawal }) => [id, what === "refund" ? -amount : amount, !!withdrawal]).sort(),
    told.payments.map(({ id, amount, gone }) => [id, amount, gone]).sort(),
  );
  same(
    "work log",
    job.everyEntry.map(({ id, withdrawal }) => [id, !!withdrawal]).sort(),
    told.entries.map(({ id, gone }) => [id, gone]).sort(),
  );
  same("ticks", job.tickOffs.map(({ id }) => id).sort(), [...told.ticks].sort());
  same(
    "questions",
    Object.fromEntries(job.questions.map(({ id, replies }) => [id, replies.length])),
    Object.fromEntries(told.questions),
  );
  same(
    "close-outs",
    job.closeOuts.map(({ basis: _, ...record }) => record),
    told.closeOuts.map((record) => JSON.parse(record)),
  );
  same(
    "issued revisions",
    Object.fromEntries(job.issues.map(({ id, pdfHash }) => [id, [canonical(plain(job.revision(id)!.sheet)), pdfHash]])),
    Object.fromEntries([...told.issued].map(([id, { sheet, pdfHash }]) => [id, [sheet, pdfHash]])),
  );
  return faults;
}

/** Nothing printed sums wrong. */
export function sumsWrong({ lines, adjustments, totals }: Pick<Sheet, "lines" | "adjustments" | "totals">): string[] {
  const sum = (amounts: readonly number[]) => amounts.reduce((all, amount) => all + amount, 0);
  const { linesNet, allowances, charges, withoutTax, taxGroups, tax, total, prepaid, due, pricesIncludeTax } = totals;
  const held: readonly (readonly [string, number, number])[] = [
    ["lines", sum(lines.map(({ amount }) => amount)), linesNet],
    ["charges", sum(adjustments.filter(({ charge }) => charge).map(({ amount }) => amount)), charges],
    ["tax", sum(taxGroups.map((group) => group.tax)), tax],
    ["without tax", linesNet - allowances + charges - (pricesIncludeTax ? tax : 0), withoutTax],
    ["total", withoutTax + tax, total],
    ["due", total - prepaid, due],
  ];
  return held.flatMap(([what, summed, said]) => (summed === said ? [] : [`${what} sums to ${summed} and says ${said}`]));
}

/** What was left out, and not asked for since, is in no later revision's price, not agreed to, and not charged. */
function refusedThatCame(job: JobAsItStands): string[] {
  const faults: string[] = [];
  const refused = new Map<string, number>();
  for (const { id, revision } of job.issues) {
    const { items } = job.inputOf(job.revision(id)!);
    for (const { id: item, certainty, count } of items) {
      const since = refused.get(item);
      if (since !== undefined && count > 0 && !(certainty.is === "optional" && !certainty.chosen))
        faults.push(`${item}, left out in revision ${since}, is ${certainty.is} in revision ${revision}`);
    }
    const answer = job.answerTo(id);
    if (!answer || answer.answer === "declined") continue;
    const chosen = new Set(answer.chosen);
    for (const { id: item, certainty } of items)
      if (certainty.is === "optional" && chosen.has(certainty.group ?? item)) refused.delete(item);
    for (const item of answer.struck) refused.set(item, revision);
  }
  const agreed = job.agreed();
  for (const { id, count, certainty } of agreed?.input.items ?? []) {
    const since = refused.get(id);
    if (since !== undefined && count > 0 && !(certainty.is === "optional" && !certainty.chosen))
      faults.push(`${id}, left out in revision ${since}, is agreed to in revision ${agreed!.agreement.revision}`);
  }
  for (const line of job.closeOut?.result.account.lines ?? [])
    if (line.amount > 0 && line.from.length > 0 && line.from.every((from) => from.is === "item" && refused.has(from.id)))
      faults.push(`${line.id} is charged for work that was left out`);
  return faults;
}

/** Charged at most what was promised: of what is agreed, of what may be found, of declining. */
function chargedBeyond(job: JobAsItStands): string[] {
  const { closeOut } = job;
  if (!closeOut) return [];
  const { account } = closeOut.result;
  const { total } = account.totals;
  if (account.above) return [];
  const { agreedThen } = closeOut.basis.terms;
  if (account.basis === "declined" || account.basis === "taken back") {
    const declined = job.answers.findLast(({ answer }) => answer === "declined");
    const looking = declined && job.revision(declined.estimateId)?.sheet?.ifDeclined.amount;
    const promise = looking !== undefined && agreedThen?.charged ? Math.max(looking, agreedThen.upTo) : looking;
    return promise !== undefined && total > promise ? [`declining was to cost at most ${promise}, and ${total} is charged`] : [];
  }
  const agreed = job.agreed()!;
  const { amount = 0, ceiling = 0 } = agreed.agreement;
  const found = new Set(closeOut.basis.found);
  const possible = agreed.sheet.ifFound.filter(({ id }) => found.has(id)).reduce((sum, { price }) => sum + Math.max(0, price), 0);
  const alone = account.basis === "fixed price" ? amount + possible : Math.max(amount, ceiling);
  const promise = agreedThen?.charged ? Math.max(alone, agreedThen.upTo) : alone;
  return total > promise ? [`${promise} was promised, and ${total} is charged (${account.basis})`] : [];
}

/** All of it, read once. */
export async function holds(db: Database, told: JobTold, seen = (job: JobAsItStands) => job) {
  const stands = await jobAsItStands(db, told.id);
  if (!stands) return { faults: ["the job is gone"] };
  const job = seen(stands);
  const faults = told.erased ? [] : keptAsTold(job, told);
  const [credits, { paid, total, due }] = [paidOn(told), owed(job)];
  if (paid !== credits) faults.push(`${credits} was paid, and the account says ${paid}`);
  if (total !== undefined && due !== total - credits) faults.push(`${total} less ${credits} is said to be ${due}`);
  const sheet = job.latest?.sheet;
  if (sheet) faults.push(...sumsWrong(sheet).map((wrong) => `revision ${job.latest!.revision}: ${wrong}`));
  const agreed = job.agreed();
  if (agreed) {
    faults.push(...sumsWrong(agreed.sheet).map((wrong) => `what is agreed: ${wrong}`));
    if (agreed.agreement.amount !== agreed.sheet.totals.total)
      faults.push(`${agreed.agreement.amount} was agreed to, and its sheet comes to ${agreed.sheet.totals.total}`);
  }
  if (job.closeOut) faults.push(...sumsWrong(job.closeOut.result.account).map((wrong) => `account: ${wrong}`));
  return { job, faults: [...faults, ...refusedThatCame(job), ...chargedBeyond(job)] };
}

/** Each figure of a revision or an account stands on its paper, which is the very one on record. */
export async function paperFaults(db: Database, job: JobAsItStands, look: Look): Promise<string[]> {
  const faults: string[] = [];
  const { current, closeOut } = job;
  if (closeOut) {
    const { bytes } = await look(`/api/jobs/${job.id}/final-account.pdf`);
    if ((await sha256(bytes)) !== closeOut.pdfHash) faults.push("the account's paper is another than the one on record");
    if ((await closeOuts.pdf(db, closeOut.id))?.length !== bytes.length) faults.push("the account's paper is not the one kept");
    faults.push(...accountUnprinted(closeOut.result.account, paperText(bytes), cashOf(job)));
  } else if (current) {
    const estimate = job.revision(current.id)!;
    const { bytes } = await look(`/api/estimates/${current.id}/estimate.pdf`);
    if ((await sha256(bytes)) !== current.pdfHash) faults.push("the revision's paper is another than the one on record");
    if ((await issues.pdf(db, current.id))?.length !== bytes.length) faults.push("the revision's paper is not the one kept");
    const { totals, ceiling, deposit, options, ifFound, lines } = estimate.sheet!;
    const every = job.inputOf(estimate).paperwork?.detail === "every line";
    const figures = [
      ...[totals.total, ceiling.amount, deposit.amount].filter((amount) => amount > 0),
      ...[...options, ...ifFound].map(({ price }) => price).filter((price) => price > 0),
      ...(every ? lines.map(({ amount }) => amount).filter((amount) => amount > 0) : []),
    ];
    faults.push(...unprinted(figures, paperText(bytes), cashOf(job)).map((it) => `revision ${current.revision}: ${it}`));
  }
  return faults;
}

/** As the paper has it: of the revision it rests on, whatever is drafted since. */
const cashOf = (job: JobAsItStands) => {
  const { steps = [], current } = job.closeOut?.basis ?? {};
  const paper = job.revision(steps.at(-1)?.estimateId ?? job.current?.id ?? "")?.input.paperwork ?? current?.input.paperwork;
  const figures = { locale: paper?.locale ?? job.settings.locale, currency: job.tongue.currency };
  return (amount: number): string => money(amount, figures);
};

const onPage =
  ({ tongue }: JobAsItStands) =>
  (amount: number): string =>
    money(amount, tongue);

export const unprinted = (amounts: readonly number[], text: string, cash: (amount: number) => string): string[] =>
  amounts.flatMap((amount) => (amount === 0 || text.includes(bare(cash(amount))) ? [] : [`${cash(amount)} is not printed`]));

const accountUnprinted = ({ totals, lines, payments }: FinalAccount, text: string, cash: (amount: number) => string): string[] =>
  unprinted(
    [
      totals.total,
      Math.abs(totals.due),
      ...lines.map(({ amount }) => amount).filter((amount) => amount > 0),
      ...payments.map(({ amount }) => Math.abs(amount)),
    ],
    text,
    cash,
  ).map((it) => `account: ${it}`);

/** What a page of the job or the API says of it; another one each time. */
export async function pageFaults(job: JobAsItStands, look: Look, turn: number): Promise<string[]> {
  const page = PAGES[turn % PAGES.length]!;
  const { status, text } = await look(page.path(job));
  const none = !job.latest || (page.path(job).endsWith("close-out") && !job.closeOut);
  if (status !== 200) return none && status < 500 ? [] : [`${page.path(job)} answers ${status}`];
  const read = page.path(job).startsWith("/api") ? text : bare(words(text));
  return page.says(job, text).flatMap((said) => (read.includes(bare(said)) ? [] : [`${page.path(job)} does not say '${said}'`]));
}

const PAGES: readonly {
  readonly path: (job: JobAsItStands) => string;
  readonly says: (job: JobAsItStands, text: string) => readonly string[];
}[] = [
  { path: ({ id }) => `/jobs/${id}`, says: (job) => (job.latest ? [owedText(owedShown(job), job.tongue)] : []) },
  { path: ({ id }) => `/jobs/${id}/answers`, says: ({ answers }) => answers.map(({ wording }) => wording) },
  {
    path: ({ id }) => `/jobs/${id}/payments`,
    says: (job) => [
      ...(job.latest ? [owedText(owedShown(job), job.tongue)] : []),
      ...job.payments.map(({ amount }) => onPage(job)(amount)),
    ],
  },
  {
    path: ({ id }) => `/api/jobs/${id}/standing`,
    says: (job, text) => {
      const said = (JSON.parse(text) as { owed: unknown }).owed;
      return canonical(said) === canonical(plain(owed(job))) ? [] : [`owed ${canonical(owed(job))}`];
    },
  },
  {
    path: ({ id }) => `/jobs/${id}/close-out`,
    says: (job) => {
      const totals = job.closeOut?.result.account.totals;
      return totals ? [totals.total, Math.abs(owed(job).due!)].map(onPage(job)) : [];
    },
  },
  { path: ({ id }) => `/jobs/${id}/bench`, says: () => [] },
  {
    path: ({ id }) => `/api/jobs/${id}/work-log`,
    says: ({ everyEntry }, text) => {
      const { items } = JSON.parse(text) as { items: { id: string }[] };
      return canonical(items.map(({ id }) => id)) === canonical(everyEntry.map(({ id }) => id)) ? [] : ["every entry once"];
    },
  },
];
