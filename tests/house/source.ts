/** The source as files that import one another. Type-only imports count, and so do imports of what the build makes. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../..", import.meta.url));
export const SRC = join(ROOT, "src");

export interface Source {
  /** From the top of the repository. */
  readonly file: string;
  readonly text: string;
}

/** One import of one file by another, both from the top of the repository. */
export interface Import {
  readonly file: string;
  readonly of: string;
}

export const sourcesIn = (folder: string): Source[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ file: relative(ROOT, path), text: readFileSync(path, "utf8") }));

/** Every specifier that is imported, exported from, or loaded later. */
export const specifiers = (text: string): string[] =>
  [...text.matchAll(/(?<!["'`.\w])(?:from|import)\s*\(?\s*["'`]([^"'`]+)["'`]/g)].map(([, specifier]) => specifier!);

/** Where a specifier leads; a file that is not there is named as it is written. */
export function leadsTo(file: string, specifier: string): string {
  const target = join(dirname(file), specifier);
  const found = [".ts", ".tsx"].map((end) => target.replace(/\.js$/, end)).find((path) => existsSync(join(ROOT, path)));
  return found ?? target;
}

export const importsOf = ({ file, text }: Source): Import[] =>
  specifiers(text)
    .filter((specifier) => specifier.startsWith("."))
    .map((specifier) => ({ file, of: leadsTo(file, specifier) }));

/** A tool that writes code has imports in its texts: they lead nowhere from where they stand. The compiler sees to the others. */
export const leadsSomewhere = ({ of }: Import): boolean => of.startsWith(".built/") || existsSync(join(ROOT, of));
