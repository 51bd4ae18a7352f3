/** The work by assembly: on one side the assemblies as the map has them, on the other the lines of the chosen one, one row a line. */

import { capital } from "../../wording/list.js";
import { offered } from "../../wording/rateBookParts.js";
import { atHand } from "../form/context.js";
import { WHOLE_UNIT } from "../form/draft.js";
import { assemblyName } from "../form/label.js";
import { partsOffered } from "../form/names.js";
import { isOpen } from "../form/open.js";
import { MOST_LINES, type Place, placeAt, placesIn } from "../form/places.js";
import { Area, Wrong } from "../frame/field.js";
import { amountsOf } from "./amounts.js";
import { backTo } from "./fold.js";
import { countsInLines } from "./gridCounts.js";
import { CellRow, isInGrid, LineRow } from "./lines.js";
import { Reach, reached } from "./teardown.js";
import type { IntakeView } from "./view.js";

export const DeskPart = ({ view }: { view: IntakeView }) => {
  const asked = view.fields.get("meta.at");
  const places = placesIn(view.read.draft, asked);
  const at = placeAt(view.fields, places);
  const shown = places.filter((place) => place === at || isOpen(view.open, "all") || isWrong(view, place));
  const texts = amountsOf(view);
  return (
    <fieldset class="part" id="part-desk">
      <legend>{places.length > 1 ? "Work by assembly" : "Other work and parts"}</legend>
      <Lists view={view} />
      <div class={at.row === asked ? "desk one" : "desk"}>
        {places.length > 1 ? <Places view={view} places={places} at={at} texts={texts} /> : null}
        <div class="desk-shown">
          {shown.map((place) => (
            <Shown view={view} place={place} here={place === at} alone={places.length === 1} texts={texts} />
          ))}
        </div>
      </div>
    </fieldset>
  );
};

/** Something that stands nowhere else is wrong there. */
function isWrong(view: IntakeView, { row, lines }: Place): boolean {
  const mine = new Set(lines);
  const grid = isOpen(view.open, "grid");
  return [...view.errors.keys()].some((field) => {
    const [head = "", at = "", leaf] = field.split(".");
    if (head === "line") return mine.has(at);
    if (at !== row) return false;
    if (head === "cells" || (head === "assembly" && leaf === "name")) return !grid;
    return /^(assembly|fasteners|hazards)$/.test(head);
  });
}

interface PlacesProps {
  readonly view: IntakeView;
  readonly places: readonly Place[];
  readonly at: Place;
  readonly texts: ReadonlyMap<string, string>;
}

const Places = ({ view, places, at, texts }: PlacesProps) => (
  <nav class="places" aria-label="Assemblies">
    <ul>
      {places.map(({ row, lines, cells }) => (
        <li>
          <button
            type="submit"
            name="intent"
            value={`see:${row}`}
            formaction={backTo(view, "part-desk")}
            id={`see-${row}`}
            {...(row === at.row && { "aria-current": "true" })}
          >
            <span>
              <span class={lines.length + cells.length > 0 ? "place-name worked" : "place-name"}>
                {capital(assemblyName(row, view.read.draft))}
              </span>{" "}
              <span class="place-reached" data-says={`reached ${row}`}>
                {texts.get(`reached ${row}`)}
              </span>
            </span>
            <span class="place-amount" data-says={`place ${row}`}>
              {texts.get(`place ${row}`)}
            </span>
          </button>
        </li>
      ))}
    </ul>
    <button type="submit" name="intent" value="add assembly" class="quiet">
      Add an assembly to the map
    </button>
  </nav>
);

interface ShownProps {
  readonly view: IntakeView;
  readonly place: Place;
  /** New lines are written here. */
  readonly here: boolean;
  readonly alone: boolean;
  readonly texts: ReadonlyMap<string, string>;
}

