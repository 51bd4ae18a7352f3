/** Texts, rows and inputs without what tells who the owner is. Figures, ids, dates and the shop's own words stay. */
import type { EstimateInput, Paperwork, Unit } from "../../estimating/input.js";

export const ERASED = "erased";

/** What a person is known by: names, telephone numbers, addresses of e-mail, serial numbers. */
export type Known = ReadonlySet<string>;

/** Shorter ones stand within other words by chance, so they are erased only where they stand alone. */
const WITHIN_FROM = 4;

export function known(texts: readonly (string | undefined)[]): Known {
  return new Set(texts.flatMap((text) => (text?.trim() && text !== ERASED ? [text.trim()] : [])));
}

export function withoutKnown(text: string, names: Known): string {
  let rest = text;
  for (const name of [...names].sort((a, b) => b.length - a.length)) {
    if (rest.trim() === name) return ERASED;
    if (name.length < WITHIN_FROM) continue;
    const found = new RegExp(name.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&"), "giu");
    rest = rest.replaceAll(found, ERASED);
  }
  return rest;
}

/** Every text within a JSON value. */
export function withoutKnownIn<T>(value: T, names: Known): T {
  if (typeof value === "string") return withoutKnown(value, names) as T;
  if (Array.isArray(value)) return value.map((entry) => withoutKnownIn(entry, names)) as T;
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, withoutKnownIn(entry, names)])) as T;
}

type Erasable = Pick<EstimateInput, "unit" | "items" | "policy" | "paperwork">;

/** The input of an estimate; what it comes to does not change by it. */
export function inputWithout<Input extends Erasable>(input: Input, names: Known): Input {
  const { unit, items, policy, paperwork } = input;
  return {
    ...input,
    unit: unitWithout(unit),
    items: items.map((item) => (item.reason === undefined ? item : { ...item, reason: withoutKnown(item.reason, names) })),
    ...(policy?.discount && {
      policy: { ...policy, discount: { ...policy.discount, reason: withoutKnown(policy.discount.reason, names) } },
    }),
    ...(paperwork && { paperwork: paperworkWithout(paperwork, names) }),
  };
}

function unitWithout({ serial: _, accessories, ...unit }: Unit): Unit {
  const texts = ["condition", "reported", "found", "storedData"] as const;
  return {
    ...unit,
    ...(accessories && { accessories: accessories.map(() => ERASED) }),
    // An empty text says something of its own: that nothing is stored.
    ...Object.fromEntries(texts.filter((name) => unit[name]).map((name) => [name, ERASED])),
  };
}

const paperworkWithout = ({ owner, whyChanged, summary, spellings: _, ...paperwork }: Paperwork, names: Known): Paperwork => ({
  ...paperwork,
  ...(summary && { summary: ERASED }),
  ...(owner && { owner: { name: ERASED } }),
  ...(whyChanged && { whyChanged: withoutKnownIn(whyChanged, names) }),
});

/** Which columns of a job's records tell of the owner, and what is left of them. */
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
  work_log: { note: without, partReason: without },
  log_withdrawals: { reason: without },
  readings: { label: without },
  payments: { note: gone },
  payment_withdrawals: { reason: without },
  close_outs: { reason: without },
  photos: { caption: gone, takenOn: nothing },
};

/** The columns that change. */
export function leftOf(table: string, row: Row, names: Known): Row {
  const changed = Object.entries(LEFT[table] ?? {}).map(([name, left]) => [name, left(row[name] ?? null, names)] as const);
  return Object.fromEntries(changed.filter(([name, value]) => value !== (row[name] ?? null)));
}
