/**
 * A form as it is sent: names to text, in the order of the page. A name has two or three parts joined by dots, such as
 * `unit.serial` or `cells.voicing.p:film`; ids inside a name are escaped by `key`.
 */
export type Fields = ReadonlyMap<string, string>;

export { idOf, key } from "../../wording/fieldName.js";

/** The later of two fields of one name wins, as the later check box does. */
export function fieldsFrom(pairs: Iterable<readonly [string, string]>): Map<string, string> {
  const fields = new Map<string, string>();
  for (const [name, text] of pairs) fields.set(name, text);
  return fields;
}

type Given<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** The same object without the properties that were not given. */
export const given = <T extends object>(value: T): Given<T> =>
  Object.fromEntries(Object.entries(value).filter(([, inner]) => inner !== undefined)) as Given<T>;
