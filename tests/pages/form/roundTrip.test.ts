import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, Pricing } from "../../../src/estimating/input.js";
import { OFFER_STATES } from "../../../src/estimating/lists.js";
import { type Draft, draftFrom } from "../../../src/pages/form/draft.js";
import { fieldsFrom } from "../../../src/pages/form/fields.js";
import { fieldsFor } from "../../../src/pages/form/fieldsFor.js";
import { readForm } from "../../../src/pages/form/readForm.js";
import { anyInput } from "../../estimating/cast/anyInput.js";
import { runs } from "../../setup/runs.js";
import { contextOf, DEMOS, demoInput } from "../cast/bench.js";

const figure = (least: number, most: number) =>
  fc.integer({ min: least * 10_000, max: most * 10_000 }).map((value) => value / 10_000);
const leastMargin = fc.oneof(
  fc.constant({}),
  figure(0, 90).map((minimumMarginPercent) => ({ minimumMarginPercent })),
);
const anyPricing: fc.Arbitrary<Pricing | undefined> = fc.oneof(
  fc.constant(undefined),
  fc
    .tuple(fc.constantFrom("fixed price" as const, "time and parts with ceiling" as const), figure(50, 99), leastMargin)
    .map(([is, confidencePercent, least]): Pricing => ({ is, confidencePercent, ...least })),
  fc.tuple(figure(0, 200), leastMargin).map(([percent, least]): Pricing => ({ is: "expected cost plus", percent, ...least })),
);

const there = (input: EstimateInput, locale?: string) => {
  const context = contextOf(input, locale);
  return readForm(fieldsFor(input, context), context);
};

/** What `draftFrom` keeps, each text by its full name. */
function namesAndTexts(draft: Draft): Map<string, string> {
  const fields = new Map<string, string>();
  const walk = (at: object, path: string): void => {
    for (const [name, value] of Object.entries(at) as [string, string | object][]) {
      const full = path ? `${path}.${name}` : name;
      if (typeof value === "string") fields.set(full, value);
      else walk(value, full);
    }
  };
  walk(draft, "");
  return fields;
}

/** The same input with everything in one order, and nothing said that goes without saying. */
function settled(input: EstimateInput): unknown {
  const used = new Set(input.items.flatMap(({ part }) => (part && "kind" in part ? [part.kind] : [])));
  const sums = new Map<string, number>();
  for (const { size, mounting, count } of input.boards ?? []) {
    if (count > 0) sums.set(`${size} ${mounting}`, (sums.get(`${size} ${mounting}`) ?? 0) + count);
  }
  const ids = (list: readonly string[] = [], without: readonly string[] = []) =>
    [...new Set(list)].filter((id) => !without.includes(id)).sort();
  return JSON.parse(
    JSON.stringify({
      ...input,
      unit: { ...input.unit, hazards: [...(input.unit.hazards ?? [])].sort() },
      boards: [...sums].sort(),
      openAtNoCharge: ids(input.openAtNoCharge, input.alreadyOpen),
      alreadyOpen: ids(input.alreadyOpen),
      toOpen: ids(input.toOpen),
      items: [...input.items].sort((a, b) => (a.id < b.id ? -1 : 1)),
      kinds: (input.kinds ?? []).filter(({ id }) => used.has(id)),
      offers: (input.offers ?? []).filter(({ kind }) => used.has(kind)),
      map: {
        assemblies: (input.map?.assemblies ?? []).map((assembly) => ({
          ...assembly,
          behind: assembly.behind ?? [],
          joined: assembly.joined ?? [],
          hazards: [...(assembly.hazards ?? [])].sort(),
          access:
            assembly.access.by === "fasteners"
              ? { by: "fasteners", fasteners: [...assembly.access.fasteners].sort((a, b) => (a.kind < b.kind ? -1 : 1)) }
              : assembly.access,
        })),
        fitBefore: input.map?.fitBefore ?? [],
      },
      policy: Object.fromEntries(
        Object.entries(input.policy ?? {}).filter(([, value]) => value !== false && JSON.stringify(value) !== "{}"),
      ),
      paperwork: undefined,
    }),
  );
}

