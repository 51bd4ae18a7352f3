/** A quarter of the random cases, and no search for the smallest that fails: one is enough here, and there are a thousand mutants. */
import type fc from "fast-check";
import { vi } from "vitest";

type Real = typeof fc & { readonly default: typeof fc };
vi.mock("fast-check", async (original) => {
  const real = await original<Real>();
  const assert = ((property: never, asked?: { readonly numRuns?: number }) =>
    real.assert(property, { ...asked, endOnFailure: true, numRuns: Math.ceil((asked?.numRuns ?? 100) / 4) })) as typeof fc.assert;
  return { ...real, assert, default: { ...real.default, assert } };
});
