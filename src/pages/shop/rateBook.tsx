/** The rate book: the shop's rates and terms as fields, and pages of its times. What is changed becomes the next version, from a day on. */
import type { Child } from "hono/jsx";
import type { RateBook } from "../../estimating/input.js";
import { BOOK_CHOICES, BOOK_PAGES, BOOK_PARTS, PART_NAMES, type PartName, rowsOf } from "../../wording/rateBookParts.js";
import { day } from "../../wording/time.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { CellBox, type Options } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { figure, Table } from "../frame/table.js";

export interface BookView {
  readonly frame: Frame;
  readonly form: AskedForm;
  readonly book: RateBook;
  readonly locale: string;
  /** The newest version on record. */
  readonly newest: number;
  /** The version that estimates are begun with today. */
  readonly inForce: number;
  /** A manager, and the newest version. */
  readonly may: boolean;
  readonly say?: string | undefined;
  /** Where the form goes. */
  readonly to: string;
  readonly script?: string;
}

export const NO_YES: Options = [
  ["no", "no"],
  ["yes", "yes"],
];

/** A row's own fields, told from what the book as a whole says of them. */
export const Cell = ({ form, name, size }: { form: AskedForm; name: string; size?: "figure" | "money" | "word" }) => {
  const saying = form.says.get(name.replaceAll(/\.\d+(?=\.)/g, ".*"));
  return (
    <CellBox
      {...form}
      name={name}
      label={saying?.unit ? `${saying.label} (${saying.unit})` : saying?.label}
      size={size ?? "figure"}
      keys="decimal"
    />
  );
};

export const BookPage = ({
  frame,
  form,
  book,
  locale,
  newest,
  inForce,
  may,
  say,
  to,
  script,
  title,
  at,
  files = false,
  children,
}: BookView & { title: string; at?: string; files?: boolean; children?: Child }) => (
  <Page frame={frame} title={title} at="/rate-book" wrong={form.errors.size > 0} {...(script && { script })}>
    <div class="heading">
      <h1>{title}</h1>
      <p>
        {`${book.name}, version ${book.version}, from ${day(book.inForceFrom, locale)}, ${book.currency}`}
        {book.version === newest && newest !== inForce ? `; until then version ${inForce} is in force` : ""}
      </p>
    </div>
    <BookLinks book={book} at={at} newest={newest} />
    <ErrorSummary errors={form.errors} />
    <Said say={say} />
    <form method="post" action={to} novalidate class="rates" {...(files && { enctype: "multipart/form-data" })}>
      <input type="hidden" name="version" value={form.fields.get("version")} />
      {children}
      {may ? (
        <div class="part">
          <Ask
            form={form}
            name="inForceFrom"
            hint="Estimates begun from this day on are priced by it; those before keep their version."
          />
          <p class="actions">
            <button type="submit" name="intent" value="see" class="primary">
              See what it does
            </button>
          </p>
        </div>
      ) : (
        <p class="hint">{book.version === newest ? "A manager changes these." : "A version that was replaced never changes."}</p>
      )}
    </form>
  </Page>
);

const BookLinks = ({ book, at, newest }: { book: RateBook; at: string | undefined; newest: number }) => {
  const query = book.version === newest ? "" : `?version=${book.version}`;
  const link = (path: string, name: string, own: boolean) => (
    <li>
      <a href={`/rate-book${path}${query}`} {...(own ? { "aria-current": "page" } : {})}>
        {name}
      </a>
    </li>
  );
  return (
    <nav aria-label="Rate book">
      <ul class="book-parts">
        {link("", "Rates and terms", at === undefined)}
        {PART_NAMES.filter((name) => name !== "labour-classes").map((name) =>
          link(`/${name}`, `${BOOK_PARTS[name].title} (${rowsOf(book, BOOK_PARTS[name]).length})`, at === name),
        )}
        {Object.entries(BOOK_PAGES).map(([name, title]) => link(`/${name}`, title, at === name))}
        <li>
          <a href="/looking-back/rate-book">What was learned</a>
        </li>
      </ul>
    </nav>
  );
};

