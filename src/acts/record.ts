/**
 * What a shop keeps as it is: added, replaced on the version last seen, withdrawn with who, when and why. A noun is declared once, and
 * these are its acts. A change writes the keys of its fields and no other.
 */
import { z } from "zod";
import type { Kept, Withdrawal } from "../records/columns.js";
import type { Database } from "../records/database.js";
import type { Keys, Made, Rows } from "../records/noun.js";
import type { Write } from "../records/trail.js";
import { type Act, act, type Decided, type Desk, type Refusal, refused, wrongField } from "./act.js";
import type { Fault } from "./fault.js";
import { line, maybe, saying, sayingOf } from "./field.js";
import { handOf } from "./hand.js";
import { ident } from "./shapes/primitives.js";

/** The versions of a record that a change may stand on; absent: nobody said. */
export type Seen = "any" | readonly number[];
export interface OnRecord {
  readonly id: string;
  readonly seen?: Seen | undefined;
}

export interface Recorded<Value extends object, Row extends Kept> {
  /** owner, part kind */
  readonly one: string;
  readonly fields: z.ZodObject;
  readonly kept: z.ZodType;
  readonly rows: Rows<Value, Row>;
  /** Keys that hold another record's id, and where that is looked up. */
  readonly links?: Readonly<Record<string, (db: Database, id: string) => Promise<unknown>>>;
  /** Keys that stay as they are where they are absent; another is emptied. */
  readonly stays?: readonly string[];
  /** Names in place of ids, put right. */
  readonly settled?: (desk: Desk, value: Value, old?: Row) => Promise<Value>;
  /** What is wrong with a value of the right shape; `old`: what it would take the place of. */
  readonly check?: (desk: Desk, value: Value, old?: Row) => Promise<readonly Fault[]>;
  /** Why this one cannot stand beside others. */
  readonly twice?: (desk: Desk, value: Value, id: string) => Promise<Refusal | undefined>;
  /** Rows of others that go with the record as it will stand. */
  readonly beside?: (desk: Desk, record: Row) => Promise<readonly Write[]>;
}

export const newId = {
  id: maybe(saying(ident, { label: "Id", kind: "line", hint: "Such as a stock number. Empty: one is made" })).meta({
    description: "Chosen by the server when absent",
  }),
};

export const adding = <Value extends object, Row extends Kept>(noun: Recorded<Value, Row>): Act<z.ZodObject, Row> =>
  act({
    name: nameOf("add", noun.one),
    title: `Add ${article(noun.one)}`,
    fields: z.strictObject({ ...noun.fields.shape, ...newId }),
    answer: noun.kept,
    decide: async (desk, { id = desk.newId(), ...rest }): Promise<Decided<Row>> => {
      const value = await settled(noun, desk, rest as Value);
      const wrong = await wrongWith(noun, desk, value, id as string);
      if (wrong) return { refused: wrong };
      if (await noun.rows.find(desk.db, id as string)) return refused("id taken");
      return done(noun, desk, await noun.rows.made(desk.db, id as string, value, desk.at));
    },
  });

/** `fields`: the keys that this change is of, where they are not all. */
export const replacing = <Value extends object, Row extends Kept>(
  noun: Recorded<Value, Row>,
  { name = nameOf("replace", noun.one), title = `Replace ${article(noun.one)}`, fields = noun.fields } = {},
): Act<z.ZodObject, Row, OnRecord> =>
  act({
    name,
    title,
    fields,
    answer: noun.kept,
    decide: async (desk, sent, { id, seen }: OnRecord): Promise<Decided<Row>> => {
      const old = await noun.rows.find(desk.db, id);
      const held = heldBack(noun.one, old, seen) ?? gone(noun.one, old);
      if (held) return { refused: held };
      const keysGiven = Object.keys(fields.shape).filter((key) => key in sent || !noun.stays?.includes(key));
      const given = Object.fromEntries(keysGiven.map((key) => [key, sent[key]]));
      const value = await settled(noun, desk, { ...valueIn(noun, old!), ...given } as Value, old);
      const wrong = await wrongWith(noun, desk, value, id, old);
      if (wrong) return { refused: wrong };
      const keys = Object.fromEntries(Object.keys(given).map((key) => [key, (value as Record<string, unknown>)[key]]));
      return done(noun, desk, await noun.rows.changed(desk.db, old!, keys as Keys<Value>, desk.at));
    },
  });

const WHO = "Who withdraws it";
type Withdrawn = { readonly withdrawal?: Withdrawal };

