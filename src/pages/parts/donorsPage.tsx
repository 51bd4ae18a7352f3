/** Donor units: what was paid for each, what can still be pulled of it, and pulling. */
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { CellBox, HelpLink, type Options, Pick } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { Withdraw } from "./cataloguePage.js";
import { KindList, PartsFramed } from "./partsFrame.js";

export interface DonorShown {
  readonly id: string;
  readonly name: string;
  readonly boughtOn: string;
  readonly currency: string;
  readonly cost: number;
  readonly parts: readonly { readonly kind: string; readonly name: string; readonly pieces: number; readonly price: number }[];
}

interface DonorsProps {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly rows: readonly DonorShown[];
  readonly next?: string;
}

export const DonorsPage = ({ frame, tongue, rows, next }: DonorsProps) => (
  <PartsFramed frame={frame} title="Donor units" here="/parts/donors">
    <p class="actions screen">
      <a class="button primary" href="/parts/donors/new">
        Add a donor unit
      </a>
    </p>
    <Table
      class="lines stacking"
      caption="Donor units"
      empty="No unit was bought for its parts yet. What one still holds is offered to estimates until it is pulled."
      heads={["Unit", "Bought on", ...figures("Cost", "Can be pulled", "Worth")]}
      rows={rows.map(({ id, name, boughtOn, currency, cost, parts }) => [
        <a href={`/parts/donors/${encodeURIComponent(id)}`}>{name}</a>,
        day(boughtOn, tongue.locale),
        money(cost, { ...tongue, currency }),
        counted(
          parts.reduce((sum, { pieces }) => sum + pieces, 0),
          "piece",
        ),
        money(
          parts.reduce((sum, { pieces, price }) => sum + pieces * price, 0),
          { ...tongue, currency },
        ),
      ])}
    />
    {next ? (
      <p class="links screen">
        <a href={next}>More donor units</a>
      </p>
    ) : null}
  </PartsFramed>
);

interface DonorProps {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly title: string;
  readonly action: string;
  readonly form: AskedForm;
  /** Rows of the list of parts that the form has. */
  readonly rows: number;
  /** Names of part kinds, to choose from while typing. */
  readonly kinds: readonly string[];
  readonly say?: string | undefined;
  /** Of a unit on record. */
  readonly standing?: {
    readonly donor: DonorShown;
    readonly pull: AskedForm;
    /** Work of open jobs that takes a part of it. */
    readonly serves: Options;
    readonly withdrawal: AskedForm;
    readonly withdrawn?: { readonly by: string; readonly reason: string } | undefined;
  };
}

export const DonorPage = (props: DonorProps) => {
  const { frame, tongue, title, action, form, rows, kinds, say, standing } = props;
  const withdrawn = standing?.withdrawn;
  const errors = new Map([...form.errors, ...(standing?.pull.errors ?? []), ...(standing?.withdrawal.errors ?? [])]);
  const left = standing?.donor.parts.filter(({ pieces }) => pieces > 0) ?? [];
  return (
    <PartsFramed frame={frame} title={title} wrong={errors.size > 0}>
      <p class="links back">
        <a href="/parts/donors">Donor units</a>
      </p>
      <ErrorSummary errors={errors} />
      <Said say={withdrawn ? `Withdrawn by ${withdrawn.by}: ${withdrawn.reason}` : say} />
      {standing ? (
        <Table
          class="lines stacking"
          caption="What it holds"
          empty="Its list is empty."
          heads={["Part", ...figures("Can be pulled", "Price of one")]}
          rows={standing.donor.parts.map(({ kind, name, pieces, price }) => [
            <a href={`/parts/kinds/${encodeURIComponent(kind)}`}>{name}</a>,
            pieces === 0 ? "all pulled" : counted(pieces, "piece"),
            money(price, { ...tongue, currency: standing.donor.currency }),
          ])}
        />
      ) : null}
      {standing && !withdrawn && left.length > 0 ? (
        <Pull
          action={`${action}/pulls`}
          form={standing.pull}
          serves={standing.serves}
          parts={left.map(({ kind, name }) => [kind, name] as const)}
        />
      ) : null}
      {withdrawn ? null : (
        <form method="post" action={action} novalidate>
          {["token", "version", "drawn", "currency"].map((name) => (
            <input type="hidden" name={name} value={form.fields.get(name)} />
          ))}
          <fieldset class="part">
            <legend>{standing ? "The unit" : title}</legend>
            <div class="columns">
              {["maker", "model", "serial", "boughtOn", "cost"].map((name) => (
                <Ask form={form} name={name} />
              ))}
            </div>
            <Ask form={form} name="notes" />
          </fieldset>
          <fieldset class="part">
            <legend>Parts that can be pulled</legend>
            <p class="hint" id="parts-hint">
              A part is one of the catalogue; one that is not there yet you can{" "}
              <a href="/parts/kinds/new" target="_blank" rel="noopener">
                add to it
                <span class="unseen"> (opens a new tab)</span>
              </a>{" "}
              meanwhile. A price for one, or a share of the unit's cost for all of them. With neither, the pieces share what the
              others leave of the cost. Share good: of a hundred such pieces, how many work.{" "}
              <HelpLink help={form.says.get("parts.*.shareGood")?.help} label="Share good" />
            </p>
            <Table
              class="lines stacking stock"
              caption="Parts that can be pulled"
              heads={["Part", ...figures("Pieces", "Price of one", "Share of cost (%)", "Minutes to pull one", "Share good (%)")]}
              rows={Array.from({ length: rows }, (_, at) =>
                (
                  [
                    ["kind", "Part", "line"],
                    ["pieces", "Pieces", "figure"],
                    ["price", "Price of one", "money"],
                    ["costShare", "Share of cost", "figure"],
                    ["pullMinutes", "Minutes to pull one", "figure"],
                    ["shareGood", "Share good, %", "figure"],
                  ] as const
                ).map(([name, label, size]) => (
                  <CellBox
                    fields={form.fields}
                    errors={form.errors}
                    name={`parts.${at}.${name}`}
                    label={`${label}, row ${at + 1}`}
                    size={size}
                    {...(name === "kind" && { list: "kinds" })}
                  />
                )),
              )}
            />
          </fieldset>
          <KindList kinds={kinds} />
          <p class="actions">
            <button type="submit" class="primary">
              Save
            </button>
          </p>
        </form>
      )}
      {standing && !withdrawn ? <Withdraw action={`${action}/withdrawal`} form={standing.withdrawal} /> : null}
    </PartsFramed>
  );
};

interface PullProps {
  readonly action: string;
  readonly form: AskedForm;
  readonly parts: Options;
  readonly serves: Options;
}

const Pull = ({ action, form, parts, serves }: PullProps) => (
  <form method="post" action={action} novalidate>
    <input type="hidden" name="token" value={form.fields.get("token")} />
    <fieldset class="part">
      <legend>Pull parts</legend>
      <div class="columns">
        <Ask form={form} name="kind" options={parts} />
        <Ask form={form} name="pieces" />
        <Ask form={form} name="tested.good" />
        <Ask form={form} name="tested.bad" />
        <Ask form={form} name="pulledOn" />
        <Ask form={form} name="by" id="pull-by" autocomplete="name" />
        <Pick {...form} name="serves" label="For" options={[["", "The shelf"], ...serves]} />
      </div>
    </fieldset>
    <p class="actions">
      <button type="submit">Pull them</button>
    </p>
  </form>
);
