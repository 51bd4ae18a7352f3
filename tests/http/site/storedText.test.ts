/** Text that someone stored with markup in it, on every page that links lead to. */
import { sql } from "drizzle-orm";
import { expect, it } from "vitest";
import { story } from "../support/story.js";

const MARKUP = `<img src=x onerror="alert(1)">'"&lt;`;
const COLUMNS = [
  ...["owners.name", "owners.phone", "owners.email", "owners.notes", "units.maker", "units.model", "units.serial", "units.notes"],
  ...[
    "jobs.reported",
    "jobs.condition",
    "jobs.notes",
    "part_kinds.name",
    "part_kinds.notes",
    "offers.source",
    "settings.name",
    "settings.phone",
  ],
];

it("text with markup in it is shown as text on every page", async () => {
  const { opened, estimateId } = await story();
  const { db, app } = opened;
  const { rows: triggers } = await db.run("SELECT name FROM sqlite_master WHERE type = 'trigger'");
  for (const { name } of triggers) await db.run(`DROP TRIGGER "${name}"`);
  for (const column of COLUMNS) {
    const [table, name] = column.split(".");
    await db.run(sql`UPDATE ${sql.identifier(table!)} SET ${sql.identifier(name!)} = ${MARKUP}`);
  }
  const [{ input }] = (await db.run(sql`SELECT input FROM estimates WHERE id = ${estimateId}`)).rows as unknown as [
    { input: string },
  ];
  const marked = JSON.parse(input, (key, value) =>
    ["reason", "reported", "found", "condition"].includes(key) ? MARKUP : value,
  ) as object;
  await db.run(sql`UPDATE estimates SET input = ${JSON.stringify(marked)} WHERE id = ${estimateId}`);

  const [seen, left, kinds] = [new Set(["/"]), ["/"], new Map<string, number>()];
  let shown = 0;
  while (left.length > 0 && seen.size < 200) {
    const path = left.shift()!;
    const answer = await app.request(`http://localhost:4700${path}`, { headers: { accept: "text/html" } });
    expect(answer.status, path).toBeLessThan(500);
    if (!(answer.headers.get("content-type") ?? "").startsWith("text/html")) continue;
    const html = await answer.text();
    expect(html, path).not.toContain("<img src=x");
    expect(html, path).not.toMatch(/"[^"<>]*onerror="alert/);
    if (html.includes("&lt;img src=x")) shown += 1;
    for (const [, href] of html.matchAll(/<a [^>]*?href="(\/[^"#]*)/g)) {
      const to = href!.replaceAll("&amp;", "&");
      const kind = to.replaceAll(/[0-9a-f-]{20,}|\d+/g, "*");
      if (seen.has(to) || (kinds.get(kind) ?? 0) >= 2) continue;
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      seen.add(to);
      left.push(to);
    }
  }
  expect(seen.size).toBeGreaterThan(60);
  expect(shown).toBeGreaterThan(15);
});
