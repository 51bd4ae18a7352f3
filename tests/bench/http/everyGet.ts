/** An address of the lived-in shop for each GET route that has something to show: the largest of some that its pages link to, or that the API's ids make. */
import { WHO } from "../../../src/http/who.js";

const GETS = Object.entries(WHO).flatMap(([path, ways]) => ("GET" in ways ? [path] : []));
const PARAMETER = /:\w+(?:\{([^}]+)\})?/g;
const pattern = (route: string): RegExp =>
  new RegExp(`^${route.replaceAll(PARAMETER, (_, own?: string) => `(${own ?? "[^/]+"})`)}$`);
/** What says how its parameter looks is asked before one that takes anything. */
const MATCHES = GETS.toSorted((a, b) => Number(b.includes("{")) - Number(a.includes("{"))).map(
  (route) => [route, pattern(route)] as const,
);
/** Of addresses of one route, how many are looked at. */
const MOST = 25;

export const routeAt = (path: string): string | undefined =>
  GETS.includes(path) ? path : MATCHES.find(([, match]) => match.test(path))?.[0];

export interface Looked {
  readonly status: number;
  readonly text: string;
}

/** `none`: routes at which nothing answered 200, such as what nobody who is signed in sees. */
export async function everyGet(
  look: (path: string) => Promise<Looked>,
): Promise<{ readonly at: ReadonlyMap<string, string>; readonly none: readonly string[] }> {
  // Done jobs are beside the list, and what is looked for is asked for.
  const queue = ["/?state=closed", "/api/search?q=tape", ...GETS.filter((route) => !route.includes(":"))];
  const seen = new Set(queue);
  const looked = new Map<string, number>();
  const best = new Map<string, { readonly path: string; readonly bytes: number }>();
  const wanted = (path: string) => {
    const route = routeAt(path);
    if (route === undefined || seen.has(path) || (looked.get(route) ?? 0) >= MOST) return;
    looked.set(route, (looked.get(route) ?? 0) + 1);
    seen.add(path);
    queue.push(path);
  };
  for (let path = queue.shift(); path !== undefined; path = queue.shift()) {
    const { status, text } = await look(path);
    if (status !== 200) continue;
    const route = routeAt(path.split("?")[0]!)!;
    if (text.length > (best.get(route)?.bytes ?? -1)) best.set(route, { path, bytes: text.length });
    for (const [, link] of text.matchAll(/(?:href|src)="(\/[^"?#]*)/g)) wanted(link!);
    for (const [, id] of path.startsWith("/api/") ? text.matchAll(/"(?:id|kind)":\s*"([^"]+)"/g) : []) wanted(`${path}/${id}`);
    const [, of, id] = /^(?:\/api)?(\/(?:jobs|estimates|parts\/kinds|photos|models)|\/[a-z-]+)\/([^/.]+)/.exec(path) ?? [];
    for (const other of of === undefined ? [] : GETS)
      for (const home of [of, `/api${of}`])
        if (other.startsWith(`${home}/:`))
          wanted(other.replace(/:\w+\{[^}]*\\\\?\.(\w+)\}/, `${id}.$1`).replace(/:\w+(\{[^}]+\})?/, id!));
  }
  return {
    at: new Map([...best].map(([route, { path }]) => [route, path])),
    none: GETS.filter((route) => !best.has(route)),
  };
}
