/** What earlier jobs of the model came to. */

import type { EarlierCount } from "../../estimating/closeout/earlierCounts.js";
import type { RateBook } from "../../estimating/input.js";
import { decimal } from "../../wording/figures.js";
import { figures, Table } from "../frame/table.js";

interface Props {
  readonly earlier: readonly EarlierCount[];
  readonly jobs: number;
  readonly rateBook: RateBook;
  readonly locale: string;
}

export const EarlierTable = ({ earlier, jobs, rateBook, locale }: Props) => (
  <section aria-labelledby="earlier-name">
    <h2 id="earlier-name">Counts of earlier jobs</h2>
    {jobs === 0 || earlier.length === 0 ? (
      <p class="empty">
        No job of this model was issued yet. When one is, the counts of its estimate stand here, and can be taken into a new one.
      </p>
    ) : (
      <>
        <p class="hint">
          From the estimates issued for {jobs === 1 ? "one job" : `the latest ${jobs} jobs`} of this model. A new estimate takes
          them when you ask it to.
        </p>
        <Table
          class="map-counts"
          caption="Counts of earlier jobs"
          scroll
          heads={["Assembly", "Work or part", ...figures("Median", "Range", "Jobs")]}
          rows={earlier.map((one) => [
            one.assembly ?? "Whole unit",
            workName(one, rateBook),
            decimal(String(one.median), locale, { maximumFractionDigits: 1 }),
            rangeText(one),
            `${one.jobs} of ${one.of}`,
          ])}
        />
      </>
    )}
  </section>
);

export const rangeText = ({ least, most }: Pick<EarlierCount, "least" | "most">): string =>
  least === most ? String(least) : `${least} to ${most}`;

/** A replacement goes by its part, other work by its name and the part it takes. */
export function workName({ operation, partType }: Pick<EarlierCount, "operation" | "partType">, book: RateBook): string {
  const work = book.operations.find(({ id }) => id === operation);
  const part = partType === undefined ? undefined : (book.partTypes.find(({ id }) => id === partType)?.name ?? partType);
  if (part !== undefined && work?.sort === "replacement") return part;
  return [work?.name ?? operation, part].filter(Boolean).join(", ");
}
