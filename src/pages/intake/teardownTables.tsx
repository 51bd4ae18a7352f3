/** Of the map: how an assembly is reached and timed; what must go back before what; work worth doing while one is open. */
import { BOARD_SIZES, FASTENER_KINDS, MOUNTINGS } from "../../estimating/lists.js";
import { capital } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { Choice, Small, Text } from "./field.js";
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

/** How the removal and refit of one assembly are timed. The style sheet shows only what the chosen way needs. */
interface Props {
  readonly view: IntakeView;
  readonly row: string;
}

export const Access = ({ view, row }: Props) => {
  const field = `assembly.${row}`;
  return (
    <>
      <div class="columns access-by">
        <Choice
          view={view}
          name={`${field}.by`}
          label="Access is timed by"
          options={[
            ["", "The fasteners, or the standard if none are counted"],
            ["fasteners", "The fasteners"],
            ["standard", "The standard"],
            ["measured", "Minutes measured here"],
          ]}
        />
        <div class="by-standard">
          <Choice view={view} name={`${field}.size`} label="Size" options={withDefault(BOARD_SIZES, "medium")} />
        </div>
        <div class="by-standard">
          <Choice view={view} name={`${field}.mounting`} label="Mounting" options={withDefault(MOUNTINGS, "on top")} />
        </div>
      </div>
      <div class="by-measured">
        {(["remove", "refit"] as const).map((what) => (
          <fieldset class="three">
            <legend>Minutes to {what}</legend>
            <Text view={view} name={`${field}.${what}Low`} label="Shortest" size="figure" />
            <Text view={view} name={`${field}.${what}Likely`} label="Likely" size="figure" />
            <Text view={view} name={`${field}.${what}High`} label="Longest" size="figure" />
          </fieldset>
        ))}
      </div>
    </>
  );
};

/** The first choice stands for what is usual, so that a row left alone says nothing. */
const withDefault = (among: readonly string[], usual: string) => [
  ["", `${capital(usual)} (usual)`] as const,
  ...among.map((one) => [one, capital(one)] as const),
];

export const Fasteners = ({ view, row }: Props) => (
  <fieldset class="fasteners by-fasteners">
    <legend>Fasteners and connections</legend>
    {FASTENER_KINDS.map((kind) => (
      <Text view={view} name={`fasteners.${row}.${key(kind)}`} label={capital(kind)} size="figure" />
    ))}
  </fieldset>
);
