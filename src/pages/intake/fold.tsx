/** A part of the form that says in one sentence what it holds. It is drawn when asked for, and where something in it is wrong. */
import type { Child } from "hono/jsx";
import { isOpen } from "../form/open.js";
import type { IntakeView } from "./view.js";

/** Without script the page is sent anew: it shows the place where the finger was. */
export const backTo = ({ surroundings }: IntakeView, place: string): string => `${surroundings.action}#${place}`;

interface FoldProps {
  readonly view: IntakeView;
  readonly name: string;
  readonly title: string;
  /** What it holds, where that differs from usual. */
  readonly says: string;
  /** Its fields. */
  readonly holds: RegExp;
  readonly children: () => Child;
}

export const Fold = ({ view, name, title, says, holds, children }: FoldProps) =>
  isOpen(view.open, name) || [...view.errors.keys()].some((field) => holds.test(field)) ? (
    <fieldset class="part" id={`part-${name}`}>
      <legend>{title}</legend>
      {view.open.has(name) ? (
        <button
          type="submit"
          name="intent"
          value={`close:${name}`}
          formaction={backTo(view, `part-${name}`)}
          class="quiet fold-close"
          aria-expanded="true"
        >
          Fold<span class="unseen"> {title}</span>
        </button>
      ) : null}
      {children()}
    </fieldset>
  ) : (
    <p class="folded" id={`part-${name}`}>
      <button type="submit" name="intent" value={`open:${name}`} formaction={backTo(view, `part-${name}`)} aria-expanded="false">
        <span class="fold-title">{title}</span> <span class="hint">{says}</span>
      </button>
    </p>
  );
