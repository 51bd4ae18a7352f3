/** The newest version of each rate book: every rate and every time standard, with where it comes from. */
import type { Provenance, ThreePoint } from "../../estimating/input.js";
import { rateBooks } from "../../records/rateBooks.js";
import { amount, type Columns, sheet } from "./columns.js";
import { pagesOf } from "./stream.js";

interface Standard {
  readonly book: string;
  readonly of: string;
  readonly id: string;
  readonly name: string;
  readonly rate?: { readonly minor: number; readonly currency: string };
  readonly minutes?: ThreePoint | undefined;
  readonly source: Provenance;
}

const COLUMNS: Columns<Standard> = {
  rateBook: ({ book }) => book,
  of: ({ of }) => of,
  id: ({ id }) => id,
  name: ({ name }) => name,
  ratePerHour: ({ rate }) => rate && amount(rate.minor, rate.currency),
  currency: ({ rate }) => rate?.currency,
  lowMinutes: ({ minutes }) => minutes?.low,
  likelyMinutes: ({ minutes }) => minutes?.likely,
  highMinutes: ({ minutes }) => minutes?.high,
  basis: ({ source }) => source.basis,
  note: ({ source }) => source.note,
};

export const standards = sheet(COLUMNS, async function* (db) {
  for await (const page of pagesOf(rateBooks.list)(db))
    for (const { id, version, book } of page) {
      const label = { book: `${id} version ${version}` };
      const { leads } = book;
      yield [
        ...book.labourClasses.map((each) => ({
          ...{ ...label, of: "labour class", id: each.id, name: each.name, source: each.source },
          rate: { minor: each.ratePerHour, currency: book.currency },
        })),
        ...book.operations.flatMap(({ id: of, name, setup, unit, source }) => [
          { ...label, of: "operation, set-up", id: of, name, minutes: setup, source },
          { ...label, of: "operation, each", id: of, name, minutes: unit, source },
        ]),
        ...book.partTypes.map((each) => ({ ...label, of: "part type", ...each })),
        ...book.fasteners.flatMap(({ kind, remove, refit, source }) => [
          { ...label, of: "fastener, remove", id: kind, name: kind, minutes: remove, source },
          { ...label, of: "fastener, refit", id: kind, name: kind, minutes: refit, source },
        ]),
        ...book.accessStandards.flatMap(({ size, mounting, remove, refit, source }) => {
          const name = `${size}, ${mounting}`;
          return [
            { ...label, of: "board, remove", id: name, name, minutes: remove, source },
            { ...label, of: "board, refit", id: name, name, minutes: refit, source },
          ];
        }),
        ...(["desolder", "clear", "fit", "solder", "inspect"] as const).map((step) => ({
          ...{ ...label, of: "lead", id: step, name: step, minutes: leads[step], source: leads.source },
        })),
      ];
    }
});