export const RatesPage = (view: BookView) => {
  const { form, book } = view;
  const ask = (name: string, options: Options | undefined = BOOK_CHOICES[name]) => (
    <Ask form={form} name={name} {...(options && { options })} />
  );
  const categories: Options = book.tax.categories.map(({ id, name }) => [id, name] as const);
  const [bands, taxes] = [
    rowCount(form, "parts.markUp", book.parts.markUp.length, 1),
    rowCount(form, "tax.categories", book.tax.categories.length, 1),
  ];
  return (
    <BookPage {...view} title="Rate book">
      <fieldset class="part">
        <legend>An hour of work</legend>
        <Table
          class="list named"
          caption="Labour classes"
          heads={["Kind of work", figure("An hour"), "Rests on"]}
          rows={book.labourClasses.flatMap((row, at) =>
            row.retiredOn !== undefined
              ? []
              : [
                  [
                    <>
                      <input type="hidden" name={`labourClasses.${at}.id`} value={row.id} />
                      <a href={entryAddress("labour-classes", row.id)}>{row.name}</a>
                      {row.attended || /nobody/i.test(row.name) ? null : <span class="hint"> nobody attends</span>}
                    </>,
                    <Cell form={form} name={`labourClasses.${at}.ratePerHour`} size="money" />,
                    sourceText(row.source),
                  ],
                ],
          )}
        />
        {view.may ? (
          <p>
            <a href="/rate-book/labour-classes/new">Add a labour class</a>
          </p>
        ) : null}
        <div class="columns">
          {/* What a book that does not say means stands first: saving it changes nothing. */}
          {ask("billing.minutes", [
            ["likely", "likely"],
            ["expected", "expected"],
          ])}
          {ask("billing.setUps", [
            ["any work", "any work"],
            ["replacements", "replacements"],
          ])}
          {ask("billing.incrementMinutes")}
          {ask("billing.minimumCharge")}
          {ask(
            "accessClass",
            book.labourClasses.map(({ id, name }) => [id, name] as const),
          )}
          {ask("fees.rushPercent")}
        </div>
      </fieldset>
      <fieldset class="part">
        <legend>Diagnosis fee</legend>
        <div class="columns">
          {ask("fees.diagnosis.amount")}
          {ask("fees.diagnosis.creditedOnAgreement", NO_YES)}
        </div>
      </fieldset>
      <fieldset class="part">
        <legend>Tax</legend>
        <div class="columns">{ask("tax.included")}</div>
        {taxes.map((at) => (
          <div class="columns">
            {book.tax.categories[at] ? (
              <input type="hidden" name={`tax.categories.${at}.id`} value={book.tax.categories[at].id} />
            ) : null}
            {ask(`tax.categories.${at}.name`)}
            {ask(`tax.categories.${at}.percent`)}
          </div>
        ))}
        <p class="hint">An emptied row is removed. For no tax, give a category at 0.</p>
        <details open={[...form.errors.keys()].some((name) => /^tax\.(labour|parts|freight|fees|rounding)/.test(name))}>
          <summary>Which tax on what, and how it is rounded</summary>
          <div class="columns">
            {(["labour", "parts", "freight", "fees"] as const).map((sort) => ask(`tax.${sort}`, categories))}
            {ask("tax.rounding.level")}
            {ask("tax.rounding.mode")}
          </div>
        </details>
      </fieldset>
      <fieldset class="part">
        <legend>Parts</legend>
        {bands.map((at) => (
          <div class="columns">
            {ask(`parts.markUp.${at}.upTo`)}
            {ask(`parts.markUp.${at}.percent`)}
          </div>
        ))}
        <div class="columns">
          {ask("parts.sundries.percentOfParts")}
          {ask("parts.sundries.percentOfLabour")}
          {ask("parts.sundries.cap")}
          {ask("parts.packs")}
          {ask("parts.offerGoodForDays")}
          {ask("parts.exchangeGoodForDays")}
        </div>
      </fieldset>
      <fieldset class="part">
        <legend>Terms</legend>
        <div class="columns">
          {ask("deposit.scarcePartsPercent")}
          {ask("deposit.labourPercent")}
          {ask("validityDays")}
          {ask("ceiling.abovePercent")}
          {ask("ceiling.leavesRoom", NO_YES)}
          {ask("risk")}
          {ask("safety")}
          {ask("fees.storagePerDay")}
          {ask("valueSharePercent")}
          {ask("calendar.weeklyBenchMinutes")}
          {ask("name")}
        </div>
      </fieldset>
    </BookPage>
  );
};

/** As many rows as were typed or stand there, and some to fill. */
function rowCount({ fields }: AskedForm, list: string, known: number, blank: number): number[] {
  const typed = [...fields.keys()].flatMap((name) =>
    name.startsWith(`${list}.`) ? Number(name.slice(list.length + 1).split(".")[0]) + 1 : [],
  );
  return Array.from({ length: Math.max(known + blank, ...typed) }, (_, at) => at);
}

export const entryAddress = (part: PartName, id: string): string => `/rate-book/${part}/${encodeURIComponent(id)}`;

export const sourceText = ({ basis, note }: { readonly basis: string; readonly note?: string }): string =>
  basis + (note ? `: ${note}` : "");
