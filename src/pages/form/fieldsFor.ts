/** The fields that make an input again: the reverse of `readForm`. What the form has no place for is the catalogue and the shop. */
import type { Assembly, EstimateInput, Party, TeardownMap, ThreePoint, Unit } from "../../estimating/input.js";
import { type Named, nameFor } from "../../wording/named.js";
import { type FormContext, type Pairs, type Pen, penFor } from "./context.js";
import { key } from "./fields.js";
import { fieldsForItems } from "./fieldsForItems.js";
import { operationNames, typeNames } from "./names.js";
import { fieldsForTerms } from "./terms.js";
import { UNIT_TEXT_NAMES } from "./unitTexts.js";

export function fieldsFor(input: EstimateInput, context: FormContext): Map<string, string> {
  const pen = penFor(context);
  const fields = new Map<string, string>();
  const write = (pairs: Pairs) => {
    for (const [name, text] of pairs) if (text !== undefined) fields.set(name, text);
  };
  write([["meta.asOf", input.asOf]]);
  write(fieldsForOwner(input.paperwork?.owner));
  write(fieldsForUnit(input.unit, pen));
  if (input.map) write(fieldsForMap(input.map, pen));
  for (const id of input.toOpen ?? []) write([[`assembly.${key(id)}.wanted`, "on"]]);
  for (const id of input.openAtNoCharge ?? []) write([[`assembly.${key(id)}.open`, "free"]]);
  for (const id of input.alreadyOpen ?? []) write([[`assembly.${key(id)}.open`, "already"]]);
  write(fieldsForBoards(input, pen));
  write(fieldsForItems(input, pen));
  write(fieldsForTerms(input.policy ?? {}, pen));
  return fields;
}

export const fieldsForOwner = (owner: (Party & { readonly language?: string }) | undefined): Pairs => [
  ["owner.name", owner?.name],
  ["owner.address", owner?.address?.join("\n")],
  ["owner.phone", owner?.phone],
  ["owner.email", owner?.email],
  ["owner.language", owner?.language],
];

const textOf = (value: string | readonly string[] | undefined) => (typeof value === "object" ? value.join("\n") : value);

const fieldsForUnit = (unit: Unit, pen: Pen): Pairs => [
  ["unit.maker", unit.maker],
  ["unit.model", unit.model],
  ...UNIT_TEXT_NAMES.map((name) => [`unit.${name}`, textOf(unit[name])] as const),
  ["unit.value", pen.money(unit.declaredValue)],
  ["unit.grade", unit.grade],
  ["unit.dataHeld", unit.storedData === undefined ? undefined : unit.storedData === "" ? "none" : "held"],
  ["unit.storedData", unit.storedData],
  ["unit.power", unit.power],
  ...(unit.hazards ?? []).map((hazard) => [`caution.${key(hazard)}`, "on"] as const),
];

export function fieldsForMap(map: TeardownMap, pen: Pen): Pairs {
  const names: readonly Named[] = map.assemblies;
  const fits = (map.fitBefore ?? []).flatMap(
    ({ first, then, why }, index): Pairs => [
      [`fit.f${index + 1}.first`, nameFor(first, names)],
      [`fit.f${index + 1}.then`, nameFor(then, names)],
      [`fit.f${index + 1}.why`, why],
    ],
  );
  return [...map.assemblies.flatMap((assembly) => fieldsForAssembly(assembly, names, pen)), ...fits];
}

function fieldsForAssembly(assembly: Assembly, names: readonly Named[], pen: Pen): Pairs {
  const row = key(assembly.id);
  const field = `assembly.${row}`;
  const list = (ids: readonly string[] | undefined) => ids?.map((id) => nameFor(id, names)).join("; ");
  const { access } = assembly;
  const times = (what: string, time: ThreePoint): Pairs => [
    [`${field}.${what}Low`, pen.number(time.low)],
    [`${field}.${what}Likely`, pen.number(time.likely)],
    [`${field}.${what}High`, pen.number(time.high)],
  ];
  return [
    [`${field}.name`, assembly.name],
    [`${field}.was`, assembly.name],
    [`${field}.sort`, assembly.sort],
    [`${field}.by`, access.by],
    ...(access.by === "fasteners"
      ? access.fasteners.map(({ kind, count }) => [`fasteners.${row}.${key(kind)}`, pen.number(count)] as const)
      : []),
    ...(access.by === "measured" ? [...times("remove", access.remove), ...times("refit", access.refit)] : []),
    ...(access.by === "standard"
      ? ([
          [`${field}.size`, access.size],
          [`${field}.mounting`, access.mounting],
        ] as const)
      : []),
    [`${field}.behind`, list(assembly.behind)],
    [`${field}.joined`, list(assembly.joined)],
    [`${field}.notes`, assembly.notes],
    ...(assembly.hazards ?? []).map((hazard) => [`hazards.${row}.${key(hazard)}`, "on"] as const),
    ...fieldsForCounts(`usual.${row}`, assembly.counts, pen),
    ...(assembly.worthDoing ?? []).flatMap((worth, index): Pairs => {
      const at = `worth.${row}-${index + 1}`;
      return [
        [`${at}.assembly`, nameFor(assembly.id, names)],
        [`${at}.operation`, nameFor(worth.operation, operationNames(pen.context))],
        [`${at}.part`, worth.partType === undefined ? undefined : nameFor(worth.partType, typeNames(pen.context))],
        [`${at}.count`, pen.number(worth.count)],
        [`${at}.reason`, worth.reason],
      ];
    }),
  ];
}

/** Counts by part type or cleaning operation, as cells of one row. */
export function fieldsForCounts(row: string, counts: Assembly["counts"], { context, number }: Pen): Pairs {
  const types = new Set(context.rateBook.partTypes.map(({ id }) => id));
  return Object.entries(counts ?? {}).map(
    ([id, count]) => [`${row}.${key(`${types.has(id) ? "p" : "o"}:${id}`)}`, number(count)] as const,
  );
}

function fieldsForBoards({ boards }: EstimateInput, pen: Pen): Pairs {
  const sums = new Map<string, number>();
  for (const { size, mounting, count } of boards ?? []) {
    const cell = `boards.${size}.${key(mounting)}`;
    sums.set(cell, (sums.get(cell) ?? 0) + count);
  }
  return [...sums].map(([cell, count]) => [cell, pen.number(count)] as const);
}
