/**
 * A second copy of each row that no event tells of, kept by triggers alone and so in the transaction of its row. An update moves in the
 * copy what it changes in the row and nothing else: a byte that was spoilt is still told of after the row was written, until somebody
 * writes that very column. It is against damage and careless hands: whoever writes SQL with the triggers in place is followed by them.
 */
import { primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";

export const rowCopiesTable = sqliteTable(
  "row_copies",
  {
    /** A table. */
    of: text("of").notNull(),
    /** Its primary key; of several columns, a JSON array. */
    id: text("id").notNull(),
    /** A JSON array of the other columns that are copied, in their order. */
    body: text("body").notNull(),
  },
  (table) => [primaryKey({ columns: [table.of, table.id] })],
);

/** Tables that are backed up and have no copies, beside those on the trail; and why. */
export const UNCOPIED: Readonly<Record<string, string>> = {
  events: "each is hashed onto the one before",
  job_states: "worked out from others by triggers, and by verify once more",
  kind_uses: "worked out from others by triggers, and by verify once more",
  seen_good: "worked out from others by triggers, and by verify once more",
  typed_drafts: "written every few seconds of typing, of what is no record yet",
  row_copies: "the copies themselves",
};

/** Columns of the other tables that have none, and why. */
export const UNCOPIED_COLUMNS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  estimates: { input: "held by content_hash", sheet: "held by content_hash" },
  logos: { bytes: "the id is their hash" },
  api_tokens: { used_at: "noted in passing, with each call" },
  part_kinds: { stock: "where the movements of the shelf end" },
  order_lines: { came: "what goods in add up to", ended: "whether its order has an ending" },
  search_entries: Object.fromEntries(["who", "unit", "told", "codes"].map((column) => [column, "made of the job's own rows"])),
  catalogue_entries: { told: "made of the part's own rows" },
};

export interface Column {
  readonly name: string;
  /** As it was declared, such as REAL. */
  readonly type: string;
}

/** SQL, of a row called `row`. A copy is text: a number with a fraction is told to its last bit. */
export const bodyOf = (columns: readonly Column[], row: string): string =>
  `json_array(${columns.map((column) => cellOf(column, row)).join(", ")})`;

/** Text is joined to nothing, since to SQLite what another function made as JSON is JSON still when a trigger reads it. */
export const cellOf = ({ name, type }: Column, row: string): string => {
  const cell = `${row}.\`${name}\``;
  if (/^(real|blob)$/i.test(type)) return `quote(${cell})`;
  return /^text$/i.test(type) ? `${cell} || ''` : cell;
};

export const idOf = (keys: readonly Column[], row: string): string => {
  const [first, ...rest] = keys.map(({ name }) => `${row}.\`${name}\``);
  if (rest.length > 0) return `json_array(${[first, ...rest].join(", ")})`;
  return /^integer$/i.test(keys[0]!.type) ? `CAST(${first} AS TEXT)` : first!;
};
