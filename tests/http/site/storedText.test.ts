/** Text that someone stored with markup in it, on every page that links lead to. */
import { sql } from "drizzle-orm";
import { expect, it } from "vitest";
import { story } from "../support/story.js";
import { pagesFrom } from "../support/walk.js";

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

  let [pages, shown] = [0, 0];
  for await (const { path, answer, html } of pagesFrom(app, 200)) {
    pages += 1;
    expect(answer.status, path).toBeLessThan(500);
    expect(html, path).not.toContain("<img src=x");
    expect(html, path).not.toMatch(/"[^"<>]*onerror="alert/);
    if (html.includes("&lt;img src=x")) shown += 1;
  }
  expect(pages).toBeGreaterThan(60);
  expect(shown).toBeGreaterThan(15);
});
