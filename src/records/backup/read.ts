/** Reads a backup from end to end before anything is done with it: whatever is not as it was written refuses the whole. */
import {
  anyHead,
  type BackupHead,
  chainLine,
  endLine,
  type FileLine,
  FORMAT_VERSION,
  fileLine,
  headLine,
  type PageLine,
  pageLine,
} from "./format.js";
import { unzipped } from "./zip.js";

/** Opens the same bytes anew each time. */
export type Source = () => ReadableStream<Uint8Array>;

export type BackupFault =
  /** Not a gzip stream of ours at all. */
  | { readonly is: "no backup" }
  /** By a newer program than this. */
  | { readonly is: "newer"; readonly schema: number; readonly known: number }
  | { readonly is: "cut off"; readonly line: number }
  | { readonly is: "altered"; readonly line: number };

export type BackupRead = { readonly is: "sound"; readonly head: BackupHead } | BackupFault;

/** `known`: how many migrations this program has. */
export async function readBackup(source: Source, known: number): Promise<BackupRead> {
  let line = 0;
  let [hash, files] = ["", 0];
  let head: BackupHead | undefined;
  let ended = false;
  const rows: Record<string, number> = {};
  try {
    for await (const text of unzipped(source())) {
      line += 1;
      const value = parsed(text);
      if (!head) {
        const any = anyHead.safeParse(value);
        if (!any.success) return { is: "no backup" };
        const { version, schema } = any.data;
        if (version > FORMAT_VERSION || schema > known) return { is: "newer", schema, known };
        const read = headLine.safeParse(value);
        if (!read.success) return { is: "altered", line };
        head = read.data;
      } else if (ended) return { is: "altered", line };
      else {
        const page = pageLine.safeParse(value);
        const end = page.success ? undefined : endLine.safeParse(value);
        if (page.success) {
          if (!fits(page.data, head)) return { is: "altered", line };
          rows[page.data.table] = (rows[page.data.table] ?? 0) + page.data.rows.length;
        } else if (end?.success) {
          if (end.data.sha256 !== hash || end.data.lines !== line - 1) return { is: "altered", line };
          ended = true;
        } else if (fileLine.safeParse(value).success) files += 1;
        else return { is: "altered", line };
      }
      hash = await chainLine(hash, text);
    }
  } catch {
    // The stream itself is broken: before its first line it was never ours.
    return head ? { is: "cut off", line: line + 1 } : { is: "no backup" };
  }
  if (!head) return { is: "no backup" };
  if (!ended) return { is: "cut off", line: line + 1 };
  const counted = Object.entries(head.tables).every(([name, table]) => (rows[name] ?? 0) === table.rows);
  return counted && files === head.files ? { is: "sound", head } : { is: "altered", line };
}

/** Pages and files of a backup that was read and found sound. */
export async function* contents(source: Source): AsyncGenerator<PageLine | FileLine> {
  let first = true;
  for await (const text of unzipped(source())) {
    const value = JSON.parse(text) as PageLine | FileLine | { readonly end: true };
    if (!first && !("end" in value)) yield value;
    first = false;
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function fits({ table, rows }: PageLine, head: BackupHead): boolean {
  const known = Object.hasOwn(head.tables, table) ? head.tables[table] : undefined;
  return known !== undefined && rows.every((cells) => cells.length === known.columns.length);
}
