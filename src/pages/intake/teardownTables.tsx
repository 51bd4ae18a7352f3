/** What must go back before what, and work worth doing while an assembly is open. */
import { Small } from "./field.js";
import type { IntakeView } from "./view.js";

export const FitTable = ({ view }: { view: IntakeView }) => (
  <details class="fold" id="map-fit" open={hasWrong(view, "fit")}>
    <summary>Refit order{amount(view.read.draft.fit)}</summary>
    <p class="hint">When a cable or a screw is covered by what goes back later.</p>
    {Object.keys(view.read.draft.fit).map((row) => (
      <div class="row">
        <Small view={view} name={`fit.${row}.first`} label="Goes back first" list="assemblies" />
        <Small view={view} name={`fit.${row}.then`} label="Then" list="assemblies" />
        <Small view={view} name={`fit.${row}.why`} label="Why" grow />
        <button
          type="submit"
          name="intent"
          value={`remove fit:${row}`}
          class="icon"
          aria-label="Remove this refit order"
          title="Remove"
        >
          ×
        </button>
      </div>
    ))}
    <button type="submit" name="intent" value="add fit">
      Add a refit order
    </button>
  </details>
);

export const WorthTable = ({ view }: { view: IntakeView }) => (
  <details class="fold" id="map-worth" open={hasWrong(view, "worth")}>
    <summary>Worth doing while open{amount(view.read.draft.worth)}</summary>
    <p class="hint">Suggested on the sheet when its assembly is opened anyway, with the price now and at a later visit.</p>
    {Object.keys(view.read.draft.worth).map((row) => (
      <div class="row">
        <Small view={view} name={`worth.${row}.assembly`} label="Where" list="assemblies" />
        <Small view={view} name={`worth.${row}.operation`} label="Work" list="operations" />
        <Small view={view} name={`worth.${row}.part`} label="Part type" list="types" />
        <Small view={view} name={`worth.${row}.count`} label="Count" figure />
        <Small view={view} name={`worth.${row}.reason`} label="Why" grow />
        <button
          type="submit"
          name="intent"
          value={`remove worth:${row}`}
          class="icon"
          aria-label="Remove this suggestion"
          title="Remove"
        >
          ×
        </button>
      </div>
    ))}
    <button type="submit" name="intent" value="add worth">
      Add a suggestion
    </button>
  </details>
);

const amount = (rows: Readonly<Record<string, unknown>>): string =>
  Object.keys(rows).length > 0 ? ` (${Object.keys(rows).length})` : "";

const hasWrong = (view: IntakeView, head: string): boolean =>
  [...view.errors.keys()].some((field) => field.startsWith(`${head}.`));
