/** The demo jobs, all invented, and random revisions of them. */
import fc from "fast-check";
import counts from "../../../fixtures/demo/plain-counts.json";
import organ from "../../../fixtures/demo/string-organ-keyboard.json";
import echo from "../../../fixtures/demo/tape-echo.json";
import amplifier from "../../../fixtures/demo/valve-amplifier.json";
import { type ChangeList, changesBetween } from "../../../src/estimating/agreement/changeList.js";
import { type Difference, difference } from "../../../src/estimating/agreement/difference.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { Certainty, EstimateInput, RateBook, WorkItem } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";

export const ORGAN = organ as unknown as EstimateInput;
export const ECHO = echo as unknown as EstimateInput;
export const AMPLIFIER = amplifier as unknown as EstimateInput;
export const COUNTS = counts as unknown as EstimateInput;
export const DEMO: readonly EstimateInput[] = [ORGAN, ECHO, AMPLIFIER, COUNTS];

export function sheetOf(input: EstimateInput): Sheet {
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
}

type Edit = (input: EstimateInput) => EstimateInput;

const at = <T>(list: readonly T[], place: number): T | undefined => (list.length === 0 ? undefined : list[place % list.length]);

const onItem =
  (place: number, edit: (item: WorkItem, input: EstimateInput) => WorkItem | undefined): Edit =>
  (input) => {
    const target = at(input.items, place);
    return { ...input, items: input.items.flatMap((item) => (item === target ? (edit(item, input) ?? []) : [item])) };
  };

const certainty: fc.Arbitrary<Certainty> = fc.oneof(
  fc.constant<Certainty>({ is: "planned" }),
  fc.constantFrom(0.1, 0.5).map((probability): Certainty => ({ is: "if found", probability })),
  fc.boolean().map((chosen): Certainty => ({ is: "optional", chosen })),
);

const itemEdit = (place: fc.Arbitrary<number>): fc.Arbitrary<Edit>[] => [
  place.map((i) => onItem(i, () => undefined)),
  fc.tuple(place, fc.nat(20)).map(([i, count]) => onItem(i, (item) => ({ ...item, count }))),
  fc.tuple(place, certainty).map(([i, next]) => onItem(i, (item) => ({ ...item, certainty: next }))),
  fc.tuple(place, fc.string({ maxLength: 8 })).map(([i, reason]) => onItem(i, (item) => ({ ...item, reason }))),
  fc.tuple(place, place).map(([i, j]) =>
    onItem(i, (item, { items }) => {
      const { operation, part } = at(items, j)!;
      const { part: _, ...rest } = item;
      return { ...rest, ...(operation !== undefined && { operation }), ...(part && { part }) };
    }),
  ),
  fc.tuple(place, place, fc.nat(9), certainty).map(
    ([i, j, n, next]): Edit =>
      (input) => {
        const model = at(input.items, i);
        if (!model) return input;
        const { assembly: _, ...rest } = model;
        const assembly = at(input.map?.assemblies ?? [], j)?.id;
        const item = {
          ...rest,
          id: `found-${n}-${input.items.length}`,
          certainty: next,
          reason: "found open",
          ...(assembly && { assembly }),
        };
        return {
          ...input,
          items: [
            ...input.items.slice(0, j % (input.items.length + 1)),
            item,
            ...input.items.slice(j % (input.items.length + 1)),
          ],
        };
      },
  ),
  place.map(
    (i): Edit =>
      (input) => {
        const cut = i % Math.max(1, input.items.length);
        return { ...input, items: [...input.items.slice(cut), ...input.items.slice(0, cut)] };
      },
  ),
];

const bookEdit =
  (edit: (book: RateBook) => RateBook): Edit =>
  (input) => ({ ...input, rateBook: edit(input.rateBook) });

