/** The models that have a teardown map. */
import { type Frame, Page } from "../frame/layout.js";
import { Table, unseen } from "../frame/table.js";

interface ModelRow {
  readonly id: string;
  readonly maker: string;
  readonly model: string;
  readonly assemblies: number;
}

export const ModelList = ({ frame, rows }: { frame: Frame; rows: readonly ModelRow[] }) => (
  <Page frame={frame} title="Models" at="/models">
    <div class="heading">
      <h1>Models</h1>
      <p class="actions">
        <a class="button primary" href="/models/new">
          New map
        </a>
        <a class="button" href="/models/import">
          Read in a map
        </a>
      </p>
    </div>
    {rows.length === 0 ? (
      <div class="empty">
        <p>
          A model's teardown map says what holds each assembly and what must come off first. <a href="/models/new">Draw one</a>,{" "}
          <a href="/models/import">read in</a> what another shop drew, or sketch it while you write the first{" "}
          <a href="/estimates/new">estimate</a> and tick "Keep this map": the next unit of that model starts from it.
        </p>
      </div>
    ) : (
      <Table
        class="list"
        caption="Models with a teardown map"
        heads={["Maker and model", "Map", unseen("Start")]}
        rows={rows.map(({ id, maker, model, assemblies }) => [
          <a href={`/models/${id}`}>{`${maker} ${model}`}</a>,
          `${assemblies} assemblies`,
          <a href={`/estimates/new?model=${encodeURIComponent(id)}`}>
            New estimate<span class="unseen">{` for ${maker} ${model}`}</span>
          </a>,
        ])}
      />
    )}
  </Page>
);
