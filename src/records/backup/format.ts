/**
 * A backup is lines of JSON in a gzip stream (RFC 1952): a head, pages of rows, files, and an end. The end carries a hash chained
 * over all lines before it, so that nothing can be changed, left out or cut off unseen. The same file serves Node and the edge.
 */
import { z } from "zod";
import type { Instant } from "../database.js";
import { sha256 } from "../sha256.js";

export const FORMAT = "ohmwright backup";
/** Of this format; the tables have a number of their own. */
export const FORMAT_VERSION = 1;

export interface Cells {
  readonly columns: readonly string[];
  readonly rows: number;
}

export interface BackupHead {
  readonly format: typeof FORMAT;
  readonly version: number;
  /** How many migrations made the tables. */
  readonly schema: number;
  readonly madeAt: Instant;
  /** In an order in which rows name only rows that stand before them. */
  readonly tables: Readonly<Record<string, Cells>>;
  /** Files kept beside the database, such as photos. */
  readonly files: number;
}

export interface Bytes {
  readonly base64: string;
}

export type Cell = string | number | null | Bytes;

const cell = z.union([z.string(), z.number(), z.null(), z.strictObject({ base64: z.base64() })]);
const whole = z.int().min(0);
export const headLine = z.strictObject({
  format: z.literal(FORMAT),
  version: z.literal(FORMAT_VERSION),
  schema: whole,
  madeAt: z.string(),
  tables: z.record(z.string(), z.strictObject({ columns: z.array(z.string()), rows: whole })),
  files: whole,
});
/** Enough to tell a newer backup by, whatever else it says. */
export const anyHead = z.object({ format: z.literal(FORMAT), version: whole, schema: whole });
export const pageLine = z.strictObject({ table: z.string(), rows: z.array(z.array(cell)) });
export const fileLine = z.strictObject({ file: z.string(), type: z.string(), base64: z.base64() });
export const endLine = z.strictObject({ end: z.literal(true), lines: whole, sha256: z.string() });

export type PageLine = z.infer<typeof pageLine>;
export type FileLine = z.infer<typeof fileLine>;

/** The hash of a line and of all before it. */
export const chainLine = (before: string, line: string): Promise<string> => sha256(`${before}\n${line}`);

const CHUNK = 0x8000;

export function toBase64(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += CHUNK) text += String.fromCharCode(...bytes.subarray(at, at + CHUNK));
  return btoa(text);
}

/** Throws where it is none. */
export function fromBase64(text: string): Uint8Array {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let at = 0; at < binary.length; at += 1) bytes[at] = binary.charCodeAt(at);
  return bytes;
}
