/** One test at a time, run as the source stands and then with each mutant it reaches; nothing is loaded anew between. */

/** Which mutant holds, which were reached, and how often loops turned: what a source text made by `switched` asks. */
export class Switch {
  at = 0;
  turns = 0;
  most = Number.POSITIVE_INFINITY;
  reached = new Set<number>();
  #forgotten = 0;

  holds(id: number): boolean {
    if (this.at === 0) this.reached.add(id);
    else this.turn();
    return this.at === id;
  }

  /** An endless loop ends here. */
  turn(): void {
    this.turns += 1;
    if (this.turns > this.most) throw new Error("goes on without end");
  }

  set(at: number, most = Number.POSITIVE_INFINITY): void {
    this.at = at;
    this.most = most;
    this.turns = 0;
    this.#forgotten += 1;
    if (at === 0) this.reached = new Set();
  }

  /** A WeakMap that knows nothing of what was kept under another mutant. */
  get Forgetful() {
    const now = () => this.#forgotten;
    return class<K extends WeakKey, V> {
      #kept = new WeakMap<K, V>();
      #of = now();
      #map(): WeakMap<K, V> {
        if (this.#of !== now()) this.#kept = new WeakMap();
        this.#of = now();
        return this.#kept;
      }
      get(key: K): V | undefined {
        return this.#map().get(key);
      }
      has(key: K): boolean {
        return this.#map().has(key);
      }
      set(key: K, value: V): void {
        this.#map().set(key, value);
      }
    };
  }
}

export type Verdict = "killed" | "endless" | "survived";
interface Came {
  readonly id: number;
  readonly came: Verdict;
  readonly took: number;
  readonly by: string;
}
/** What is told while it goes on, so that a run that dies is taken up again. */
export type Told =
  | { readonly loaded: readonly number[] }
  | { readonly trying: number }
  | Came
  | { readonly done: string; readonly as: "tried" | "reached nothing" | "slow" | "not repeatable" | "shaken" };

export interface Bounds {
  /** Milliseconds: of a test as it stands, and of all trials of one mutant. */
  readonly test: number;
  readonly mutant: number;
}

/** `settled`: what needs no more trials; `spent`: milliseconds so far. Throws what the test throws as the source stands. */
export async function tryAll(
  name: string,
  run: () => Promise<void>,
  { on, settled, spent }: { readonly on: Switch; readonly settled: Set<number>; readonly spent: Map<number, number> },
  bounds: Bounds,
  tell: (told: Told) => void,
): Promise<void> {
  const timed = async () => {
    const from = performance.now();
    await run();
    return performance.now() - from;
  };
  on.set(0);
  const first = await timed();
  const open = [...on.reached].filter((id) => !settled.has(id) && (spent.get(id) ?? 0) < bounds.mutant);
  if (open.length === 0) return tell({ done: name, as: "reached nothing" });
  if (first > bounds.test) return tell({ done: name, as: "slow" });
  on.set(0);
  const usual = await timed().catch(() => undefined);
  if (usual === undefined) return tell({ done: name, as: "not repeatable" });
  const most = on.turns * 20 + 200_000;
  const found: Came[] = [];
  for (const id of open) {
    tell({ trying: id });
    on.set(id, most);
    const from = performance.now();
    const came = await within(run, usual * 20 + 10_000).then(
      (ended): Verdict => (ended ? "survived" : "endless"),
      (): Verdict => (on.turns > on.most ? "endless" : "killed"),
    );
    found.push({ id, came, took: Math.round(performance.now() - from), by: name });
  }
  on.set(0);
  // A mutant may leave behind what makes the next run fail; then none of these verdicts is worth anything.
  if ((await timed().catch(() => undefined)) === undefined) return tell({ done: name, as: "shaken" });
  for (const each of found) {
    if (each.came === "survived") spent.set(each.id, (spent.get(each.id) ?? 0) + each.took);
    else settled.add(each.id);
    tell(each);
  }
  tell({ done: name, as: "tried" });
}

function within(run: () => Promise<void>, time: number): Promise<boolean> {
  let clock: NodeJS.Timeout;
  const late = new Promise<boolean>((say) => {
    clock = setTimeout(() => say(false), time);
  });
  return Promise.race([run().then(() => true), late]).finally(() => clearTimeout(clock));
}
