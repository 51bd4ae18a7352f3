/** Someone else saved first: both versions side by side, and nothing lost. */

import type { Fields } from "../form/fields.js";
import { labelOf } from "../form/label.js";
import { Table } from "../frame/table.js";
import type { IntakeView } from "./view.js";

export interface ConflictView {
  readonly theirs: Fields;
  readonly savedAt: string;
  readonly version: number;
  /** Where theirs can be seen alone. */
  readonly href: string;
}

interface Props {
  readonly conflict: ConflictView;
  readonly view: Pick<IntakeView, "fields" | "read" | "context">;
  readonly what?: string;
}

export const Conflict = ({ conflict, view, what = "estimate" }: Props) => {
  const different = differences(view.fields, conflict.theirs);
  return (
    <section class="summary" id="conflict" tabindex={-1} aria-labelledby="conflict-name" autofocus>
      <h2 id="conflict-name">Someone else saved this {what} first</h2>
      <p>
        It was saved at {conflict.savedAt} while you were typing. What you typed is in the form below; nothing of it is lost and
        nothing of theirs is overwritten. A field below that you never touched reads as it did when you opened the page: saving
        would put it back to that.
      </p>
      {different.length === 0 ? (
        <p>Both versions say the same.</p>
      ) : (
        <Table
          class="lines"
          caption="What differs"
          scroll
          heads={["Field", "In the form below", "Theirs"]}
          rows={different.map((field) => [
            labelOf(field, view.read.draft, view.context),
            view.fields.get(field) || "empty",
            conflict.theirs.get(field) || "empty",
          ])}
        />
      )}
      <p>
        Bring over by hand what you want of theirs, then save: that keeps your version. Or{" "}
        <a href={conflict.href}>discard yours and open theirs</a>.
      </p>
    </section>
  );
};

const PRIVATE = /^(meta\.|next\.|assembly\.[^.]+\.was$|show\.|cellIds\.|earlier\.)/;

/** What a choice means that was never made. */
const USUAL: Readonly<Record<string, string>> = { discountBy: "percent", certainty: "planned" };

/** Fields that say different things; white space at the ends does not count. */
function differences(yours: Fields, theirs: Fields): readonly string[] {
  const said = (fields: Fields, name: string) =>
    (fields.get(name) || USUAL[name.split(".").at(-1)!] || "").replace(/\r\n?/g, "\n").trim();
  return [...new Set([...yours.keys(), ...theirs.keys()])].filter(
    (name) => !PRIVATE.test(name) && said(yours, name) !== said(theirs, name),
  );
}
