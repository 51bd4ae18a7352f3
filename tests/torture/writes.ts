/** What a shop writes at once, by its pages and its API. Each write carries a mark of its own, which stands in the record it makes. */
import { uuidv7 } from "uuidv7";
import { type Filled, filledIn, type Seen, visitor } from "../http/support/noScript.js";

/** Made at its first press, and then the same whenever it is sent again. */
export interface Write {
  readonly sort: Sort;
  readonly mark: string;
  readonly send: (url: string) => Promise<Answered>;
}

export interface Answered {
  readonly status: number;
  readonly text: string;
  readonly replayed: boolean;
  readonly location: string | undefined;
  readonly retryAfter: string | undefined;
}

/** `draft saved` overwrites; the others each add one. */
export const SORTS = [
  "new job",
  "draft saved",
  "entry by page",
  "entry by API",
  "goods by page",
  "goods by API",
  "extra fault",
] as const;
export type Sort = (typeof SORTS)[number];

export interface Shop {
  /** Agreed to: entries and extra faults go to it. */
  readonly agreed: string;
  /** Of another job; saved again and again. */
  readonly draft: string;
  readonly draftJob: string;
  /** Name of a part that comes in. */
  readonly part: string;
}

const HAND = "Tamsin Oakhollow";

/** The pages that are filled in, as they stand when the server has started. */
const pageOf = async (url: string, path: string): Promise<Seen> =>
  visitor({ app: { request: (address, init) => fetch(there(url, address), { ...init, redirect: "manual" }) } }).get(path);

const there = (url: string, address: string): string => url + address.slice(address.indexOf("/", 8));

const form = (url: string, path: string, pairs: readonly (readonly [string, string])[]): Promise<Answered> =>
  sent(`${url}${path}`, new URLSearchParams(pairs.map(([name, value]) => [name, value])).toString(), {
    "content-type": "application/x-www-form-urlencoded",
    origin: url,
    accept: "text/html",
  });

const json = (url: string, path: string, key: string, body: object): Promise<Answered> =>
  sent(`${url}/api/${path}`, JSON.stringify(body), { "content-type": "application/json", "idempotency-key": key });

/** Acknowledged with the head of the answer; its text may be cut off. */
export async function sent(address: string, body: string, headers: Record<string, string>, method = "POST"): Promise<Answered> {
  const answer = await fetch(address, { method, body, headers, redirect: "manual" });
  const replayed = answer.headers.get("idempotency-replayed") === "true";
  const location = answer.headers.get("location") ?? undefined;
  const retryAfter = answer.headers.get("retry-after") ?? undefined;
  return { status: answer.status, replayed, location, retryAfter, text: await answer.text().catch(() => "") };
}

export type Making = (mark: string, shop: Shop, url: string) => Promise<Write["send"]>;

/** A form of the page, each time under a fresh token. */
export const pressing =
  (path: (shop: Shop) => string, button: string, filled: (mark: string, shop: Shop) => Filled, token = "token"): Making =>
  async (mark, shop, url) => {
    const { path: to, pairs } = filledIn(await pageOf(url, path(shop)), button, filled(mark, shop));
    const [own] = [uuidv7()];
    return (again) =>
      form(
        again,
        to,
        pairs.map(([name, value]) => [name, name === token ? own : value] as const),
      );
  };

const posting =
  (path: (shop: Shop) => string, body: (mark: string, shop: Shop) => object): Making =>
  async (mark, shop) =>
  (url) =>
    json(url, path(shop), mark, body(mark, shop));

export const MAKINGS: Readonly<Record<Sort, Making>> = {
  "new job": pressing(
    () => "/estimates/new?open=intake",
    "Save the estimate",
    (mark) => ({ "owner.name": mark, "unit.maker": "Threnwick", "unit.model": "Cadence 3", "unit.reported": "silent" }),
    "meta.token",
  ),
  // One text in the owner, the unit, the visit and the draft's own terms: all of it or none.
  "draft saved": pressing(
    ({ draft }) => `/estimates/${draft}?open=intake`,
    "Save",
    (mark) => ({ "owner.phone": mark, "unit.serial": mark, "unit.reported": mark }),
    "meta.token",
  ),
  "entry by page": pressing(
    ({ agreed }) => `/jobs/${agreed}/work-log`,
    "Log it",
    (mark) => ({ person: HAND, item: "", minutes: "0.001", note: mark }),
  ),
  "entry by API": posting(
    ({ agreed }) => `jobs/${agreed}/work-log`,
    (mark) => ({ person: HAND, workedOn: "2026-11-25", minutes: 0.001, note: mark }),
  ),
  "goods by page": pressing(
    () => "/parts/goods-in",
    "Book in",
    (mark, { part }) => ({
      kind: part,
      source: "Pindrake Components",
      state: "new",
      pieces: "10",
      paid: "2.50",
      note: mark,
      by: HAND,
    }),
  ),
  "goods by API": posting(
    () => "goods-in",
    (mark, { part }) => ({
      ...{ receivedOn: "2026-11-25", kind: part, source: "Pindrake Components", state: "new", pieces: 10 },
      ...{ paid: 250, note: mark, by: HAND },
    }),
  ),
  "extra fault": posting(
    ({ agreed }) => `jobs/${agreed}/extra-fault`,
    (mark) => ({ reason: mark, part: "Voltage regulator", where: "Supply board" }),
  ),
};

export const write = async (sort: Sort, mark: string, shop: Shop, url: string): Promise<Write> => ({
  sort,
  mark,
  send: await MAKINGS[sort](mark, shop, url),
});

export const isDone = ({ status }: Answered): boolean => (status >= 200 && status < 300) || status === 303;
