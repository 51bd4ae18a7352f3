/** Pieces on the shelf, kind by kind, with a box to count anew beside each: down the boxes with Tab, then Enter. */

import { key } from "../../wording/fieldName.js";
import { counted } from "../../wording/list.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Box, CellBox } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figure, figures, Table } from "../frame/table.js";
import { PartsFramed } from "./partsFrame.js";

interface StockProps {
  readonly frame: Frame;
  readonly form: AskedForm;
  readonly rows: readonly { readonly id: string; readonly name: string; readonly type: string; readonly stock: number }[];
  readonly first: boolean;
  /** Where further kinds are. */
  readonly next?: string;
  /** Where the form is sent: this page. */
  readonly here: string;
  readonly say?: string | undefined;
}

const countField = (kind: string): string => `counted.${key(kind)}`;

export const StockPage = (props: StockProps) => {
  const { frame, rows, form, first, next, here } = props;
  const { fields, errors } = form;
  return (
    <PartsFramed frame={frame} title="Stock" here="/parts/stock" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={props.say} />
      {rows.length === 0 ? (
        <p class="empty">
          {first ? "The catalogue has no part kinds yet; they come with estimates and offers." : "No more part kinds."}
        </p>
      ) : (
        <form method="post" action={here} novalidate>
          <input type="hidden" name="token" value={fields.get("token")} />
          <p class="hint screen" id="how">
            Counts move by themselves as parts come in and are used. Where the shelf says otherwise, type what is there; what is
            left empty stays.
          </p>
          <Table
            class="lines stock"
            caption="Pieces on the shelf"
            heads={["Part", figure("On the shelf"), { name: "Counted now", class: "screen" }]}
            rows={rows.map(({ id, name, type, stock }) => ({
              class: errors.has(countField(id)) && "row-wrong",
              cells: [
                <>
                  <a href={`/parts/stock/${encodeURIComponent(id)}`}>{name}</a>
                  <span class="why">
                    {id}, {type}
                  </span>
                </>,
                stock,
                <CellBox fields={fields} errors={errors} name={countField(id)} label={`Counted now: ${name}`} size="figure" />,
              ],
            }))}
          />
          <fieldset class="part screen">
            <legend>On the counts</legend>
            <div class="columns">
              <Ask form={form} name="reason" />
              <Ask form={form} name="by" autocomplete="name" />
            </div>
          </fieldset>
          <p class="actions">
            <button type="submit" class="primary">
              Record the counts
            </button>
          </p>
        </form>
      )}
      <p class="links screen">
        {first ? null : <a href="/parts/stock">First page</a>}
        {next ? <a href={next}>More part kinds</a> : null}
      </p>
    </PartsFramed>
  );
};

interface MovementsProps {
  readonly frame: Frame;
  readonly form: AskedForm;
  readonly say?: string | undefined;
  readonly id: string;
  readonly name: string;
  readonly stock: number;
  /** Newest first. */
  readonly rows: readonly {
    readonly at: string;
    readonly what: string;
    readonly by: string;
    readonly change: number;
    readonly beyond: number;
    readonly standsAt: number;
    readonly job?: { readonly id: string; readonly number: string };
  }[];
}

export const MovementsPage = ({ frame, id, name, stock, rows, form, say }: MovementsProps) => (
  <PartsFramed frame={frame} title={name} wrong={form.errors.size > 0}>
    <ErrorSummary errors={form.errors} />
    <Said say={say} />
    <p>
      <strong>{counted(stock, "piece")}</strong> on the shelf. <a href="/parts/stock">Back to the stock</a>
    </p>
    <p class="links screen">
      <a href={`/parts/kinds/${encodeURIComponent(id)}`}>The part, its offers, and where it is used</a>
    </p>
    <form method="post" action={`/parts/stock/${encodeURIComponent(id)}`} class="screen" novalidate>
      <input type="hidden" name="token" value={form.fields.get("token")} />
      <div class="columns">
        <Box {...form} name={countField(id)} label="Counted now" size="figure" />
        <Ask form={form} name="reason" />
        <Ask form={form} name="by" autocomplete="name" />
      </div>
      <p class="actions">
        <button type="submit">Record the count</button>
      </p>
    </form>
    <Table
      class="lines"
      caption="Movements, newest first"
      scroll="Movements"
      empty="Nothing of it has come in, been used or been counted yet."
      heads={["When", "What", "Who", ...figures("Change", "Left")]}
      rows={rows.map(({ at, what, by, change, beyond, standsAt, job }) => [
        at,
        <>
          {what}
          {job ? (
            <>
              {" "}
              <a href={`/jobs/${job.id}`}>{job.number}</a>
            </>
          ) : null}
          {beyond > 0 ? <span class="why">{beyond} more were used than the count had</span> : null}
        </>,
        by,
        change > 0 ? `+${change}` : change < 0 ? `−${-change}` : "0",
        standsAt,
      ])}
    />
  </PartsFramed>
);
