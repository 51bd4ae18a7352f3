/** Which part was meant by what was scanned or typed, and for which work. */
import type { EstimateInput, PartKind } from "../../estimating/input.js";
import { listed } from "../../wording/list.js";
import type { Need } from "./view.js";

export type PartTyped =
  | { readonly is: "part"; readonly part: { readonly item: string; readonly partKind?: string; readonly partType?: string } }
  | { readonly is: "wrong"; readonly field: "code" | "for"; readonly text: string };

const same = (a: string | undefined, b: string): boolean => a !== undefined && plain(a) === plain(b);
const plain = (text: string): string => text.normalize("NFKC").trim().replaceAll(/\s+/g, " ").toLowerCase();

/** `scanned`: the part of the catalogue with this very code. The list first, what it still needs before what it does not; then the other parts of the job. */
export function partTyped(
  fields: ReadonlyMap<string, string>,
  needs: readonly Need[],
  revision: string,
  input: EstimateInput,
  scanned?: Pick<PartKind, "id" | "name">,
): PartTyped {
  const wanted = fields.get("for") || undefined;
  const [kind, type] = [fields.get("kind"), fields.get("type")];
  if (kind && wanted) return { is: "part", part: { item: wanted, partKind: kind } };
  if (type && wanted) return { is: "part", part: { item: wanted, partType: type } };
  const typed = (fields.get("code") ?? "").trim();
  if (typed === "") return wrong("code", "Part: scan its code, or type a number of the list, a name or a value.");

  const forWork = needs.filter(({ item }) => wanted === undefined || item === wanted);
  if (/^\d{1,3}$/.test(typed) && !forWork.some(({ value }) => same(value, typed))) {
    const numbered = needs.find(({ number }) => number === Number(typed));
    if (!numbered) return wrong("code", `Part: the list has no number ${typed}.`);
    if (fields.get("list") && fields.get("list") !== revision)
      return wrong("code", "Part: a new revision numbered the list again meanwhile. Look at it, then type the number once more.");
    return meant(numbered);
  }
  const fits = forWork.filter((need) =>
    [need.kind, need.name, need.value, need.kind ? undefined : need.type].some((text) => same(text, typed)),
  );
  const still = fits.filter(({ used, needed, blocked }) => used < needed && !blocked);
  const [first] = still.length > 0 ? still : fits;
  const parts = new Set(fits.map(({ kind, type }) => kind ?? type));
  if (first && parts.size > 1)
    return wrong(
      "code",
      `Part: '${typed}' is ${listed(
        fits.map(({ number, name }) => `number ${number} (${name})`),
        "or",
      )}; type the number.`,
    );
  if (first) return meant(first);
  const other = scanned
    ? [scanned]
    : (input.kinds ?? []).filter(({ id, name, value }) => [id, name, value].some((text) => same(text, typed)));
  const otherType = input.rateBook.partTypes.find(({ id, name }) => same(id, typed) || same(name, typed));
  if (other.length > 1)
    return wrong("code", `Part: '${typed}' fits ${listed(other.map(({ name }) => name))}; type the whole name.`);
  if (!other[0] && !otherType)
    return wrong("code", `Part: nothing of this job is called '${typed}'. Check the code, or type the name.`);
  if (wanted === undefined)
    return wrong("for", "For: no work of this job was agreed with this part; choose the work that used it.");
  return { is: "part", part: { item: wanted, ...(other[0] ? { partKind: other[0].id } : { partType: otherType!.id }) } };
}

const wrong = (field: "code" | "for", text: string): PartTyped => ({ is: "wrong", field, text });
const meant = ({ item, kind, type }: Need): PartTyped => ({
  is: "part",
  part: { item, ...(kind === undefined ? { partType: type } : { partKind: kind }) },
});
