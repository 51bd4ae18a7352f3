/** One seeded life of a shop, held to what must hold after each act. The same seed lives the same life, but for ids. */

import Papa from "papaparse";
import { mismatchText } from "../../../src/acts/checked/mismatch.js";
import { type JobAsItStands, jobAsItStands } from "../../../src/acts/job.js";
import { decimalsOf } from "../../../src/estimating/money/currency.js";
import type { Agreement } from "../../../src/records/agreements.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { money } from "../../../src/wording/figures.js";
import { type Seen, visitor, words } from "../../http/support/noScript.js";
import { dice } from "../fuzz.js";
import { type Drawn, intake, nextAct, setOf } from "./acts.js";
import { canonical, holds, pageFaults, paperFaults, plain } from "./holds.js";
import { bare } from "./paperText.js";
import { type LivedIn, openedShop, type Sending, type Spoiled, sent } from "./shop.js";
import { KINDS, SHOPS, type ShopKind } from "./shops.js";
import { type JobTold, paidOn } from "./told.js";

export interface Lived {
  seeds: number;
  acts: number;
  /** Name of an act -> how often done, and how often refused. */
  readonly each: Map<string, { done: number; refused: number }>;
  readonly sendings: Map<string, number>;
  readonly checks: { papers: number; pages: number; records: number };
  /** Processor time, ms. */
  cpu: number;
  readonly faults: { readonly seed: number; readonly act: number; readonly what: string }[];
}

export const counting = (): Lived => ({
  ...{ seeds: 0, acts: 0, cpu: 0, each: new Map(), sendings: new Map(), checks: { papers: 0, pages: 0, records: 0 }, faults: [] },
});

/** What a control spoils: on the way, or in what is read of the records. */
export interface Planted extends Spoiled {
  readonly job?: (job: JobAsItStands) => JobAsItStands;
  /** Told of each act, to follow one seed. */
  readonly follow?: (line: string) => void;
}

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
/** Nights on which clocks move, a leap day, the turn of a year. */
const STARTS = [
  "2026-03-28T21:30:00Z",
  "2026-10-24T22:40:00Z",
  "2028-02-28T20:15:00Z",
  "2026-12-31T22:50:00Z",
  "2026-11-25T09:00:00Z",
];
const JOBS = 3;

export async function lived(seed: number, into: Lived, acts = 25, planted: Planted = {}): Promise<void> {
  const before = process.cpuUsage();
  const of = dice(seed * 7919 + 17);
  const kind = SHOPS[seed % SHOPS.length]!;
  const shop = await openedShop(kind, planted);
  // What the app says of faults that are wanted here.
  const { error } = console;
  console.error = () => undefined;
  const life = new Life(seed, of, kind, shop, into, planted);
  try {
    await life.live(acts);
  } catch (thrown) {
    life.fault(`thrown: ${(thrown as Error).stack?.split("\n").slice(0, 4).join(" | ")}`);
  } finally {
    console.error = error;
    into.seeds += 1;
    const { user, system } = process.cpuUsage(before);
    into.cpu += (user + system) / 1000;
    await shop.close();
  }
}

class Life {
  readonly #jobs: JobTold[] = [];
  /** As last read after an act on it. */
  readonly #standing = new Map<string, JobAsItStands>();
  readonly #papers = new Map<string, string>();
  readonly #shelf = new Map<string, number>();
  #act = 0;
  #turn: number;

  constructor(
    readonly seed: number,
    readonly of: ReturnType<typeof dice>,
    readonly kind: ShopKind,
    readonly shop: LivedIn,
    readonly into: Lived,
    readonly planted: Planted,
  ) {
    this.#turn = seed;
    shop.set(new Date(of.one(STARTS)));
  }