describe("a form and its input", () => {
  it.each(DEMOS.flatMap((name) => ["en-GB", "de-DE", "fr-FR"].map((locale) => [name, locale] as const)))(
    "write %s in %s and read the same again",
    (name, locale) => {
      const input = demoInput(name);
      const { input: again, problems } = there(input, locale);
      expect(problems).toEqual([]);
      expect(settled(again)).toEqual(settled(input));
      expect(again.paperwork?.owner).toEqual(input.paperwork?.owner);
    },
  );

  it("say the same whatever the input holds, and come to the same total", () => {
    fc.assert(
      fc.property(anyInput, anyPricing, fc.constantFrom("en-GB", "de-DE"), (any, pricing, locale) => {
        const input = { ...any, policy: { ...any.policy, ...(pricing && { pricing }) } };
        const { input: again, problems } = there(input, locale);
        expect(problems).toEqual([]);
        expect(settled(again)).toEqual(settled(input));
        // Boards counted in two places are one count in the form, and so one line of the sheet.
        const [one, two] = [estimate({ ...input, boards: again.boards ?? [] }), estimate(again)];
        expect(one.ok && two.ok && two.sheet.totals).toEqual(one.ok && one.sheet.totals);
      }),
      runs(150),
    );
  });

  it("lose no field, whatever was typed into it", () => {
    const name = fc.oneof(
      fc.constantFrom("owner.name", "unit.value", "terms.discount", "meta.undo"),
      fc
        .tuple(fc.constantFrom("assembly", "line"), fc.constantFrom("a1", "%31", "__proto__", "constructor"))
        .map(([head, row]) => `${head}.${row}.${head === "line" ? "reason" : "name"}`),
      fc
        .tuple(fc.constantFrom("cells", "fasteners"), fc.constantFrom("*", "toString"))
        .map(([head, row]) => `${head}.${row}.p:film`),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(name, fc.string({ unit: "binary" }))), (pairs) => {
        const fields = fieldsFrom(pairs);
        expect(new Map([...namesAndTexts(draftFrom(fields))].sort())).toEqual(new Map([...fields].sort()));
      }),
    );
  });

  it("never throw at fields nobody meant, and ignore those the form does not have", () => {
    const part = fc.constantFrom(
      "owner",
      "unit",
      "line",
      "cells",
      "a",
      "__proto__",
      "constructor",
      "name",
      "*",
      "",
      "boards",
      "x",
    );
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.array(part, { maxLength: 5 }).map((parts) => parts.join(".")),
            fc.string(),
          ),
        ),
        (pairs) => {
          const input = demoInput("plain-counts");
          const context = contextOf(input);
          const read = readForm(fieldsFrom(pairs), context);
          expect(() => estimate(read.input)).not.toThrow();
        },
      ),
    );
  });
});

