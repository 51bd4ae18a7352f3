/** A JSON Schema of the OpenAPI document as rows a person reads: what stands within a row without a name of its own follows it. */
export interface Schema {
  readonly $ref?: string;
  readonly type?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly additionalProperties?: boolean | Schema;
  readonly oneOf?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly default?: unknown;
  readonly example?: unknown;
  readonly description?: string;
  readonly format?: string;
  readonly pattern?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minimum?: number;
  readonly maximum?: number;
}

/** 'list of' and the schema it leads to. */
export interface Shape {
  readonly words: string;
  readonly to?: string;
}

export interface Member {
  readonly name: string;
  readonly wanted: boolean;
  readonly shape: Shape;
  readonly says: string;
}

const nameIn = (ref: string): string => ref.slice(ref.lastIndexOf("/") + 1);

/** A reference with a remark beside it is written as both at once. */
const bare = (schema: Schema): Schema => schema.allOf?.find(({ $ref }) => $ref !== undefined) ?? schema;

const ways = (schema: Schema): readonly Schema[] => schema.oneOf ?? schema.anyOf ?? [];

export function shapeOf(given: Schema): Shape {
  const schema = bare(given);
  if (schema.$ref) return { words: "", to: nameIn(schema.$ref) };
  if (schema.enum) return { words: schema.enum.map((value) => JSON.stringify(value)).join(" or ") };
  if (ways(schema).length > 0) return { words: `one of ${ways(schema).length} ways` };
  if (schema.items) return leading("list of", shapeOf(schema.items));
  if (typeof schema.additionalProperties === "object") return leading("by name:", shapeOf(schema.additionalProperties));
  return { words: schema.format ? `${schema.type ?? "text"}, ${schema.format}` : (schema.type ?? "anything") };
}

const leading = (words: string, { words: rest, to }: Shape): Shape => ({
  words: `${words} ${rest}`.trim(),
  ...(to && { to }),
});

/** The members of an object, and of what stands inside it: `fasteners[].kind`, `profileTerms.*`, `part (way 2).kind`. */
export function membersOf(given: Schema, under = ""): readonly Member[] {
  const schema = bare(given);
  if (schema.$ref) return [];
  if (schema.items) return membersOf(schema.items, `${under}[]`);
  if (typeof schema.additionalProperties === "object") return membersOf(schema.additionalProperties, `${under}.*`);
  const several = ways(schema);
  if (several.length > 0)
    return several.flatMap((way, index) => {
      const at = `${under} (way ${index + 1})`.trim();
      const within = membersOf(way, at);
      return within.length > 0 ? within : [row(at, way, true)];
    });
  return Object.entries(schema.properties ?? {}).flatMap(([key, member]) => {
    const at = under ? `${under}.${key}` : key;
    return [row(at, member, schema.required?.includes(key) ?? false), ...membersOf(member, at)];
  });
}

const row = (name: string, schema: Schema, wanted: boolean): Member => ({
  name,
  wanted,
  shape: shapeOf(schema),
  says: saysOf(schema),
});

/** Description, limits, default and example. */
export function saysOf(schema: Schema): string {
  const within = schema.items ?? schema;
  return [
    schema.description,
    range(schema.minItems, schema.maxItems, "entries"),
    range(within.minLength, within.maxLength, "characters"),
    range(within.minimum, within.maximum, ""),
    within.pattern && `matches ${within.pattern}`,
    schema.default !== undefined && `otherwise ${JSON.stringify(schema.default)}`,
    schema.example !== undefined && `such as ${JSON.stringify(schema.example)}`,
  ]
    .filter(Boolean)
    .join("; ");
}

/** The largest whole number JSON carries safely is no limit to tell. */
const given = (limit: number | undefined) => (Math.abs(limit ?? 0) < Number.MAX_SAFE_INTEGER ? limit : undefined);

function range(from: number | undefined, to: number | undefined, what: string): string | undefined {
  const [least, most] = [given(from), given(to)];
  if (least === undefined && most === undefined) return undefined;
  const words = most === undefined ? `${least} or more` : least === undefined ? `at most ${most}` : `${least} to ${most}`;
  return `${words} ${what}`.trim();
}
