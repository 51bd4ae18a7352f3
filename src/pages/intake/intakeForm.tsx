/**
 * The form, part by part, and in one field what of it is not drawn. The same function draws it on the server and in the browser, where
 * only parts that read otherwise are drawn again.
 */
import { namesIn, REST, restOf } from "../form/rest.js";
import { BoardsPart } from "./boards.js";
import { DeskPart } from "./desk.js";
import { Carried } from "./field.js";
import { GridPart } from "./grid.js";
import { MapPart } from "./teardown.js";
import { TermsPart } from "./terms.js";
import { Till } from "./till.js";
import { HazardsPart, IntakePart, SeenBefore, UnitPart } from "./unit.js";
import type { IntakeView } from "./view.js";

const PARTS = {
  undone: ({ view }: { view: IntakeView }) =>
    view.fields.has(`line.${view.fields.get("meta.added")}.count`) ? (
      <p class="undo" id="undo">
        Added: {view.fields.get(`line.${view.fields.get("meta.added")}.operation`)}.{" "}
        <button type="submit" name="intent" value={`remove line:${view.fields.get("meta.added")}`}>
          Take it out again
        </button>
      </p>
    ) : view.fields.has("meta.undo") ? (
      <p class="undo" id="undo">
        Removed: {view.fields.get("meta.undone")}.{" "}
        <button type="submit" name="intent" value="put back" id="put-back">
          Put it back
        </button>
      </p>
    ) : null,
  unit: UnitPart,
  seen: SeenBefore,
  grid: GridPart,
  boards: BoardsPart,
  desk: DeskPart,
  intake: IntakePart,
  hazards: HazardsPart,
  map: MapPart,
  terms: TermsPart,
  till: Till,
};

/** In fields of their own, for those who look for them there. */
const CARRIED = ["meta.version", "meta.token", "meta.drawn", "meta.draft", "meta.draftVersion"];

/** Id -> HTML. */
export const formParts = (view: IntakeView): ReadonlyMap<string, string> =>
  new Map(Object.entries(PARTS).map(([id, Part]) => [`drawn-${id}`, String(<Part view={view} />)]));

export const IntakeForm = ({ view }: { view: IntakeView }) => {
  const parts = formParts(view);
  const drawn = new Set([...CARRIED, ...namesIn([...parts.values()].join(""))]);
  return (
    <form method="post" action={view.surroundings.action} id="intake" novalidate>
      {/* Enter in a field presses the first button: it must be a harmless one. */}
      <button type="submit" name="intent" value="recalculate" class="unseen" tabindex={-1}>
        Recalculate
      </button>
      {CARRIED.map((name) => (
        <Carried view={view} name={name} />
      ))}
      <input type="hidden" name={REST} value={restOf(view.fields, drawn)} />
      {[...parts].map(([id, html]) => (
        <div id={id} class="drawn" dangerouslySetInnerHTML={{ __html: html }} />
      ))}
    </form>
  );
};
