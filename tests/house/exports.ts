/** What a file gives away and what others take of it. */
import { leadsTo, type Source } from "./source.js";

const plain = (text: string): string => text.replaceAll(/\/\*[\s\S]*?\*\//g, "").replaceAll(/(?<![:"'`\\])\/\/[^\n]*/g, "");

const DECLARED = /^export (?:default )?(?:async )?(?:const|let|function\*?|interface|type|class) ([\w$]+)/gm;
const LISTED = /^export (?:type )?\{([^}]*)\}/gm;
const TAKEN = /(?:import|export)\s+(?:type\s+)?([^;"'`]*?)\s+from\s*["']([^"']+)["']/g;
const LATER = /import\s*\(\s*["']([^"']+)["']/g;

const names = (list: string, which: "theirs" | "ours"): string[] =>
  list
    .split(",")
    .map((name) => name.trim().replace(/^type /, ""))
    .filter((name) => name !== "")
    .map((name) =>
      name
        .split(" as ")
        .at(which === "theirs" ? 0 : -1)!
        .trim(),
    );

/** As `file name`; `file *` where all of it is taken, or it is loaded later. */
function taken({ file, text }: Source): string[] {
  const list = [...plain(text).matchAll(TAKEN)].flatMap(([, clause, specifier]) => {
    const of = leadsTo(file, specifier!);
    const braces = /\{([\s\S]*)\}/.exec(clause!);
    const whole = clause!.includes("*") ? ["*"] : /^[\w$]/.test(clause!) ? ["default"] : [];
    return [...whole, ...(braces ? names(braces[1]!, "theirs") : [])].map((name) => `${of} ${name}`);
  });
  return [...list, ...[...plain(text).matchAll(LATER)].map(([, specifier]) => `${leadsTo(file, specifier!)} *`)];
}

/** Within a text that is code of its own, such as a tool's that writes a file. */
const quoted = (code: string, at: number): boolean => (code.slice(0, at).split("`").length - 1) % 2 === 1;

/** Exports, as `file name`, that no other of these files imports and that their own file names nowhere else. */
export function unused(sources: readonly Source[]): string[] {
  const used = new Set(sources.flatMap(taken));
  return sources.flatMap(({ file, text }) => {
    const code = plain(text);
    const given = [
      ...[...code.matchAll(DECLARED)].filter(({ index }) => !quoted(code, index)).map(([, name]) => name!),
      ...[...code.matchAll(LISTED)].flatMap(([, list]) => names(list!, "ours")),
    ];
    const mentions = (name: string) =>
      code.split(new RegExp(`(?<![\\w$])(?<![^.]\\.)${name.replaceAll("$", "\\$")}(?![\\w$])`)).length - 1;
    return given
      .filter((name) => !used.has(`${file} ${name}`) && !used.has(`${file} *`) && mentions(name) < 2)
      .map((name) => `${file} ${name}`);
  });
}