const Shown = ({ view, place, here, alone, texts }: ShownProps) => {
  const { row, lines, cells } = place;
  const name = capital(assemblyName(row, view.read.draft));
  const also = countsInLines(view);
  const numbers = new Map(Object.keys(view.read.draft.line).map((line, index) => [line, index + 1]));
  const from = here ? Math.min(Number(view.fields.get("meta.from")) || 0, Math.max(0, lines.length - 1)) : 0;
  const isDrawn = (line: string, index: number) =>
    isOpen(view.open, "all") ||
    (index >= from && index < from + MOST_LINES) ||
    [...view.errors.keys()].some((field) => field.startsWith(`line.${line}.`));
  return (
    <section class="place" id={`place-${row}`} aria-labelledby={`place-name-${row}`}>
      <div class={alone ? "unseen" : "place-head"}>
        <h2 id={`place-name-${row}`}>{name}</h2>
        {alone ? null : (
          <button type="submit" name="intent" value="see:" class="quiet all-places">
            All assemblies
          </button>
        )}
        {row === WHOLE_UNIT ? null : <span class="hint">{reached(view, row)}</span>}
      </div>
      {row === WHOLE_UNIT ? null : <Reach view={view} row={row} here={here} />}
      {lines.length + cells.length > 0 ? (
        <p class="line-heads" aria-hidden="true">
          <span>Work or part</span> <span>Count</span> <span>Certainty</span> <span>Amount</span>{" "}
          <span class="head-why">Why</span>
        </p>
      ) : (
        <p class="empty">{alone ? "What the table does not count: type it here." : "No work here yet."}</p>
      )}
      {cells.map((column) => (
        <CellRow view={view} row={row} column={column} boxed={!isInGrid(view, also, `${row}.${column}`)} texts={texts} />
      ))}
      {lines.map((line, index) =>
        isDrawn(line, index) ? <LineRow view={view} row={line} number={numbers.get(line)!} texts={texts} /> : null,
      )}
      {lines.length > MOST_LINES && !isOpen(view.open, "all") ? (
        <p class="actions">
          Lines {from + 1} to {Math.min(from + MOST_LINES, lines.length)} of {lines.length}
          {from > 0 ? (
            <button type="submit" name="intent" value={`lines from:${Math.max(0, from - MOST_LINES)}`} class="quiet">
              Earlier lines
            </button>
          ) : null}
          {from + MOST_LINES < lines.length ? (
            <button type="submit" name="intent" value={`lines from:${from + MOST_LINES}`} class="quiet">
              Further lines
            </button>
          ) : null}
        </p>
      ) : null}
      {here ? <Next view={view} name={name} /> : null}
    </section>
  );
};

/** Where the next line is written, or several at once. */
const Next = ({ view, name }: { view: IntakeView; name: string }) => (
  <>
    <div class="next" id="next">
      <input
        id="next.what"
        name="next.what"
        value={view.fields.get("next.what") ?? ""}
        list="parts"
        data-also="operations"
        autocomplete="off"
        placeholder="12 film capacitor"
        aria-label={`Next line, ${name}: count, then work, part or service`}
        aria-describedby={view.errors.has("next.what") ? "next.what-wrong next-help" : "next-help"}
        {...(view.errors.has("next.what") && { "aria-invalid": "true" })}
      />
      <button type="submit" name="intent" value="add line" formaction={backTo(view, "next.what")}>
        Add a line
      </button>
      {isOpen(view.open, "list") ? null : (
        <button
          type="submit"
          name="intent"
          value="open:list"
          formaction={backTo(view, "next.what")}
          class="quiet"
          aria-expanded="false"
        >
          Paste a list
        </button>
      )}
    </div>
    <Wrong {...view} name="next.what" />
    <p class="hint" id="next-help">
      A count, then work, a part or a service. What is on no list: your own words, then minutes or a price, such as 20 min or
      35.00.
    </p>
    {isOpen(view.open, "list") ? (
      <div class="next-list">
        <Area
          {...view}
          name="next.list"
          rows={6}
          label="Several lines, or a parts list"
          hint="One a line: a count or the places (C1, C7), then the name. Columns separated by tabs, semicolons or commas."
        />
        <p class="actions">
          <button type="submit" name="intent" value="add lines" formaction={backTo(view, "next.what")}>
            Add these lines
          </button>
          <button type="submit" name="intent" value="close:list" class="quiet">
            Close
          </button>
        </p>
      </div>
    ) : null}
  </>
);

/** What boxes suggest. */
const Lists = ({ view }: { view: IntakeView }) => {
  const { rateBook } = view.context;
  const own = view.surroundings.ownWords ?? { works: [], parts: [] };
  const works = named([...offered(rateBook.operations), ...offered(rateBook.services ?? [])]);
  const parts = named(partsOffered(atHand(view.context, view.read.input)));
  // What was kept since is on a list by now.
  const names = new Set([...works, ...parts]);
  const others = (all: readonly string[]) => all.filter((name) => !names.has(name));
  return (
    <>
      <NameList id="operations" names={[...works, ...others(own.works)]} />
      <NameList id="parts" names={[...parts, ...others(own.parts)]} find="/parts/kinds" />
      <NameList id="types" names={named(offered(rateBook.partTypes))} />
      <NameList id="assemblies" names={Object.values(view.read.draft.assembly).flatMap(({ name }) => name?.trim() || [])} />
    </>
  );
};

const NameList = ({ id, names, find }: { id: string; names: readonly string[]; find?: string }) => (
  <datalist id={id} {...(find && { "data-find": find })}>
    {names.map((name) => (
      <option value={name} />
    ))}
  </datalist>
);

const named = (all: readonly { readonly name: string }[]): readonly string[] => all.map(({ name }) => name);