  fault(what: string): void {
    this.into.faults.push({ seed: this.seed, act: this.#act, what });
  }

  async live(acts: number): Promise<void> {
    const { of, kind, shop } = this;
    const { rows } = await shop.db.run("SELECT id, stock FROM part_kinds");
    for (const { id, stock } of rows) this.#shelf.set(String(id), Number(stock ?? 0));
    while (this.#act < acts && this.into.faults.every(({ seed }) => seed !== this.seed)) {
      this.#pass();
      if (this.#jobs.length === 0 || (this.#jobs.length < JOBS && of.next() < 0.05)) {
        this.#jobs.push(await intake({ shop, kind, of }, (act) => this.#sent(act)));
        continue;
      }
      const told = of.one(this.#jobs);
      // Nobody works on what was forgotten.
      if (told.erased) {
        this.#act += 1;
        continue;
      }
      const job = this.#standing.get(told.id) ?? (await jobAsItStands(shop.db, told.id))!;
      const comes = job.current && !job.answerTo(job.current.id) ? 0.5 : 0.1;
      if (told.fragment && job.current && of.next() < comes) await this.#owner(told, job);
      else {
        const act = await nextAct({ shop, kind, of, told, job, shelf: this.#shelf });
        if (!act) continue;
        await this.#sent(act);
        if (!act.to.includes(told.id) && /goods-in|stock|rate-books/.test(act.to)) continue;
      }
      await this.#hold(told);
    }
    await this.#end();
  }

  /** Minutes to days; now and then an hour back, or a day at once. */
  #pass(): void {
    const drawn = this.of.next();
    const by =
      drawn < 0.05 ? -60 * MINUTE : drawn < 0.15 ? DAY : drawn < 0.2 ? 20 * DAY : Math.round(this.of.next() * 180) * MINUTE;
    this.shop.set(new Date(this.shop.now().getTime() + by));
  }

  #how(): Sending {
    const drawn = this.of.next();
    return drawn < 0.66 ? "once" : drawn < 0.78 ? "again" : drawn < 0.86 ? "at once" : drawn < 0.92 ? "crash" : "statement";
  }

  async #sent(act: Drawn): Promise<Record<string, unknown> | undefined> {
    const { shop } = this;
    const how = this.#how();
    this.#act += 1;
    this.into.acts += 1;
    this.into.sendings.set(how, (this.into.sendings.get(how) ?? 0) + 1);
    const key = `${String.fromCharCode(97 + this.of.below(20))}-${this.seed}-${this.#act}`;
    const { answer, faults } = await sent(shop, how, key, act.method ?? "POST", act.to, act.body, act.headers);
    for (const what of faults) this.fault(`${act.name}, ${how}: ${what}`);
    const isDone = answer.status < 300;
    this.planted.follow?.(
      `${this.#act} ${shop.now().toISOString()} ${act.name} ${how} ${answer.status} ${JSON.stringify(act.body)}`,
    );
    const counted = this.into.each.get(act.name) ?? { done: 0, refused: 0 };
    counted[isDone ? "done" : "refused"] += 1;
    this.into.each.set(act.name, counted);
    if (act.must && (act.must === "be done") !== isDone)
      this.fault(
        `${act.name} must ${act.must}: ${answer.status} ${answer.text.slice(0, 400)} for ${JSON.stringify(act.body).slice(0, 400)}`,
      );
    if (!isDone) return undefined;
    const body = JSON.parse(answer.text) as Record<string, unknown>;
    await act.told?.(body);
    return body;
  }

  /** The owner's own page: looks, asks, answers; what is shown before it is sent is what is kept. */
  async #owner(told: JobTold, job: JobAsItStands): Promise<void> {
    const { of, shop, kind } = this;
    this.#act += 1;
    this.into.acts += 1;
    this.planted.follow?.(`${this.#act} ${shop.now().toISOString()} by the owner's page`);
    const count = (name: string, done: boolean) => {
      const counted = this.into.each.get(name) ?? { done: 0, refused: 0 };
      counted[done ? "done" : "refused"] += 1;
      this.into.each.set(name, counted);
    };
    const owner = visitor(shop);
    const seen = await owner.send("/o/entry", [["link", told.fragment!]]);
    if (seen.status === 410) return count("link ended", false);
    if (seen.status !== 200) return this.fault(`the owner's page answers ${seen.status}`);
    if (of.next() < 0.3) {
      const ask = /formaction="\/o\/question"/.test(seen.html);
      if (!ask) return count("question", false);
      const asked = await owner.press(seen, /^(Send the question|Frage abschicken)/, { text: `Is it dangerous? ${this.#act}` });
      count("question", asked.status === 200);
      for (const { id } of (await jobAsItStands(shop.db, told.id))!.questions)
        if (!told.questions.has(id)) told.questions.set(id, 0);
      return;
    }
    const declines = of.next() < 0.2;
    if (!seen.html.includes(`name="answer" value="${declines ? "declined" : "agreed"}"`)) return count("answer by page", false);
    const { chosen, struck } = setOf(job, job.current!, of);
    const left = new Set(struck);
    const offered = [...seen.html.matchAll(/name="work" value="([^"]+)"/g)].map(([, id]) => id!);
    const button = declines ? /^(Decline|Ablehnen|Fassung \d+ ablehnen)/ : /^(Agree to|Diesen Arbeiten|Einem Teil)/;
    const options = /name="chosen"/.test(seen.html) ? { chosen } : {};
    const work = offered.length > 0 ? { work: offered.filter((id) => !left.has(id)) } : {};
    const check = await owner.press(seen, button, { ...options, ...work, name: "Orla Thistlewick" });
    if (check.status !== 200) return count("answer by page", false);
    const shown = quoted(check);
    const done = await owner.press(check, button);
    const twice = of.next() < 0.3 ? await owner.press(check, button) : undefined;
    const after = (await jobAsItStands(shop.db, told.id))!;
    const record = after.answers.at(-1);
    const isNew = record !== undefined && !told.answers.some((each) => (JSON.parse(each) as Agreement).id === record.id);
    count(declines ? "declined by page" : "answer by page", isNew);
    if (!isNew) return done.status === 200 ? this.fault("an answer by page is said to be taken, and none is kept") : undefined;
    told.answers.push(canonical(plain(record)));
    const kept = this.planted.job?.(after).answers.at(-1) ?? record;
    if (canonical(shown) !== canonical([kept.wording]))
      this.fault(`words shown '${shown.join(" / ")}', words kept '${kept.wording}'`);
    if (record.amount !== undefined) {
      const { locale = kind.locale } = job.inputOf(job.revision(record.estimateId)!).paperwork ?? {};
      const cash = money(record.amount, { locale, currency: kind.currency });
      if (!bare(words(check.html)).includes(bare(cash))) this.fault(`${cash} is agreed to, and was not shown before`);
    }
    if (twice && after.answers.length !== (await jobAsItStands(shop.db, told.id))!.answers.length)
      this.fault("pressed twice, answered twice");
  }

  async #hold(told: JobTold): Promise<void> {
    const { shop, into } = this;
    this.#turn += 1;
    const { job, faults } = await holds(shop.db, told, this.planted.job);
    into.checks.records += 1;
    for (const what of faults) this.fault(what);
    if (!job) return;
    this.#standing.set(told.id, job);
    if (told.erased) return;
    if (this.#turn % 3 === 0) {
      into.checks.pages += 1;
      for (const what of await pageFaults(job, shop.look, this.#turn / 3)) this.fault(what);
    }
    const paper = job.closeOut?.pdfHash ?? job.current?.pdfHash;
    if (paper !== undefined && paper !== this.#papers.get(told.id)) {
      this.#papers.set(told.id, paper);
      into.checks.papers += 1;
      for (const what of await paperFaults(shop.db, job, shop.look)) this.fault(what);
    }
  }

  /** The shelf, the board, what all jobs tell, and verify. */
  async #end(): Promise<void> {
    const { shop } = this;
    const { rows } = await shop.db.run(
      "SELECT id, stock, (SELECT sum(change) FROM stock_movements WHERE kind = part_kinds.id) AS moved FROM part_kinds",
    );
    for (const { id, stock, moved } of rows) {
      const said = this.#shelf.get(String(id)) ?? 0;
      if (KINDS.includes(id as (typeof KINDS)[number]) && Number(stock ?? 0) !== said)
        this.fault(`${id}: ${said} pieces on the shelf, and the catalogue says ${stock}`);
      if (moved !== null && Number(moved) !== Number(stock))
        this.fault(`${id}: movements sum to ${moved}, and it stands at ${stock}`);
    }
    const board = await shop.look("/");
    if (board.status !== 200) this.fault(`the board answers ${board.status}`);
    const csv = await shop.look("/api/csv/payments");
    const minor = 10 ** decimalsOf(this.kind.currency)!;
    const { data } = Papa.parse<Record<string, string>>(csv.text, { header: true, skipEmptyLines: true });
    const taken = data
      .filter(({ withdrawnAt }) => !withdrawnAt)
      .reduce((sum, { amount }) => sum + Math.round(Number(amount) * minor), 0);
    const told = this.#jobs.reduce((sum, job) => sum + paidOn(job), 0);
    if (taken !== told) this.fault(`payments as CSV sum to ${taken}, and ${told} was taken`);
    const { mismatch } = await verifyShop(shop.db);
    if (mismatch) this.fault(`verify: ${mismatchText(mismatch.what)}`);
  }
}

const text = (html: string) => html.replaceAll("&quot;", '"').replaceAll("&#39;", "'").replaceAll("&amp;", "&");
const quoted = ({ html }: Seen) => [...html.matchAll(/<blockquote[^>]*>(.*?)<\/blockquote>/gs)].map(([, said]) => text(said!));
