/** The teardown map of a model, drawn and to be changed. Without script every button works. */

import { HAZARDS } from "../../estimating/lists.js";
import { capital } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { Conflict, type ConflictView } from "../intake/conflict.js";
import { Carried, Note, Text, Tick } from "../intake/field.js";
import { FitTable, WorthTable } from "../intake/teardownTables.js";
import { EditorTable } from "./editorTable.js";
import { MapGraph } from "./graph/mapGraph.js";
import type { ModelView } from "./view.js";

interface EditorProps {
  readonly frame: Frame;
  readonly script: string;
  readonly view: ModelView;
  readonly heading: string;
  readonly say?: string | undefined;
  readonly conflict?: ConflictView | undefined;
  /** The model that has the name already. */
  readonly standing?: { readonly name: string; readonly href: string } | undefined;
}

export const EditorPage = ({ frame, script, view, heading, say, conflict, standing }: EditorProps) => (
  <Page frame={frame} title={heading} at="/models" wrong={view.errors.size > 0 || conflict !== undefined} script={script} wide>
    <h1>{heading}</h1>
    <ErrorSummary errors={view.errors} />
    {conflict ? <Conflict conflict={conflict} view={view} what="map" /> : null}
    <Said say={say} />
    {standing ? (
      <p>
        <a href={standing.href}>The map of {standing.name} that is on record</a>
      </p>
    ) : null}
    <form method="post" action={view.surroundings.action} id="map-form" novalidate>
      {/* Enter in a field presses the first button: it must be a harmless one. */}
      <button type="submit" name="intent" value="redraw" class="unseen" tabindex={-1}>
        Redraw
      </button>
      {["meta.version", "meta.token", "meta.undo", "meta.undone"].map((name) => (
        <Carried view={view} name={name} />
      ))}
      {view.fields.has("meta.undo") ? (
        <p class="undo" id="undo">
          Removed: {view.fields.get("meta.undone")}.{" "}
          <button type="submit" name="intent" value="put back" id="put-back">
            Put it back
          </button>
        </p>
      ) : null}
      <div class="columns">
        <Text view={view} name="unit.maker" size="word" />
        <Text view={view} name="unit.model" size="word" />
      </div>
      <h2>Drawing</h2>
      <div id="graph-place">
        {view.drawn.assemblies.length > 0 ? (
          <MapGraph map={view.drawn} unknown={view.unknown} />
        ) : (
          <p class="empty">Name an assembly below and press Redraw: it is drawn here.</p>
        )}
      </div>
      <p class="actions">
        <button type="submit" name="intent" value="redraw" id="redraw">
          Redraw
        </button>
      </p>
      <EditorTable view={view} />
      <FitTable view={view} />
      <WorthTable view={view} />
      <details class="fold" open={view.errors.has("model.notes")}>
        <summary>Hazards and notes of the whole model</summary>
        <fieldset class="ticks">
          <legend>Hazards</legend>
          {HAZARDS.map((hazard) => (
            <Tick view={view} name={`caution.${key(hazard)}`} label={capital(hazard)} />
          ))}
        </fieldset>
        <Note view={view} name="model.notes" />
      </details>
      <p class="actions">
        <button type="submit" name="intent" value="save" class="primary" data-save>
          Save the map
        </button>
        <a href="/models">Cancel</a>
      </p>
    </form>
  </Page>
);
