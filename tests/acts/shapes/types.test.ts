import type { z } from "@hono/zod-openapi";
import { describe, expect, it } from "vitest";
import type { bareInput, estimateInput, paperwork } from "../../../src/acts/shapes/estimateInput.js";
import { offer, type partKind } from "../../../src/acts/shapes/part.js";
import type { rateBook } from "../../../src/acts/shapes/rateBook.js";
import type { sheet } from "../../../src/acts/shapes/sheet.js";
import type { teardownMap } from "../../../src/acts/shapes/teardownMap.js";
import type { EstimateInput, Offer, Paperwork, PartKind, RateBook, TeardownMap } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";

/** A type with `readonly` taken off, so that both sides are told apart by their keys and values alone. */
type Loose<T> = T extends readonly (infer Item)[]
  ? Loose<Item>[]
  : T extends object
    ? { -readonly [Key in keyof T]: Loose<T[Key]> }
    : T;
/** true only when the types are identical: optional is not the same as `undefined`, a wider union is not the same. */
type Identical<A, B> = (<X>() => X extends Loose<A> ? 1 : 2) extends <X>() => X extends Loose<B> ? 1 : 2 ? true : false;
type Shape<Schema extends z.ZodType, Wanted> = Identical<z.infer<Schema>, Wanted>;

/** Decided by `npm run types`: a difference in either direction does not compile. */
const same: readonly true[] = [
  true satisfies Shape<typeof estimateInput, EstimateInput>,
  true satisfies Shape<typeof bareInput, Omit<EstimateInput, "rateBook">>,
  true satisfies Shape<typeof paperwork, Paperwork>,
  true satisfies Shape<typeof offer, Offer>,
  true satisfies Shape<typeof partKind, PartKind>,
  true satisfies Shape<typeof rateBook, RateBook>,
  true satisfies Shape<typeof teardownMap, TeardownMap>,
  true satisfies Shape<typeof sheet, Sheet>,
];
const different: readonly false[] = [
  false satisfies Identical<{ a?: string }, { a?: string | undefined }>,
  false satisfies Identical<{ a: string }, { a: string; b?: string }>,
  false satisfies Identical<{ a: "x" }, { a: "x" | "y" }>,
  false satisfies Shape<typeof offer, PartKind>,
];

describe("the API's shapes", () => {
  it("are the engine's types key for key, in both directions", () => {
    expect([same.length, different.length]).toEqual([8, 4]);
  });

  it("refuse a key they do not know and name it", () => {
    const answer = offer.safeParse({ id: "o", colour: "red" });
    expect(answer.error?.issues).toContainEqual(expect.objectContaining({ code: "unrecognized_keys", keys: ["colour"] }));
  });
});
