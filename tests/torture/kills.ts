/**
 * A server is killed while everyone writes, started again, asked again what it did not answer, and looked into; as often as wanted.
 * All on one file, until a fresh one is due.
 */
import { setTimeout as pause } from "node:timers/promises";
import { type Program, type Served, served } from "./server.js";
import { type FreshShop, freshShop } from "./shopFile.js";
import { faultsIn } from "./standing.js";
import { type Answered, isDone, SORTS, type Sort, type Write, write } from "./writes.js";

/** Two at each, but for the one draft that is saved again and again. */
const AT_WORK = [...SORTS, ...SORTS.filter((sort) => sort !== "draft saved")];

/** After so many kills a fresh shop: what stands is looked through each time. */
const KILLS_A_SHOP = 20;

export interface Counted {
  kills: number;
  /** Acknowledged, by sort. */
  readonly done: Record<Sort, number>;
  /** Cut off before they were answered. */
  cut: number;
  /** Of these, sent again under their key and told that they had been done. */
  hadBeenDone: number;
  readonly faults: string[];
}

export const counting = (): Counted => ({
  kills: 0,
  done: Object.fromEntries(SORTS.map((sort) => [sort, 0])) as Record<Sort, number>,
  cut: 0,
  hadBeenDone: 0,
  faults: [],
});

export interface Killing {
  readonly name: string;
  readonly kills: number;
  readonly program: Program;
  /** Writes that are answered before a kill: any number below this. */
  readonly answers?: number;
}

/** Milliseconds at most from the last of these to the kill. */
const MOMENT = 30;

export async function killed({ name, kills, program, answers = 30 }: Killing, counted: Counted): Promise<void> {
  for (let from = 0; from < kills; from += KILLS_A_SHOP) {
    const shop = await freshShop();
    try {
      await oneShop(shop, Math.min(KILLS_A_SHOP, kills - from), `${name}${from}`);
    } finally {
      await shop.gone();
    }
  }

  async function oneShop(fresh: FreshShop, times: number, series: string): Promise<void> {
    const told = { done: [] as Write[], open: [] as Write[] };
    const start = (): Promise<Served> => served(fresh.folder, program);
    const keep = (each: Write, answer: Answered) => {
      if (!isDone(answer))
        return void counted.faults.push(`${each.sort} ${each.mark}: ${answer.status} ${answer.text.slice(0, 300)}`);
      told.done.push(each);
      counted.done[each.sort] += 1;
    };

    let server = await start();
    for (let kill = 1; kill <= times; kill += 1) {
      const cut: Write[] = [];
      let over = false;
      const enough = new AbortController();
      let awaited = Math.floor(Math.random() * answers);
      const writing = AT_WORK.map(async (sort, hand) => {
        for (let n = 1; !over; n += 1) {
          const each = await write(sort, `${series}.${kill}.${hand}.${n}`, fresh.shop, server.url).catch(() => undefined);
          if (!each || over) return;
          const answer = await each.send(server.url).catch(() => undefined);
          if (answer) keep(each, answer);
          else cut.push(each);
          awaited -= 1;
          if (awaited <= 0) enough.abort();
        }
      });
      await Promise.race([new Promise((resolve) => enough.signal.addEventListener("abort", resolve)), Promise.all(writing)]);
      await pause(Math.random() * MOMENT);
      await server.kill();
      over = true;
      await Promise.all(writing);
      counted.kills += 1;

      server = await start();
      told.open.push(...cut);
      const found = await faultsIn(fresh.folder, fresh.shop, told, fresh.before);
      counted.faults.push(...found);
      if (found.length > 0) break;
      // A draft is drawn anew by the next save; the others are sent again as they were.
      const again = cut.filter(({ sort }) => sort !== "draft saved");
      for (const each of again) {
        const answer = await each.send(server.url);
        keep(each, answer);
        if (answer.replayed) counted.hadBeenDone += 1;
      }
      counted.cut += cut.length;
      told.open.splice(0, told.open.length, ...told.open.filter((each) => !again.includes(each)));
      if (kill === times) counted.faults.push(...(await faultsIn(fresh.folder, fresh.shop, told, fresh.before)));
    }
    await server.kill();
  }
}
