/** One model's teardown map as a table. */
import type { Assembly, Hazard, RateBook, TeardownMap } from "../../estimating/input.js";
import { duration, fastenersText, listed } from "../../wording/index.js";
import { key } from "../form/fields.js";
import { type Frame, Page } from "../frame/layout.js";

export interface ModelPageProps {
  readonly frame: Frame;
  readonly id: string;
  readonly maker: string;
  readonly model: string;
  readonly map: TeardownMap;
  readonly hazards?: readonly Hazard[];
  readonly notes?: string;
  readonly rateBook: RateBook;
  readonly locale: string;
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
      {notes ? <p>{notes}</p> : null}
      {hazards.length > 0 ? <p>Hazards: {listed(hazards)}.</p> : null}
      <h2>Assemblies</h2>
      <section class="scroll" tabindex={0} aria-label="Assemblies of this model">
        <table class="list map">
          <caption class="unseen">Teardown map</caption>
          <thead>
            <tr>
              <th scope="col">Assembly</th>
              <th scope="col">Held by</th>
              <th scope="col">Behind</th>
              <th scope="col">Comes out with</th>
              <th scope="col">Usual counts</th>
            </tr>
          </thead>
          <tbody>
            {map.assemblies.map((assembly) => (
              <tr id={key(assembly.id)}>
                <th scope="row">
                  {assembly.name}
                  <div class="hint">{assembly.sort}</div>
                </th>
                <td>
                  {heldBy(assembly, props.locale)}
                  {assembly.notes ? <div class="hint">{assembly.notes}</div> : null}
                  {assembly.hazards?.length ? <div class="hint">Caution: {listed(assembly.hazards)}</div> : null}
                </td>
                <td>{listed((assembly.behind ?? []).map(nameOf)) || "–"}</td>
                <td>{listed((assembly.joined ?? []).map(nameOf)) || "–"}</td>
                <td>{counts(assembly, props.rateBook) || "–"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
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
    </Page>
  );
};

function heldBy({ access }: Assembly, locale: string): string {
  if (access.by === "fasteners") return fastenersText(access.fasteners) || "nothing";
  if (access.by === "standard") return `By standard: ${access.size} board ${access.mounting}`;
  return `Measured: ${duration(access.remove.likely, locale)} off, ${duration(access.refit.likely, locale)} on`;
}

function counts({ counts = {} }: Assembly, book: RateBook): string {
  const name = (id: string) => [...book.partTypes, ...book.operations].find((one) => one.id === id)?.name ?? id;
  return Object.entries(counts)
    .map(([id, count]) => `${name(id)} × ${count}`)
    .join(", ");
}
