/** A teardown map from another shop: checked first, kept when told. */

import type { TeardownMap } from "../../estimating/input.js";
import { listed } from "../../wording/list.js";
import { FileBox, Tick } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { MapGraph } from "./graph/mapGraph.js";

export interface ImportView {
  readonly text: string;
  readonly leaveOut: boolean;
  readonly problems: readonly string[];
  /** What was read and can be kept. */
  readonly read?: {
    readonly maker: string;
    readonly model: string;
    readonly map: TeardownMap;
    readonly leftOut: readonly string[];
    /** The map on record it would take the place of. */
    readonly replaces?: { readonly id: string; readonly version: number; readonly assemblies: number };
  };
}

/** Nobody reads more at once. */
const MOST = 30;

export const ImportPage = ({ frame, view }: { frame: Frame; view: ImportView }) => {
  const { text, leaveOut, problems, read } = view;
  return (
    <Page frame={frame} title="Read in a map" at="/models" wrong={problems.length > 0}>
      <h1>Read in a map</h1>
      {problems.length > 0 ? (
        <section class="summary" id="summary" tabindex={-1} aria-labelledby="summary-name" autofocus>
          <div role="alert">
            <h2 id="summary-name">The map cannot be read in yet</h2>
            <ul>
              {problems.slice(0, MOST).map((problem) => (
                <li>
                  <a href="#text">{problem}</a>
                </li>
              ))}
            </ul>
            {problems.length > MOST ? <p>And {problems.length - MOST} more.</p> : null}
          </div>
        </section>
      ) : null}
      <form method="post" action="/models/import" enctype="multipart/form-data" novalidate>
        <FileBox
          name="file"
          label="Map file"
          hint={
            'A file that a model\'s page gave under "Download the map". Nothing is kept before you have seen what it would do.'
          }
          accept=".json,application/json"
        />
        <div class={problems.length > 0 ? "field field-wrong" : "field"}>
          <label for="text">Or its text</label>
          <textarea
            id="text"
            name="text"
            rows={read ? 4 : 10}
            spellcheck={false}
            {...(problems.length > 0 ? { "aria-invalid": "true" } : {})}
          >
            {text}
          </textarea>
        </div>
        <Tick
          name="leaveOut"
          value="on"
          label="Leave out counts and suggestions that the rate book here has no entry for"
          checked={leaveOut}
        />
        <p class="actions">
          <button type="submit" name="intent" value="check" class={read ? "" : "primary"}>
            Check it
          </button>
          <a href="/models">Cancel</a>
        </p>
        {read ? <Checked read={read} /> : null}
      </form>
    </Page>
  );
};

const Checked = ({ read }: { read: NonNullable<ImportView["read"]> }) => {
  const { maker, model, map, leftOut, replaces } = read;
  return (
    <section id="checked" aria-labelledby="checked-name" tabindex={-1}>
      <h2 id="checked-name">{`${maker} ${model}`}</h2>
      <p>
        {replaces
          ? `It would take the place of the map kept now (version ${replaces.version}, ${replaces.assemblies} assemblies). Estimates that were started from that one stay as they are.`
          : "It would be added as a new model."}{" "}
        {map.assemblies.length} assemblies.
        {leftOut.length > 0 ? ` Left out: ${listed(leftOut)}.` : ""}
      </p>
      <MapGraph map={map} />
      {replaces ? <input type="hidden" name="replaces" value={`${replaces.id} ${replaces.version}`} /> : null}
      <p class="actions">
        <button type="submit" name="intent" value="keep" class="primary">
          {replaces ? "Replace the map kept now" : "Keep it"}
        </button>
      </p>
    </section>
  );
};
