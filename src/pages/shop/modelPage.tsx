/** One model's teardown map as a table. */

import type { Book } from "../../estimating/book.js";
import type { EarlierCount } from "../../estimating/closeout/earlierCounts.js";
import type { Assembly, Hazard, RateBook, TeardownMap } from "../../estimating/input.js";
import { listed } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { Said } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { Table } from "../frame/table.js";
import { EarlierTable } from "../models/earlierTable.js";
import { MapGraph } from "../models/graph/mapGraph.js";
import { heldBy, minutesText } from "../models/held.js";

export interface ModelPageProps {
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
