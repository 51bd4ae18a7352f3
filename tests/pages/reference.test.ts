import { describe, expect, it } from "vitest";
import { membersOf, type Schema, saysOf, shapeOf } from "../../src/pages/reference/schema.js";

const map: Schema = {
  type: "object",
  required: ["id"],
  properties: {
    id: { type: "string", minLength: 1, maxLength: 100 },
    screws: {
      type: "array",
      maxItems: 4,
      items: { type: "object", properties: { kind: { $ref: "#/components/schemas/Kind" } } },
    },
    notes: { type: "object", additionalProperties: { type: "string" } },
    part: { anyOf: [{ type: "object", properties: { type: { type: "string" } } }, { $ref: "#/components/schemas/PartKind" }] },
  },
};

describe("a schema, read as rows", () => {
  it("names what stands inside lists, tables by name and ways", () => {
    expect(membersOf(map).map(({ name, wanted, shape }) => [name, wanted, `${shape.words} ${shape.to ?? ""}`.trim()])).toEqual([
      ["id", true, "string"],
      ["screws", false, "list of object"],
      ["screws[].kind", false, "Kind"],
      ["notes", false, "by name: string"],
      ["part", false, "one of 2 ways"],
      ["part (way 1).type", false, "string"],
      ["part (way 2)", true, "PartKind"],
    ]);
  });

  it("tells limits, what is taken otherwise, and an example", () => {
    expect(saysOf(map.properties!.id!)).toBe("1 to 100 characters");
    expect(saysOf(map.properties!.screws!)).toBe("at most 4 entries");
    expect(saysOf({ type: "integer", minimum: 1, maximum: Number.MAX_SAFE_INTEGER, default: 50, description: "Rows" })).toBe(
      "Rows; 1 or more; otherwise 50",
    );
    expect(shapeOf({ enum: ["A4", "Letter"] }).words).toBe('"A4" or "Letter"');
  });
});
