/** Values on the wire of the libSQL HTTP protocol, and in a row. */
export type Value =
  | { readonly type: "null" }
  | { readonly type: "integer"; readonly value: string }
  | { readonly type: "float"; readonly value: number }
  | { readonly type: "text"; readonly value: string }
  | { readonly type: "blob"; readonly base64: string };

export function fromWire(value: Value): unknown {
  switch (value.type) {
    case "null":
      return null;
    case "integer":
      return BigInt(value.value);
    case "blob":
      return Buffer.from(value.base64, "base64");
    default:
      return value.value;
  }
}

export function toWire(value: unknown): Value {
  if (value === null || value === undefined) return { type: "null" };
  if (typeof value === "bigint") return { type: "integer", value: String(value) };
  if (typeof value === "number") return { type: "float", value };
  if (typeof value === "string") return { type: "text", value };
  return { type: "blob", base64: Buffer.from(value as Uint8Array).toString("base64") };
}
