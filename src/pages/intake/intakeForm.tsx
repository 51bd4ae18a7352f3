/** The whole form, and beside it what it comes to. The same function draws it on the server and in the browser. */
import { BoardsPart } from "./boards.js";
import { Carried } from "./field.js";
import { GridPart } from "./grid.js";
import { LinesPart } from "./lines.js";
import { TeardownPart } from "./teardown.js";
import { TermsPart } from "./terms.js";
import { Till } from "./till.js";
import { OwnerPart, UnitPart } from "./unit.js";
import type { IntakeView } from "./view.js";

export const IntakeForm = ({ view }: { view: IntakeView }) => (
  <form method="post" action={view.surroundings.action} id="intake" novalidate>
    {/* Enter in a field presses the first button: it must be a harmless one. */}
    <button type="submit" name="intent" value="recalculate" class="unseen" tabindex={-1}>
      Recalculate
    </button>
    <Carried view={view} name="meta.version" />
    <Carried view={view} name="meta.estimate" />
    <Carried view={view} name="meta.drawn" />
    <Carried view={view} name="meta.fresh" />
    <Carried view={view} name="meta.token" />
    <Carried view={view} name="meta.undo" />
    <Carried view={view} name="meta.undone" />
    {view.fields.has("meta.undo") ? (
      <p class="undo" id="undo">
        Removed: {view.fields.get("meta.undone")}.{" "}
        <button type="submit" name="intent" value="put back" id="put-back">
          Put it back
        </button>
      </p>
    ) : null}
    <OwnerPart view={view} />
    <UnitPart view={view} />
    <GridPart view={view} />
    <BoardsPart view={view} />
    <LinesPart view={view} />
    <TeardownPart view={view} />
    <TermsPart view={view} />
    <Till view={view} />
  </form>
);
