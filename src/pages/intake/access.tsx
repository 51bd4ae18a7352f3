/** How the removal and refit of one assembly are timed. The style sheet shows only what the chosen way needs. */
import { BOARD_SIZES, FASTENER_KINDS, MOUNTINGS } from "../../estimating/lists.js";
import { capital } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { Choice, Text } from "./field.js";
import type { IntakeView } from "./view.js";

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
