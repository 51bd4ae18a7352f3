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
  readonly by: string;
}
/** As the source stands: milliseconds, and the mutants it came by. */
export interface Seen {
  readonly test: string;
  readonly took: number;
  readonly reached: readonly number[];
}
/** What is told while it goes on, so that a run that dies is taken up again. */
export type Told =
  | Seen
  | Came
  | { readonly loaded: readonly number[] }
  | { readonly trying: number }
  | { readonly done: string; readonly as: "tried" | "not repeatable" | "shaken" };
type Run = () => Promise<void>;

export async function seen(test: string, run: Run, on: Switch): Promise<Seen> {
  on.set(0);
  const from = performance.now();
  await run();
  return { test, took: Math.round(performance.now() - from), reached: [...on.reached] };
}

/** Which mutants each test is tried with: of the tests that reach one, first those that reach little else and are quick, until their time is up. */
export function trialsOf(
  all: readonly Seen[],
  most: { readonly test: number; readonly mutant: number },
): Record<string, number[]> {
  const spent = new Map<number, number>();
  const trials: Record<string, number[]> = {};
  const quick = all.filter(({ took }) => took <= most.test);
  const cost = ({ took, reached }: Seen): number => (took + 5) * reached.length;
  for (const { test, took, reached } of quick.sort((a, b) => cost(a) - cost(b))) {
    const open = reached.filter((id) => (spent.get(id) ?? 0) < most.mutant);
    for (const id of open) spent.set(id, (spent.get(id) ?? 0) + took + 1);
    if (open.length > 0) trials[test] = open;
  }
  return trials;
}

export async function tryAll(
  by: string,
  run: Run,
  on: Switch,
  open: readonly number[],
  tell: (told: Told) => void,
): Promise<void> {
  const passes = async (): Promise<number | undefined> => {
    on.set(0);
    const from = performance.now();
    return run().then(
      () => performance.now() - from,
      () => undefined,
    );
  };
  const [, usual] = [await passes(), await passes()];
  if (usual === undefined) return tell({ done: by, as: "not repeatable" });
  const most = on.turns * 20 + 200_000;
  const found: Came[] = [];
  for (const id of open) {
    tell({ trying: id });
    on.set(id, most);
    const came = await within(run, usual * 20 + 10_000).then(
      (ended): Verdict => (ended ? "survived" : "endless"),
      (): Verdict => (on.turns > on.most ? "endless" : "killed"),
    );
    found.push({ id, came, by });
  }
  // A mutant may leave behind what makes the next run fail; then none of these verdicts is worth anything.
  if ((await passes()) === undefined) return tell({ done: by, as: "shaken" });
  for (const each of found) tell(each);
  tell({ done: by, as: "tried" });
}

function within(run: Run, time: number): Promise<boolean> {
  let clock: NodeJS.Timeout;
  const late = new Promise<boolean>((say) => {
    clock = setTimeout(() => say(false), time);
  });
  return Promise.race([run().then(() => true), late]).finally(() => clearTimeout(clock));
}
