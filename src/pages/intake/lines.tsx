/** One row a line: what, how many, how certain, what it comes to, and why where that is said. The rest of a line is folded. */
import { columnsOf } from "../form/context.js";
import { idOf } from "../form/fields.js";
import { assemblyName, helpOfField, labelOf } from "../form/label.js";
import { isOpen } from "../form/open.js";
import { cellId } from "../form/readItems.js";
import { HelpLink, Input, ties, Wrong } from "../frame/field.js";
import { itemOf } from "./amounts.js";
import { backTo } from "./fold.js";
import { filledIn, isWrongInMore, LineMore } from "./lineMore.js";
import type { IntakeView } from "./view.js";

interface RowProps {
  readonly view: IntakeView;
  readonly row: string;
  readonly texts: ReadonlyMap<string, string>;
}

/** The grid draws the box of a count that no line adds to. */
export const isInGrid = (view: IntakeView, also: ReadonlyMap<string, number>, cell: string): boolean =>
  isOpen(view.open, "grid") && !also.has(cell);

/** A box shows about so many letters of a name; a longer one is told whole below it. */
const CUT_SHORT = 60;

export const LineRow = ({ view, row, number, texts }: RowProps & { readonly number: number }) => {
  const field = `line.${row}`;
  const said = (leaf: string) => view.fields.get(`${field}.${leaf}`)?.trim() ?? "";
  const open = isOpen(view.open, `more.${row}`) || isWrongInMore(view, field);
  const [operation, part] = [said("operation"), said("part")];
  const name = operation || part || "empty";
  const certainty = said("certainty") || "planned";
  const reason = said("reason") !== "" || certainty !== "planned" || open;
  const both = open || (operation === "") === (part === "");
  const told = open ? "" : filledIn(view, row);
  const slot = { view, field };
  return (
    <fieldset class="line" id={`place-at-${row}`} data-line={row}>
      <legend class="unseen">
        Line {number}: {name}
      </legend>
      <div class="line-row">
        <div class="line-what">
          {both || operation !== "" ? <Slot {...slot} leaf="operation" list="operations" hint="Work" /> : null}
          {both || part !== "" ? <Slot {...slot} leaf="part" list="parts" hint="Part" /> : null}
        </div>
        <Slot {...slot} leaf="count" figure />
        <div class="line-certainty">
          <Certainty {...slot} now={certainty} />
          {reason ? <HelpLink help={helpOfField(`${field}.certainty`)} label="Certainty" /> : null}
          {certainty === "if found" ? <Slot {...slot} leaf="probability" figure hint="%" /> : null}
          {certainty === "optional" ? (
            <label class="line-chosen">
              <input
                type="checkbox"
                id={`${field}.chosen`}
                name={`${field}.chosen`}
                value="on"
                checked={said("chosen") !== ""}
                aria-label={labelOf(`${field}.chosen`, view.read.draft, view.context)}
              />
              chosen
            </label>
          ) : null}
        </div>
        <output class="line-amount" data-says={itemOf(row)}>
          {texts.get(itemOf(row))}
        </output>
        <div class="row-buttons">
          <RowButton
            back={backTo(view, `place-at-${row}`)}
            intent={`${open ? "close" : "open"}:more.${row}`}
            says={`${open ? "Less" : "More"} of line ${number}`}
          >
            {open ? "–" : "…"}
          </RowButton>
          <RowButton intent={`repeat line:${row}`} says={`Repeat line ${number}`}>
            <svg viewBox="0 0 16 16" aria-hidden="true" class="glyph">
              <path d="M2 2h8v8H2zM6 13h8V6" />
            </svg>
          </RowButton>
          <RowButton intent={`remove line:${row}`} says={`Remove line ${number}`}>
            ×
          </RowButton>
        </div>
        {reason ? <Slot {...slot} leaf="reason" hint="why" wide /> : null}
      </div>
      {[operation, part].map((text) =>
        text.length > CUT_SHORT ? (
          <p class="hint line-told" aria-hidden="true">
            {text}
          </p>
        ) : null,
      )}
      {told === "" ? null : <p class="hint line-told">{told}</p>}
      {open ? <LineMore view={view} row={row} /> : null}
    </fieldset>
  );
};

/** A count of the grid: the same work as a line of it would be. More can be said of it once it is a line. */
export const CellRow = ({ view, row, column, boxed, texts }: RowProps & { readonly column: string; readonly boxed: boolean }) => {
  const id = idOf(column);
  const name = columnsOf(view.context.rateBook).find((one) => one.id === id)?.name ?? id;
  const field = `cells.${row}.${column}`;
  const item = `item ${view.fields.get(`cellIds.${row}.${column}`) || cellId(row, id)}`;
  const what = `${name}, ${assemblyName(row, view.read.draft)}`;
  return (
    <div class="line" id={`place-at-${row}.${column}`} data-cell={`${row}.${column}`}>
      <div class="line-row">
        <div class="line-what">{name}</div>
        {boxed ? (
          <Slot view={view} field={`cells.${row}`} leaf={column} figure />
        ) : (
          <span class="line-count">{view.fields.get(field)}</span>
        )}
        <span class="line-certainty hint">planned</span>
        <output class="line-amount" data-says={item}>
          {texts.get(item)}
        </output>
        <div class="row-buttons">
          <RowButton intent={`as line:${row}.${column}`} says={`More of ${what}`}>
            …
          </RowButton>
          <RowButton intent={`remove cell:${row}.${column}`} says={`Remove ${what}`}>
            ×
          </RowButton>
        </div>
      </div>
    </div>
  );
};

interface ButtonProps {
  readonly intent: string;
  readonly says: string;
  readonly back?: string;
  readonly children: unknown;
}

const RowButton = ({ intent, says, back, children }: ButtonProps) => (
  <button
    type="submit"
    name="intent"
    value={intent}
    class="icon"
    aria-label={says}
    title={says}
    {...(back && { formaction: back })}
  >
    {children}
  </button>
);

interface SlotProps {
  readonly view: IntakeView;
  readonly field: string;
  readonly leaf: string;
  readonly list?: string;
  readonly figure?: boolean;
  readonly wide?: boolean;
  readonly hint?: string;
}

/** A box of the row; the head of the column is its label to the eye. */
const Slot = ({ view, field, leaf, list, figure, wide, hint }: SlotProps) => {
  const name = `${field}.${leaf}`;
  const kind = wide ? "slot wide" : figure ? "slot short" : "slot";
  return (
    <span class={view.errors.has(name) ? `${kind} field-wrong` : kind} {...(hint && { "data-hint": hint })}>
      <Input
        {...view}
        name={name}
        list={list}
        keys={figure ? "decimal" : undefined}
        spoken={labelOf(name, view.read.draft, view.context)}
      />
      <Wrong {...view} name={name} />
    </span>
  );
};

const Certainty = ({ view, field, now }: { view: IntakeView; field: string; now: string }) => {
  const name = `${field}.certainty`;
  return (
    <>
      <select id={name} name={name} aria-label={labelOf(name, view.read.draft, view.context)} {...ties({ ...view, name })}>
        {["planned", "if found", "optional"].map((one) => (
          <option value={one} selected={now === one}>
            {one}
          </option>
        ))}
      </select>
      <Wrong {...view} name={name} />
    </>
  );
};
