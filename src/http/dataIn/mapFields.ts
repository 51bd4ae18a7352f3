/** Which column is which field: as remembered for these headings, as chosen now, or by the names of the columns. */
import type { Mapping } from "../../records/mappings.js";
import type { Field } from "./fields.js";
import type { Table } from "./table.js";

const plain = (heading: string): string => heading.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, "");

export function mapFields(
  fields: readonly Field[],
  { headings, delimiter }: Table,
  known: Mapping | undefined,
  chosen: Partial<Mapping>,
  localeMark: "." | ",",
): Mapping {
  const there = new Set(headings);
  const own = chosen.fields ?? known?.fields;
  const byName = Object.fromEntries(
    fields.flatMap(({ name, headings: names }) => {
      const found = headings.find((heading) => [name, ...names].some((each) => plain(each) === plain(heading) && heading !== ""));
      return found === undefined ? [] : [[name, found] as const];
    }),
  );
  const mapped = own ? Object.fromEntries(Object.entries(own).filter(([, heading]) => there.has(heading))) : byName;
  // Where cells are divided by commas, a decimal comma would divide them too.
  const usual = delimiter === "," ? "." : localeMark;
  return { fields: mapped, types: { ...known?.types, ...chosen.types }, mark: chosen.mark ?? known?.mark ?? usual };
}
