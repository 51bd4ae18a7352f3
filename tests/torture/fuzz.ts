/** What every sort of fuzzing stands on: seeded chance, values that mean harm, and what is a fault of an answer. */
import { performance } from "node:perf_hooks";

export interface Answering {
  readonly request: (address: string, init?: RequestInit) => Response | Promise<Response>;
}

/** The same, asked by someone. */
export const askedBy = (app: Answering, who: Readonly<Record<string, string>>): Answering => ({
  request: (address, init = {}) => app.request(address, { ...init, headers: { ...(init.headers as object), ...who } }),
});

export interface Fuzzed {
  requests: number;
  /** Route -> how often, how often refused, worst milliseconds. */
  readonly routes: Map<string, { times: number; refused: number; worst: number }>;
  readonly faults: string[];
  readonly slowest: number;
}

/** `slowest`: milliseconds beyond which an answer is a fault; a test that shares its machine has none. */
export const counting = (slowest = Number.POSITIVE_INFINITY): Fuzzed => ({ requests: 0, routes: new Map(), faults: [], slowest });

export const BASE = "http://localhost:4700";
export const UNKNOWN = "noSuchField";

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const deep = (levels: number): Json => {
  let value: Json = 0;
  for (let level = 0; level < levels; level += 1) value = [value];
  return value;
};

/** Figures as no value of this language would be written: put into the text as they stand. */
const RAW = ["1e400", "-1e400", "-0", "1e-7", "1E5", "0.1e1", "123456789012345678901234567890", "1e-400"];
const rawly = (figure: string) => `raw:${figure}`;
export const written = (value: Json): string => JSON.stringify(value).replaceAll(/"raw:([^"]*)"/g, "$1");

/** Of a program that means harm, or has a fault. */
export const HOSTILE: readonly Json[] = [
  ...[null, true, -0, -1, 0.1, 1e308, -1e308, 2 ** 53, -(2 ** 53), 1e-9, "", " ", "\0", "a\0b", "\ud800", "\udfff\ud800"],
  ...["x".repeat(70_000), "=1+1", "<img src=x onerror=alert(1)>", "'; DROP TABLE owners; --", "../../etc/passwd", "%00", "NaN"],
  ...[
    "2026-02-30",
    "9999-12-31",
    "-000001-01-01",
    "0x10",
    "١٢",
    "1e9",
    "\u202eabc",
    "😀".repeat(300),
    "constructor",
    "__proto__",
  ],
  ...RAW.map(rawly),
  ...[[], [[]], {}, { __proto__: null, a: 1 } as Json, deep(500), Array(3000).fill("a") as Json, Array(50).fill({}) as Json],
];

/** mulberry32: the same numbers from the same seed everywhere. */
export function dice(seed: number) {
  let state = seed;
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const below = (most: number) => Math.floor(next() * most);
  return { next, below, one: <T>(of: readonly T[]): T => of[below(of.length)]! };
}
export type Dice = ReturnType<typeof dice>;

export const TEXTS = HOSTILE.map((each) => (typeof each === "string" ? each.replace(/^raw:/, "") : written(each).slice(0, 2000)));

/** Sends it, and notes what is wrong with the answer. */
export async function asked(
  app: Answering,
  route: string,
  path: string,
  init: RequestInit,
  into: Fuzzed,
): Promise<Response | undefined> {
  into.requests += 1;
  const [began, spent] = [performance.now(), process.cpuUsage()];
  let answer: Response;
  try {
    answer = await app.request(BASE + path, { redirect: "manual", ...init });
  } catch (error) {
    into.faults.push(`${route}: thrown ${(error as Error).message} at ${path.slice(0, 200)}`);
    return undefined;
  }
  const text = await answer.clone().text();
  const took = performance.now() - began;
  const { user, system } = process.cpuUsage(spent);
  const told = into.routes.get(route) ?? { times: 0, refused: 0, worst: 0 };
  into.routes.set(route, {
    times: told.times + 1,
    refused: told.refused + (answer.status >= 400 ? 1 : 0),
    worst: Math.max(told.worst, took),
  });
  const sent = `${path.slice(0, 120)} ${String(init.body ?? "").slice(0, 400)}`;
  if (answer.status >= 500 && answer.status !== 503) into.faults.push(`${route}: ${answer.status} for ${sent}`);
  // Other work on the machine makes an answer late, and takes none of this process's time.
  if (took > into.slowest && (user + system) / 1000 > into.slowest / 2)
    into.faults.push(`${route}: ${Math.round(took)} ms for ${sent}`);
  const type = answer.headers.get("content-type") ?? "";
  if (answer.status >= 400 && text !== "" && !/^(application\/problem\+json|text\/html)/.test(type))
    into.faults.push(`${route}: ${answer.status} as '${type}' for ${sent}`);
  return answer;
}