describe("own words on a line", () => {
  it("come back from the form as they were said; where other work or another part is named, what it cannot take is asked about", () => {
    const [demo] = DEMOS;
    const base = demoInput(demo!);
    const plain = { count: 1, certainty: { is: "planned" } } as const;
    const type = base.rateBook.partTypes[0]!;
    const taxCategory = base.rateBook.tax.categories.at(-1)!.id;
    const services = [
      {
        id: "yearly",
        name: "Yearly service",
        price: 9000,
        work: [{ operation: base.rateBook.operations[0]!.id, count: 1 }],
        source: type.source,
      },
    ];
    const items = [
      { id: "a", own: { name: "Air it", price: 500, hazards: ["asbestos"], minutes: { low: 1, likely: 2, high: 3 } }, ...plain },
      { id: "b", service: "yearly", ...plain },
      { id: "e", own: { name: "Credit for the old motor", price: -2500, taxCategory }, ...plain },
      { id: "c", operation: "replace", part: { own: { name: "Voice chip", type: type.id, cost: 9500 } }, ...plain },
      { id: "d", operation: "replace", part: { type: type.id }, partPrice: { cost: 1, reason: "last one" }, ...plain },
    ] as const satisfies EstimateInput["items"];
    const discount = { amount: 500, reason: "waited long", taxCategory };
    const input: EstimateInput = { ...base, rateBook: { ...base.rateBook, services }, items, policy: { discount } };
    const context = contextOf(input);
    const read = readForm(fieldsFor(input, context), context).input;
    for (const item of items) expect(read.items).toContainEqual(item);
    expect(read.policy).toEqual({ discount });
    const changed = new Map(fieldsFor(input, context));
    changed.set("line.a.operation", base.rateBook.operations[0]!.name).set("line.c.part", type.name);
    const { input: after, problems } = readForm(changed, context);
    expect(after.items.find(({ id }) => id === "a")).not.toHaveProperty("own");
    expect(problems.map(({ name, field }) => [name, field])).toEqual([
      ["not of this", "line.a.price"],
      ["not of this", "line.a.ownHazards"],
      ["not of this", "line.c.like"],
    ]);
  });

  const word = fc.string({ minLength: 1, maxLength: 30 }).filter((text) => text === text.trim() && /^[\w ]+$/.test(text));
  const time = fc.tuple(fc.nat(90), fc.nat(90), fc.nat(90)).map((three) => {
    const [low = 0, likely = 0, high = 0] = [...three].sort((one, other) => one - other);
    return { low, likely, high };
  });
  const some = <T>(each: fc.Arbitrary<T>) => fc.option(each, { nil: undefined });
  const anyOwnLine = (input: EstimateInput) => {
    const { operations, labourClasses, partTypes } = input.rateBook;
    const name = fc.oneof(word, fc.constantFrom(operations[0]!.name, partTypes[0]!.name));
    const type = fc.constantFrom(...partTypes.map(({ id }) => id));
    const work = fc
      .record({
        name,
        minutes: some(time),
        price: some(fc.nat(100_000)),
        labourClass: some(fc.constantFrom(...labourClasses.map(({ id }) => id))),
      })
      .filter(({ minutes, price }) => minutes !== undefined || price !== undefined);
    const bought = fc.record({
      ...{ name, cost: fc.nat(100_000), type: some(type), source: some(word), state: some(fc.constantFrom(...OFFER_STATES)) },
      ...{
        leadDays: some(fc.nat(90)),
        packSize: some(fc.integer({ min: 1, max: 50 })),
        minimumPacks: some(fc.integer({ min: 1, max: 9 })),
      },
      shareGood: some(fc.integer({ min: 1, max: 100 }).map((share) => share / 100)),
    });
    const brought = fc.record({ name: word, type: some(type), broughtByOwner: fc.constant(true as const) });
    const part = fc.oneof(bought, brought).map((own) => ({ own }));
    return fc
      .record({
        own: work,
        count: fc.integer({ min: 1, max: 9 }),
        certainty: fc.constant({ is: "planned" } as const),
        taken: fc.oneof(
          fc.constant({}),
          part.map((own) => ({ part: own })),
          fc.record({
            part: type.map((id) => ({ type: id })),
            partPrice: fc.record({ cost: fc.nat(9999), reason: word, source: some(word), leadDays: some(fc.nat(90)) }),
          }),
        ),
      })
      .map(
        ({ taken, ...item }) => JSON.parse(JSON.stringify({ id: "own1", ...item, ...taken })) as EstimateInput["items"][number],
      );
  };

  it("say the same again, whatever they are, and even where they read like a name on a list", () => {
    const base = demoInput(DEMOS[0]!);
    fc.assert(
      fc.property(anyOwnLine(base), fc.constantFrom("en-GB", "de-DE"), (item, locale) => {
        const { input: again, problems } = there({ ...base, items: [item] }, locale);
        expect(problems).toEqual([]);
        expect(again.items).toEqual([item]);
      }),
      runs(200),
    );
  });
});
