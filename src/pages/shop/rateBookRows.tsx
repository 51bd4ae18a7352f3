/** Times of the rate book: one family a page, changed in place; and each entry by itself, with its name, cautions and source. */
import { HAZARDS, OFFER_STATES, SCARCITIES } from "../../estimating/lists.js";
import {
  BOOK_CHOICES,
  BOOK_PAGES,
  BOOK_PARTS,
  type BookPart,
  fits,
  offered,
  type PartName,
  rowId,
  rowName,
  rowsOf,
} from "../../wording/rateBookParts.js";
import { Ask, NO_OR_YES } from "../frame/ask.js";
import { type Options, Tick } from "../frame/field.js";
import { Table, unseen } from "../frame/table.js";
import { BookPage, type BookView, Cell, entryAddress, NO_YES, sourceText } from "./rateBook.js";

interface FamilyProps extends BookView {
  readonly part: PartName;
  readonly find: string;
  /** What closed jobs say of a row, by its id. */
  readonly learned: ReadonlyMap<string, string>;
}

export const FamilyPage = ({ part, find, learned, ...view }: FamilyProps) => {
  const { form, book, may } = view;
  const of: BookPart = BOOK_PARTS[part];
  const rows = rowsOf(book, of);
  const found = rows.filter(({ row }) => fits(row, find)).length;
  return (
    <BookPage {...view} title={of.title} at={part}>
      <p>
        {of.lead} {of.figures.some(([, fields]) => fields.length === 3) ? "Minutes: low, likely, high." : ""}
      </p>
      <div class="field find-rows">
        <label for="find">Find</label>
        <input type="search" id="find" name="find" value={find} autocomplete="off" />
        <button type="submit" name="intent" value="find">
          Find
        </button>
        <p class="hint" id="find-count" role="status">
          {find ? `${found} of ${rows.length}` : ""}
        </p>
      </div>
      <Table
        class="list named times"
        caption={of.title}
        heads={["Name", ...of.figures.map(([heading]) => heading), unseen("Rests on")]}
        rows={rows.map(({ row, at }) => {
          const base = `${of.list}.${at}`;
          return {
            id: `row-${at}`,
            class: fits(row, find) ? false : "away",
            cells: [
              <>
                <Keys base={base} row={row} />
                <a href={entryAddress(part, rowId(row))}>{rowName(row)}</a>
                {"retiredOn" in row && row.retiredOn !== undefined ? <span class="hint"> retired</span> : null}
              </>,
              ...of.figures.map(([, fields]) => (
                <span class="triple">
                  {fields.map((field) => (
                    <Cell form={form} name={`${base}.${field}`} size={field === "typicalCost" ? "money" : "figure"} />
                  ))}
                </span>
              )),
              <span class="hint">
                {sourceText(row.source)}
                {learned.has(rowId(row)) ? ` · learned: ${learned.get(rowId(row))}` : ""}
              </span>,
            ],
          };
        })}
      />
      {may && part !== "boards" ? (
        <p>
          <a href={entryAddress(part, "new")}>Add a {of.one}</a>
        </p>
      ) : null}
    </BookPage>
  );
};

const Keys = ({ base, row }: { base: string; row: object }) => (
  <>
    {["id", "kind", "size", "mounting"].flatMap((key) =>
      key in row ? [<input type="hidden" name={`${base}.${key}`} value={String((row as Record<string, unknown>)[key])} />] : [],
    )}
  </>
);

interface EntryProps extends BookView {
  readonly part: PartName;
  /** Place in the list of the book; that of a new one is behind the last. */
  readonly at: number;
  readonly today: string;
  readonly learned?: string | undefined;
}

export const EntryPage = ({ part, at, today, learned, ...view }: EntryProps) => {
  const { form, book } = view;
  const of: BookPart = BOOK_PARTS[part];
  const row = ((book[of.list] ?? []) as readonly Parameters<typeof rowName>[0][])[at];
  const base = `${of.list}.${at}`;
  const has = (field: string) => form.says.has(`${of.list}.*.${field}`);
  const choices: Readonly<Record<string, Options>> = {
    replacedBy: [["", "Replace"], ...named(book.operations, form.fields.get(`${base}.replacedBy`))],
    labourClass: named(book.labourClasses, form.fields.get(`${base}.labourClass`)),
    // Most work is somebody's: a new kind begins so.
    attended: row ? NO_YES : NO_YES.toReversed(),
    polarised: NO_OR_YES,
  };
  const ask = (field: string, hint?: string) => (
    <Ask form={form} name={`${base}.${field}`} {...(choices[field] && { options: choices[field] })} {...(hint && { hint })} />
  );
  return (
    <BookPage {...view} title={row ? rowName(row) : `New ${of.one}`} at={part}>
      <fieldset class="part">
        <legend>{of.title}</legend>
        {row ? <Keys base={base} row={row} /> : null}
        {has("name") ? ask("name") : row ? null : ask("kind")}
        <div class="columns">{of.others.filter((field) => field !== "hazards").map((field) => ask(field))}</div>
        {of.figures.map(([heading, fields]) =>
          fields.length === 3 ? (
            <fieldset>
              <legend>{heading}</legend>
              <div class="columns three">{fields.map((field) => ask(field))}</div>
            </fieldset>
          ) : (
            fields.map((field) => ask(field))
          ),
        )}
        {part === "services" ? <Behind {...view} base={base} rows={row && "work" in row ? row.work.length : 0} /> : null}
        {learned ? <p>{`What closed jobs say: ${learned}`}</p> : null}
        {of.others.includes("hazards") ? (
          <details>
            <summary>Cautions</summary>
            <input type="hidden" name={`${base}.hazards`} value="" />
            {HAZARDS.map((each) => (
              <Tick
                name={`${base}.hazards`}
                id={`${base}.hazards.${each.replaceAll(" ", "-")}`}
                value={each}
                checked={(form.fields.get(`${base}.hazards`) ?? "").split("\n").includes(each)}
                label={each}
              />
            ))}
          </details>
        ) : null}
      </fieldset>
      <fieldset class="part">
        <legend>Where it comes from</legend>
        <div class="columns">
          {ask("source.basis")}
          {ask("source.note")}
        </div>
        {has("retiredOn") && row ? (
          <Ask
            form={form}
            name={`${base}.retiredOn`}
            options={[
              ["", "yes"],
              ["retiredOn" in row && row.retiredOn ? row.retiredOn : today, "no: retired"],
            ]}
          />
        ) : null}
      </fieldset>
    </BookPage>
  );
};

