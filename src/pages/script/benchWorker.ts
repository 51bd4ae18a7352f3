/**
 * Keeps the last bench page of each job, with its style and script, to be read when there is no network. The shop's own answer always
 * comes first; nothing else is kept, and a page that the shop refuses is forgotten.
 */
export {};

interface Event {
  readonly waitUntil: (work: Promise<unknown>) => void;
}
interface FetchEvent extends Event {
  readonly request: Request;
  readonly respondWith: (answer: Promise<Response>) => void;
}
interface MessageEvent extends Event {
  readonly data: unknown;
}
const worker = self as unknown as {
  addEventListener(name: "install" | "activate", hear: (event: Event) => void): void;
  addEventListener(name: "fetch", hear: (event: FetchEvent) => void): void;
  addEventListener(name: "message", hear: (event: MessageEvent) => void): void;
  readonly skipWaiting: () => Promise<void>;
  readonly clients: { readonly claim: () => Promise<void> };
  readonly location: Location;
};

const KEPT = "ohmwright bench";
const PAGE = /^\/jobs\/[^/]+\/bench$/;
const PAGES_AT_MOST = 20;
/** A network that takes longer than this to answer is as good as none, if the page is kept. */
const PATIENCE = 6_000;

worker.addEventListener("install", (event) => event.waitUntil(worker.skipWaiting()));
worker.addEventListener("activate", (event) => event.waitUntil(worker.clients.claim()));

worker.addEventListener("message", (event) => {
  const { keep } = event.data as { readonly keep?: readonly string[] };
  if (Array.isArray(keep)) event.waitUntil(keepAll(keep));
});

async function keepAll(paths: readonly string[]): Promise<void> {
  const cache = await caches.open(KEPT);
  for (const { url } of await cache.keys()) {
    const { pathname } = new URL(url);
    if (pathname.startsWith("/assets/") && !paths.includes(pathname)) await cache.delete(url);
  }
  for (const path of paths) {
    if (path.startsWith("/assets/") && (await cache.match(path))) continue;
    await fetched(path, path).catch(() => {});
  }
}

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== worker.location.origin) return;
  if (PAGE.test(pathname)) event.respondWith(pageOf(request, pathname));
  else if (pathname.startsWith("/assets/")) event.respondWith(assetOf(request));
});

async function pageOf(request: Request, path: string): Promise<Response> {
  const kept = await (await caches.open(KEPT)).match(path);
  const answer = fetched(request, path);
  if (!kept || request.headers.get("cache-control") === "no-cache") return answer;
  const late = new Promise<Response>((resolve) => setTimeout(() => resolve(kept.clone()), PATIENCE));
  return Promise.race([answer.catch(() => kept.clone()), late]);
}

const assetOf = async (request: Request): Promise<Response> =>
  (await (await caches.open(KEPT)).match(new URL(request.url).pathname)) ?? fetch(request);

/** Whatever question stands after the path, it is the same page. */
async function fetched(request: Request | string, path: string): Promise<Response> {
  const answer = await fetch(request);
  const cache = await caches.open(KEPT);
  if (answer.ok && !answer.redirected) {
    await cache.put(path, answer.clone());
    await forgetOldest(cache);
  } else if (answer.status < 500) {
    await cache.delete(path);
  }
  return answer;
}

async function forgetOldest(cache: Cache): Promise<void> {
  const pages = (await cache.keys()).filter(({ url }) => PAGE.test(new URL(url).pathname));
  for (const page of pages.slice(0, Math.max(0, pages.length - PAGES_AT_MOST))) await cache.delete(page);
}