const contextEdit = (place: fc.Arbitrary<number>): fc.Arbitrary<Edit>[] => [
  fc.tuple(place, fc.integer({ min: 1, max: 5000 })).map(
    ([i, price]): Edit =>
      (input) => {
        const target = at(input.offers ?? [], i);
        return target
          ? { ...input, offers: input.offers!.map((offer) => (offer === target ? { ...offer, price } : offer)) }
          : input;
      },
  ),
  place.map(
    (i): Edit =>
      (input) => {
        const target = at(input.offers ?? [], i);
        return target ? { ...input, offers: input.offers!.filter((offer) => offer !== target) } : input;
      },
  ),
  place.map(
    (i): Edit =>
      (input) => {
        const target = at(input.kinds ?? [], i);
        return target ? { ...input, kinds: input.kinds!.filter((kind) => kind !== target) } : input;
      },
  ),
  fc.tuple(place, fc.integer({ min: 0, max: 20_000 })).map(([i, ratePerHour]) =>
    bookEdit((book) => ({
      ...book,
      version: book.version + 1,
      labourClasses: book.labourClasses.map((each) => (each === at(book.labourClasses, i) ? { ...each, ratePerHour } : each)),
    })),
  ),
  place.map((i) =>
    bookEdit((book) => ({ ...book, operations: book.operations.filter((each) => each !== at(book.operations, i)) })),
  ),
  fc
    .tuple(fc.boolean(), fc.constantFrom("line", "group", "document"), fc.constantFrom(0, 7.7, 25))
    .map(([included, level, percent]) =>
      bookEdit((book) => ({
        ...book,
        tax: {
          ...book.tax,
          included,
          rounding: { level: level as "line" | "group" | "document", mode: "half up" },
          categories: book.tax.categories.map((each, index) => (index === 0 ? { ...each, percent } : each)),
        },
      })),
    ),
  place.map(
    (i): Edit =>
      (input) => ({ ...input, unit: { ...input.unit, grade: at(input.rateBook.grades, i)!.id } }),
  ),
  place.map(
    (i): Edit =>
      (input) => ({ ...input, unit: { ...input.unit, found: `text ${i}` } }),
  ),
  place.map(
    (i): Edit =>
      (input) => {
        if (!input.map) return input;
        const target = at(input.map.assemblies, i);
        return { ...input, map: { ...input.map, assemblies: input.map.assemblies.filter((each) => each !== target) } };
      },
  ),
  place.map(
    (i): Edit =>
      (input) => {
        const front = at(input.map?.assemblies ?? [], i);
        if (!input.map || !front) return input;
        const fresh = {
          id: `fresh-${input.map.assemblies.length}`,
          name: "Fresh board",
          sort: "board",
          access: front.access,
          behind: [front.id],
        } as const;
        return { ...input, map: { ...input.map, assemblies: [...input.map.assemblies, fresh] } };
      },
  ),
  fc.tuple(place, fc.constantFrom("alreadyOpen", "toOpen", "openAtNoCharge")).map(
    ([i, list]): Edit =>
      (input) => {
        const id = at(input.map?.assemblies ?? [], i)?.id;
        return id === undefined ? input : { ...input, [list]: [...new Set([...(input[list as "toOpen"] ?? []), id])] };
      },
  ),
  fc.nat(3).map(
    (count): Edit =>
      (input) => ({ ...input, boards: [...(input.boards ?? []), { size: "small", mounting: "on top", count }] }),
  ),
  fc.constant<Edit>(({ boards: _, ...rest }) => rest),
  fc
    .record(
      {
        rush: fc.boolean(),
        storageDays: fc.nat(9),
        prepaid: fc.nat(9999),
        profile: fc.constantFrom("us-ca", "ca-on", "eu-form"),
      },
      { requiredKeys: [] },
    )
    .map(
      (policy): Edit =>
        (input) => ({ ...input, policy: { ...input.policy, ...policy } }),
    ),
  fc
    .oneof(
      fc.nat(60).map((percent) => ({ percent, reason: "regular" })),
      fc.nat(9999).map((amount) => ({ amount, reason: "regular" })),
    )
    .map(
      (discount): Edit =>
        (input) => ({ ...input, policy: { ...input.policy, discount } }),
    ),
  fc.constant<Edit>(({ policy: _, ...rest }) => rest),
  fc.constant<Edit>((input) => ({ ...input, policy: { ...input.policy, scarcityByType: { electrolytic: "scarce" } } })),
  fc.constant<Edit>(({ paperwork: _, ...rest }) => rest),
  fc.nat(9).map(
    (revision): Edit =>
      (input) => ({ ...input, paperwork: { ...input.paperwork, revision } }),
  ),
  fc.nat(27).map(
    (d): Edit =>
      (input) => ({ ...input, asOf: `2027-02-${String(d + 1).padStart(2, "0")}` }),
  ),
];

const edits = (() => {
  const place = fc.nat(200);
  return fc.array(fc.oneof(...itemEdit(place), ...contextEdit(place)), { minLength: 1, maxLength: 6 });
})();

/** A job and a later state of it; either may have problems, such as work on an assembly that is gone. */
export const revision: fc.Arbitrary<{ before: EstimateInput; after: EstimateInput }> = fc
  .tuple(fc.constantFrom(...DEMO), edits, edits)
  .map(([job, first, second]) => {
    const apply = (input: EstimateInput, list: readonly Edit[]) => list.reduce((next, edit) => edit(next), input);
    const before = apply(job, first.slice(0, 2));
    const after = apply(before, second);
    // A counterexample is told by what changed: the whole inputs fill a screen a hundred times over.
    return { before, after, [fc.toStringMethod]: () => JSON.stringify(withoutBook(difference(before, after))) };
  });

const withoutBook = ({ context: { rateBook, ...context }, ...rest }: Difference) => ({
  ...rest,
  context: { ...context, ...(rateBook && { rateBook: "changed" }) },
});

/** Two inputs priced and compared; undefined where one has problems. */
export function changeList(before: EstimateInput, after: EstimateInput): ChangeList | undefined {
  const [was, is] = [estimate(before), estimate(after)];
  return was.ok && is.ok ? changesBetween({ input: before, sheet: was.sheet }, { input: after, sheet: is.sheet }) : undefined;
}