const named = (rows: readonly Named[], used: string | undefined): Options =>
  offered(rows, ({ id }) => id === used).map(({ id, name }) => [id, name] as const);
type Named = { readonly id: string; readonly name: string; readonly retiredOn?: string };

/** The work and parts behind a service; a row that is emptied goes. */
const Behind = ({ form, book, base, rows }: BookView & { base: string; rows: number }) => (
  <fieldset>
    <legend>Work and parts behind it</legend>
    {[...form.fields].flatMap(([name, text]) =>
      name.startsWith(`${base}.work.`) && /hazards|work\.\d+\.minutes/.test(name)
        ? text.split("\n").map((value) => <input type="hidden" name={name} value={value} />)
        : [],
    )}
    {Array.from({ length: rows + 2 }, (_, at) => (
      <>
        <div class="columns">
          <Ask
            form={form}
            name={`${base}.work.${at}.operation`}
            options={[["", ""], ...named(book.operations, form.fields.get(`${base}.work.${at}.operation`))]}
          />
          <Ask form={form} name={`${base}.work.${at}.own.name`} />
          <Ask
            form={form}
            name={`${base}.work.${at}.part.type`}
            options={[["", "none"], ...named(book.partTypes, form.fields.get(`${base}.work.${at}.part.type`))]}
          />
          <Ask form={form} name={`${base}.work.${at}.count`} />
        </div>
        <details open={form.fields.has(`${base}.work.${at}.own.name`) || undefined}>
          <summary>Time for work in your own words</summary>
          <Ask
            form={form}
            name={`${base}.work.${at}.own.labourClass`}
            options={[["", "the usual"], ...named(book.labourClasses, form.fields.get(`${base}.work.${at}.own.labourClass`))]}
          />
          <div class="columns three">
            {["low", "likely", "high"].map((point) => (
              <Ask form={form} name={`${base}.work.${at}.own.minutes.${point}`} />
            ))}
          </div>
        </details>
      </>
    ))}
  </fieldset>
);

export const LeadsPage = (view: BookView) => (
  <BookPage {...view} title={BOOK_PAGES.leads} at="leads">
    <p>
      Each lead of a replaced part is desoldered, cleared, fitted, soldered and inspected. Minutes for one lead: low, likely,
      high.
    </p>
    <Table
      class="list named times"
      caption="Minutes for each lead"
      heads={["Step", "Each lead"]}
      rows={(["desolder", "clear", "fit", "solder", "inspect"] as const).map((step) => [
        step.charAt(0).toUpperCase() + step.slice(1),
        <span class="triple">
          {(["low", "likely", "high"] as const).map((point) => (
            <Cell form={view.form} name={`leads.${step}.${point}`} />
          ))}
        </span>,
      ])}
    />
    <div class="columns">
      <Ask form={view.form} name="leads.source.basis" />
      <Ask form={view.form} name="leads.source.note" />
    </div>
  </BookPage>
);

export const ScarcityPage = (view: BookView) => (
  <BookPage {...view} title={BOOK_PAGES.scarcity} at="scarcity">
    <fieldset class="part">
      <legend>Margin of a part that is hard to get</legend>
      <Ask form={view.form} name="scarcity.marginFrom" options={BOOK_CHOICES["scarcity.marginFrom"]!} />
      <div class="columns">
        {SCARCITIES.map((each) => (
          <Ask form={view.form} name={`scarcity.marginPercent.${each}`} />
        ))}
      </div>
    </fieldset>
    <fieldset class="part">
      <legend>What counts as scarce, and how sure the shop wants to be</legend>
      <div class="columns">
        <Ask form={view.form} name="scarcity.fewSources" />
        <Ask form={view.form} name="scarcity.freshDays" />
        <Ask form={view.form} name="scarcity.serviceLevel" />
      </div>
    </fieldset>
    <fieldset class="part">
      <legend>Share of pieces expected to be good</legend>
      <div class="columns">
        {OFFER_STATES.map((each) => (
          <Ask form={view.form} name={`scarcity.shareGood.${each}`} />
        ))}
      </div>
      <div class="columns">
        <Ask form={view.form} name="scarcity.source.basis" />
        <Ask form={view.form} name="scarcity.source.note" />
      </div>
    </fieldset>
  </BookPage>
);
