/** Which columns of a job's records tell of the owner, and what is left of them. */
import { ERASED, type Known, withoutKnown } from "./without.js";

type Row = Readonly<Record<string, unknown>>;
type Left = (value: unknown, names: Known) => unknown;

const gone: Left = (value) => (value === null ? null : ERASED);
const nothing: Left = () => null;
const blank: Left = () => "";
const without: Left = (value, names) => (typeof value === "string" ? withoutKnown(value, names) : value);

/** By table and the name the column has in a row. */
const LEFT: Readonly<Record<string, Readonly<Record<string, Left>>>> = {
  agreements: {
    ...{ by: gone, wording: gone, deliveredTo: gone, address: gone, agent: gone, writing: gone, reason: gone },
    spoken: nothing,
  },
  // With blank hashes no secret and no code opens the link any more.
  owner_links: { deliveredTo: gone, secretHash: blank, codeSalt: blank, codeHash: blank },
  link_withdrawals: { reason: gone },
  questions: { text: gone },
  question_replies: { text: gone },
  overrides: { reason: without },
  work_log: { note: without },
  log_withdrawals: { reason: without },
  readings: { label: without },
  close_outs: { reason: without },
  photos: { caption: gone, takenOn: nothing },
};

/** The columns that change. */
export function leftOf(table: string, row: Row, names: Known): Row {
  const changed = Object.entries(LEFT[table] ?? {}).map(([name, left]) => [name, left(row[name] ?? null, names)] as const);
  return Object.fromEntries(changed.filter(([name, value]) => value !== (row[name] ?? null)));
}
