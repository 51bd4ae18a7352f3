/** Every page of the shop with 5,000 parts in the catalogue, 10,000 offers of them: none carries the catalogue. Invented. */
import { sql } from "drizzle-orm";
import { expect, it } from "vitest";
import { type Table, WHO } from "../../../src/http/who.js";
import { agreedShop } from "../support/agreedShop.js";
import { visitor, words } from "../support/noScript.js";

const BY = "Wilhelmina Stråhle";
const ROLLER = "pinch-roller";
const MANY = 5000;
/** Of the HTML, not packed. */
const MOST = 150_000;
/** What 5,000 parts may add to a page. */
const MOST_MORE = 48_000;
/** Their own weight is the rate book and the counts of a whole unit; the catalogue adds no more to them than to others. */
const GRIDS = ["/estimates/new", "/estimates/:id{[^/.]+}", "/models/:id/edit"];

/** Where the ids of a path are looked for. */
const IDS: Readonly<Record<string, string>> = {
  ...{ "/jobs": "jobs", "/estimates": "estimates", "/models": "models", "/data/owners": "owners", "/parts/kinds": "part_kinds" },
  ...{ "/parts/offers": "offers", "/parts/donors": "donors", "/parts/orders": "orders", "/parts/goods-in": "goods_in" },
  ...{ "/parts/rates": "exchange_rates", "/parts/stock": "part_kinds", "/photos": "photos" },
};
const WORDS: Readonly<Record<string, readonly string[]>> = {
  "/rate-book": ["operations", "part-types", "services", "fasteners", "leads", "scarcity", "files"],
  "/problems": ["not-found"],
  "/data/in": ["part-kinds", "offers", "exchange-rates", "parts-list"],
};

/** Papers and tables. */
const NO_PAGE = /\.(pdf|csv|ics|json)/;

it("stays light with 5,000 parts in the catalogue, whatever page it is", async () => {
  const { app, db, send } = await agreedShop();
  const desk = visitor({ app });
  const made = async (path: string, body: object) => expect((await send("POST", path, body)).status).toBe(201);
  const rate = { currency: "USD", rate: "0.79", on: "2026-11-24", source: "typed" };
  await made("/api/exchange-rates", rate);
  await made("/api/orders", {
    ...{ source: "Fellwright Remakes", orderedOn: "2026-11-25", by: BY, lines: [{ offer: "o34", packs: 2 }] },
  });
  await made("/api/goods-in", {
    ...{ kind: ROLLER, source: "Fellwright Remakes", state: "reproduction", pieces: 3, paid: 5000, by: BY },
    receivedOn: "2026-11-25",
  });
  await made("/api/donors", {
    ...{ maker: "Wrenfield", model: "Old one", boughtOn: "2026-11-20", currency: "GBP", cost: 4000 },
    parts: [{ kind: ROLLER, pieces: 1 }],
  });

  // The shop's own, but for those of accounts, which it has none of, and the API's manual.
  const pages = Object.entries(WHO as Table).flatMap(([path, { GET }]) =>
    GET && ["technician", "manager"].includes(GET.who) && !GET.ofAccounts && !path.startsWith("/api") && !NO_PAGE.test(path)
      ? [path]
      : [],
  );
  const idsAt = async (path: string): Promise<readonly string[]> => {
    const [under] = path.split("/:") as [string];
    if (WORDS[under]) return WORDS[under];
    const table = IDS[under];
    if (!table) return [];
    const rows = await db.all<{ id: string }>(sql.raw(`select id from ${table} order by id limit 4`));
    return rows.map(({ id }) => id);
  };
  /** The heaviest of each route that answers with a page. */
  const weights = async (): Promise<ReadonlyMap<string, number>> => {
    const heaviest = new Map<string, number>();
    for (const route of pages) {
      const ids = route.includes(":") ? await idsAt(route) : [""];
      for (const id of ids) {
        const at = route.replace(/:\w+(\{.+?\})?(?=\/|$)/, encodeURIComponent(id)).replace(":entry", "new");
        if (at.includes(":")) continue;
        const { status, html, headers } = await desk.get(at);
        if (status !== 200 || !headers.get("content-type")?.startsWith("text/html")) continue;
        heaviest.set(route, Math.max(heaviest.get(route) ?? 0, Buffer.byteLength(html)));
      }
    }
    return heaviest;
  };

  const before = await weights();
  // What needs a link, a photo or a closed job is not there; all else is, and what names parts above all.
  expect(pages.filter((route) => !before.has(route) && !/:id|:entry/.test(route))).toEqual([]);
  expect([...before.keys()]).toEqual(
    expect.arrayContaining(["/jobs/:id/extra-fault", "/parts/donors/:id", "/parts/kinds/:id", "/parts/kinds/:id/offers"]),
  );
  expect(before.size).toBeGreaterThan(50);
  const rows = (n: number, what: string) =>
    db.run(sql.raw(`with recursive n(i) as (select 1 union all select i + 1 from n where i < ${n}) insert into ${what} from n`));
  const kept = "1, '2026-01-01T00:00:00Z', '2026-01-01T00:00:00Z'";
  await rows(
    MANY,
    `part_kinds (id, version, created_at, updated_at, type, name, value, stock)
     select 'many-' || i, ${kept}, 'film', 'Film capacitor of many ' || i || ' nF, radial', (i % 900) || 'n', i % 3`,
  );
  await rows(
    2 * MANY,
    `offers (id, version, created_at, updated_at, kind, source, offered_on, currency, price, pack_size, lead_days, state)
     select 'way-' || i, ${kept}, 'many-' || (1 + i % ${MANY}), 'Source ' || (i % 40), '2026-01-01', 'GBP', 10, 1, 3, 'new'`,
  );
  const after = await weights();
  if (process.env.WEIGHTS) for (const [route, now] of after) console.log(`${now - before.get(route)!}\t${now}\t${route}`);
  expect([...after.keys()]).toEqual([...before.keys()]);
  const heavy = [...after].filter(
    ([route, now]) => (now > MOST && !GRIDS.includes(route)) || now - before.get(route)! > MOST_MORE,
  );
  expect(heavy).toEqual([]);

  // What a page does not carry is taken by its name, its number, or named with the nearest.
  const form = await desk.get("/parts/goods-in");
  expect(form.html).not.toContain("Film capacitor of many 4711 nF");
  const goods = { source: "Source 4", state: "new", pieces: "2", paid: "1", packSize: "1", leadDays: "3", by: BY };
  const wrong = await desk.press(form, "Book in", { ...goods, kind: "4711 radial many" });
  expect(words(wrong.html)).toMatch(
    /Part: '4711 radial many' is not known; choose one of Film capacitor of many 4711 nF, radial,/,
  );
  for (const kind of ["film capacitor of MANY 4711 nF, radial", "many-4711"])
    expect((await desk.press(await desk.get("/parts/goods-in"), "Book in", { ...goods, kind })).path).toMatch(/goods-in\?in=/);
}, 120_000);
