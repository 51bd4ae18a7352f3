/** One model's teardown map as a table. */
import type { Book } from "../../estimating/book.js";
import type { EarlierCount } from "../../estimating/closeout/earlierCounts.js";
import type { Assembly, Hazard, RateBook, TeardownMap } from "../../estimating/input.js";
import { decimal } from "../../wording/figures.js";
import { listed } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { Said } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { MapGraph } from "./graph/mapGraph.js";
import { heldBy, minutesText } from "./view.js";

interface ModelPageProps {
  readonly frame: Frame;
  readonly id: string;
  readonly maker: string;
  readonly model: string;
  readonly map: TeardownMap;
  readonly hazards?: readonly Hazard[];
  readonly notes?: string;
  readonly rateBook: RateBook;
  readonly book: Book;
  readonly earlier: readonly EarlierCount[];
  /** Issued jobs of this model that the counts come from. */
  readonly jobs: number;
  readonly locale: string;
  readonly say?: string | undefined;
}

export const ModelPage = (props: ModelPageProps) => {
  const { frame, id, maker, model, map, hazards = [], notes } = props;
  const nameOf = (id: string) => map.assemblies.find((assembly) => assembly.id === id)?.name ?? id;
  return (
    <Page frame={frame} title={`${maker} ${model}`} at="/models">
      <div class="heading">
        <h1>{`${maker} ${model}`}</h1>
        <a class="button primary screen" href={`/estimates/new?model=${encodeURIComponent(id)}`}>
          New estimate from this map
        </a>
      </div>
      <Said say={props.say} />
      <p class="actions screen">
        <a class="button" href={`/models/${id}/edit`}>
          Change the map
        </a>
        <a class="button" href={`/models/new?from=${encodeURIComponent(id)}`}>
          Copy it to another model
        </a>
        <a class="button" href={`/models/${id}.json`}>
          Download the map
        </a>
      </p>
      {notes ? <p>{notes}</p> : null}
      {hazards.length > 0 ? <p>Hazards: {listed(hazards)}.</p> : null}
      <MapGraph map={map} />
      <h2>Assemblies</h2>
      <Table
        class="list map"
        caption="Teardown map"
        scroll="Assemblies of this model"
        heads={["Assembly", "Held by", "Minutes", "Comes off first", "Comes out with", "Usual counts"]}
        rows={map.assemblies.map((assembly) => ({
          id: key(assembly.id),
          cells: [
            <>
              {assembly.name}
              <div class="hint">{assembly.sort}</div>
            </>,
            <>
              {heldBy(assembly.access)}
              {assembly.notes ? <div class="hint">{assembly.notes}</div> : null}
              {assembly.hazards?.length ? <div class="hint">Caution: {listed(assembly.hazards)}</div> : null}
            </>,
            minutesText(assembly.access, props.book, props.locale) ?? "–",
            listed((assembly.behind ?? []).map(nameOf)) || "–",
            listed((assembly.joined ?? []).map(nameOf)) || "–",
            counts(assembly, props.rateBook) || "–",
          ],
        }))}
      />
      {map.fitBefore?.length ? (
        <>
          <h2>Refit order</h2>
          <ul>
            {map.fitBefore.map(({ first, then, why }) => (
              <li>
                {nameOf(first)} goes back before {nameOf(then)}
                {why ? `: ${why}` : ""}.
              </li>
            ))}
          </ul>
        </>
      ) : null}
      <EarlierTable earlier={props.earlier} jobs={props.jobs} rateBook={props.rateBook} locale={props.locale} />
    </Page>
  );
};

function counts({ counts = {} }: Assembly, book: RateBook): string {
  const name = (id: string) => [...book.partTypes, ...book.operations].find((one) => one.id === id)?.name ?? id;
  return Object.entries(counts)
    .map(([id, count]) => `${name(id)} × ${count}`)
    .join(", ");
}

/** What earlier jobs of the model came to. */
interface Props {
  readonly earlier: readonly EarlierCount[];
  readonly jobs: number;
  readonly rateBook: RateBook;
  readonly locale: string;
}

const EarlierTable = ({ earlier, jobs, rateBook, locale }: Props) => (
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

const rangeText = ({ least, most }: Pick<EarlierCount, "least" | "most">): string =>
  least === most ? String(least) : `${least} to ${most}`;

/** A replacement goes by its part, other work by its name and the part it takes. */
function workName({ operation, partType }: Pick<EarlierCount, "operation" | "partType">, book: RateBook): string {
  const work = book.operations.find(({ id }) => id === operation);
  const part = partType === undefined ? undefined : (book.partTypes.find(({ id }) => id === partType)?.name ?? partType);
  if (part !== undefined && work?.sort === "replacement") return part;
  return [work?.name ?? operation, part].filter(Boolean).join(", ");
}
