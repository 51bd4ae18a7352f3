/** What two OpenAPI documents say differently, key by key. A schema is followed wherever it is referred to and told once, so that renaming or moving one is no difference. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type Keyed = { readonly [key: string]: Json };

/** Lists whose order says nothing. */
const SETS = new Set(["required", "enum", "tags", "type", "examples"]);
const isKeyed = (value: Json | undefined): value is Keyed => typeof value === "object" && value !== null && !Array.isArray(value);
const isList = (value: Json | undefined): value is readonly Json[] => Array.isArray(value);

/** One line a difference: `+` only the second has it, `-` only the first, `~` both, unlike. */
export function differences(was: Keyed, is: Keyed): string[] {
  const told: string[] = [];
  const followed = new Set<string>();
  const { components: wasParts, ...before } = was;
  const { components: isParts, ...after } = is;

  function compare(a: Json | undefined, b: Json | undefined, at: string): void {
    const [from, to] = [referred(a), referred(b)];
    if (from !== undefined || to !== undefined) {
      const pair = `${from ?? at} ${to ?? at}`;
      if (followed.has(pair)) return;
      followed.add(pair);
      const name = to === undefined || from === to ? from : from === undefined ? to : `${from} now ${to}`;
      compare(from ? partAt(was, from) : a, to ? partAt(is, to) : b, from && to ? name! : at);
      return;
    }
    if (a === undefined && b === undefined) return;
    if (a === undefined) told.push(`+ ${at}: ${short(b!)}`);
    else if (b === undefined) told.push(`- ${at}: ${short(a)}`);
    else if (isKeyed(a) && isKeyed(b)) for (const key of keysOf(a, b)) compare(a[key], b[key], `${at}/${key}`);
    else if (isList(a) && isList(b)) lists(a, b, at);
    else if (a !== b) told.push(`~ ${at}: ${short(a)} -> ${short(b)}`);
  }

  function lists(a: readonly Json[], b: readonly Json[], at: string): void {
    const key = at.slice(at.lastIndexOf("/") + 1);
    const named = key === "parameters" || SETS.has(key);
    const name = (value: Json, index: number) =>
      !named ? String(index) : isKeyed(value) && "in" in value ? `${value.in} ${value.name}` : JSON.stringify(value);
    const [left, right] = [a, b].map((list) => Object.fromEntries(list.map((value, index) => [name(value, index), value])));
    for (const each of keysOf(left!, right!)) compare(left![each], right![each], `${at}/${each}`);
  }

  compare(before, after, "");
  // What nothing refers to is compared by name.
  const seen = new Set([...followed].flatMap((pair) => pair.split(" ")));
  for (const kind of keysOf(keyed(wasParts), keyed(isParts)))
    for (const name of keysOf(keyed(keyed(wasParts)[kind]), keyed(keyed(isParts)[kind]))) {
      const at = `#/components/${kind}/${name}`;
      if (!seen.has(at)) compare(keyed(keyed(wasParts)[kind])[name], keyed(keyed(isParts)[kind])[name], at);
    }
  return told;
}

/** What is the same at many operations, told once with how many they are. */
export function gathered(told: readonly string[]): string[] {
  const places = new Map<string, string[]>();
  for (const line of told) {
    const [, sign, place = "", rest] = /^(.) (\/paths\/\/.*?\/(?:get|put|post|delete))(\/.*)$/s.exec(line) ?? [];
    const what = sign ? `${sign} *${rest}` : line;
    places.set(what, [...(places.get(what) ?? []), place]);
  }
  return [...places].map(([what, at]) =>
    what[2] !== "*"
      ? what
      : at.length === 1
        ? what.replace("*", at[0]!)
        : `${what} (${at.length} operations, the first ${at[0]})`,
  );
}

const referred = (value: Json | undefined): string | undefined =>
  isKeyed(value) && typeof value.$ref === "string" ? value.$ref : undefined;
const keyed = (value: Json | undefined): Keyed => (isKeyed(value) ? value : {});
const keysOf = (a: Keyed, b: Keyed): string[] => [...new Set([...Object.keys(a), ...Object.keys(b)])].sort();
const partAt = (document: Keyed, pointer: string): Json | undefined =>
  pointer
    .slice(2)
    .split("/")
    .reduce<Json | undefined>((value, key) => keyed(value)[key.replaceAll("~1", "/").replaceAll("~0", "~")], document);

function short(value: Json): string {
  const text = JSON.stringify(value);
  return text.length > 160 ? `${text.slice(0, 157)}...` : text;
}