/** What a record that can be withdrawn says of it. */
export const withdrawal = maybe(
  z
    .strictObject({
      ...{ at: z.string().meta({ format: "date-time" }), by: z.string(), reason: z.string() },
      into: maybe(z.string()).meta({ description: "Id of the one that it was merged into" }),
    })
    .meta({ id: "Withdrawal", description: "It was a mistake: it is found by its id and no longer counts" }),
);

/** A mistake, kept on record and out of sight. `held`: why it must stay; `beside`: what goes with it. */
export const withdrawing = <Value extends Withdrawn, Row extends Kept & Withdrawn>(
  noun: Recorded<Value, Row>,
  rests: {
    readonly held?: (desk: Desk, record: Row) => Promise<Refusal | undefined>;
    readonly beside?: (desk: Desk, record: Row, withdrawal: Withdrawal) => Promise<readonly Write[]>;
  } = {},
) =>
  act({
    name: nameOf("withdraw", noun.one),
    title: `Withdraw ${article(noun.one)} that was a mistake`,
    fields: z
      .strictObject({ reason: line("Why"), by: maybe(line(WHO, { most: 200 })) })
      .meta({ id: nameOf("Withdraw", noun.one) }),
    answer: noun.kept,
    decide: async (desk, { reason, by }, { id }: { readonly id: string }): Promise<Decided<Row>> => {
      const old = await noun.rows.find(desk.db, id);
      const held = heldBack(noun.one, old, "any") ?? gone(noun.one, old) ?? (await rests.held?.(desk, old!));
      if (held) return { refused: held };
      const hand = handOf(desk, by, WHO);
      if ("refused" in hand) return hand;
      const told = { at: desk.at, by: hand.by, reason };
      const { record, write } = await noun.rows.changed(desk.db, old!, { withdrawal: told } as Keys<Value>, desk.at);
      return { answer: record, writes: [write, ...((await rests.beside?.(desk, old!, told)) ?? [])] };
    },
  });

/** It was withdrawn. */
export const gone = (one: string, record: (Kept & Withdrawn) | undefined): Refusal | undefined =>
  record?.withdrawal && {
    is: "withdrawn already",
    detail: `This ${one} was withdrawn by ${record.withdrawal.by}: ${record.withdrawal.reason}. Add it again if it was right after all.`,
  };

const settled = async <Value extends object, Row extends Kept>(noun: Recorded<Value, Row>, desk: Desk, value: Value, old?: Row) =>
  (await noun.settled?.(desk, value, old)) ?? value;

const done = async <Value extends object, Row extends Kept>(
  { beside }: Recorded<Value, Row>,
  desk: Desk,
  { record, write }: Made<Row>,
): Promise<Decided<Row>> => ({ answer: record, writes: [write, ...((await beside?.(desk, record)) ?? [])] });

/** Why a change may not even be tried: no such record, no version named, or another. */
export function heldBack(one: string, current: Kept | undefined, seen: Seen | undefined): Refusal | undefined {
  if (!current) return { is: "not found", detail: `There is no such ${one}.` };
  const headers = { etag: `"${current.version}"` };
  if (seen === undefined) return { is: "version wanted", headers };
  if (seen === "any" || seen.includes(current.version)) return undefined;
  const detail = `The record is at version ${current.version} by now; fetch it again and put your change on top.`;
  return { is: "version moved", detail, headers, current };
}

async function wrongWith<Value extends object, Row extends Kept>(
  { fields, links = {}, check, twice }: Recorded<Value, Row>,
  desk: Desk,
  value: Value,
  id: string,
  old?: Row,
): Promise<Refusal | undefined> {
  for (const [field, look] of Object.entries(links)) {
    const named = (value as Record<string, unknown>)[field];
    if (typeof named !== "string" || (await look(desk.db, named))) continue;
    const label = sayingOf(fields.shape[field] as z.ZodType)?.label ?? field;
    return wrongField(`/${field}`, "record unknown", `${label} is '${named}', which names no record; add that one first.`)
      .refused;
  }
  const errors = (await check?.(desk, value, old)) ?? [];
  return errors.length > 0 ? { is: "input refused", errors } : await twice?.(desk, value, id);
}

/** What the fields of a noun say of a record. */
export const valueIn = ({ fields }: { readonly fields: z.ZodObject }, record: object) =>
  Object.fromEntries(Object.entries(record).filter(([key]) => Object.hasOwn(fields.shape, key)));

/** addPartKind */
export const nameOf = (verb: string, one: string): string =>
  verb + one.replaceAll(/(^|\s)(\w)/g, (_, __, letter: string) => letter.toUpperCase());

export const article = (one: string): string => (/^[aeio]/.test(one) ? `an ${one}` : `a ${one}`);
