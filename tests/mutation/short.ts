/** No search for the smallest case that fails: one is enough here, and there are a thousand mutants. */
import type fc from "fast-check";
import { vi } from "vitest";

type Real = typeof fc & { readonly default: typeof fc };
vi.mock("fast-check", async (original) => {
  const real = await original<Real>();
  const assert = ((property: never, asked?: object) =>
    real.assert(property, { ...asked, endOnFailure: true })) as typeof fc.assert;
  return { ...real, assert, default: { ...real.default, assert } };
});
