/** What the next version would do, before it is saved; it carries the form, so that nothing typed is lost. */
import type { Minor } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Tick } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { figure, Table } from "../frame/table.js";

interface Repriced {
  readonly job: string;
  readonly number: string;
  readonly unit: string;
  readonly estimate: string;
  readonly revision: number;
  readonly was?: Minor;
  readonly becomes?: Minor;
  readonly why?: string;
}

interface EffectProps {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly next: { readonly version: number; readonly inForceFrom: string };
  /** It starts today or before. */
  readonly now: boolean;
  /** What, before, after. */
  readonly changes: readonly (readonly [what: string, was: string, becomes: string])[];
  readonly drafts: readonly Repriced[];
  readonly issued: readonly Repriced[];
  readonly to: string;
  readonly carried: readonly (readonly [name: string, value: string])[];
  readonly token: string;
}

export const EffectPage = ({ frame, tongue, next, now, changes, drafts, issued, to, carried, token }: EffectProps) => (
  <Page frame={frame} title="What it does" at="/rate-book">
    <div class="heading">
      <h1>What it does</h1>
      <p>{`Version ${next.version}, from ${day(next.inForceFrom, tongue.locale)}. Nothing is saved yet.`}</p>
    </div>
    <Table
      class="list named effect"
      caption="What changes"
      captionSeen
      empty="No figure changes, only where one comes from."
      heads={["Figure", "Now", "Then"]}
      rows={changes}
    />
    <form method="post" action={to} class="rates">
      {carried.map(([name, value]) => (
        <input type="hidden" name={name} value={value} />
      ))}
      <input type="hidden" name="token" value={token} />
      <Totals title="Open drafts" rows={drafts} tongue={tongue} empty="No draft is open." tick={now} />
      <Totals title="The last ten jobs" rows={issued} tongue={tongue} empty="No estimate was issued yet." was="As issued" />
      <p>Issued estimates keep their version{now ? ", and so does a draft that is not ticked" : " and so do drafts"}.</p>
      <p class="actions">
        <button type="submit" name="intent" value="save" class="primary">
          Save version {next.version}
        </button>
        <button type="submit" name="intent" value="back">
          Back to the figures
        </button>
      </p>
    </form>
  </Page>
);

interface TotalsProps {
  readonly title: string;
  readonly rows: readonly Repriced[];
  readonly tongue: Tongue;
  readonly empty: string;
  readonly tick?: boolean;
  /** What the figure before is. */
  readonly was?: string;
}

const Totals = ({ title, rows, tongue, empty, tick = false, was: before = "Now" }: TotalsProps) => {
  const both = rows.filter(({ was, becomes }) => was !== undefined && becomes !== undefined);
  const sum = (pick: (row: Repriced) => Minor) => both.reduce((total, row) => total + pick(row), 0);
  const [was, becomes] = [sum((row) => row.was!), sum((row) => row.becomes!)];
  const shown = (amount: Minor | undefined) => (amount === undefined ? "cannot be priced" : money(amount, tongue));
  return (
    <Table
      class="list named effect"
      caption={title}
      captionSeen
      heads={["Job", figure(before), figure("Then"), figure("Difference")]}
      empty={`${title}: ${empty}`}
      rows={rows.map((row) => [
        <>
          {tick && row.becomes !== undefined ? (
            <Tick
              name="drafts"
              id={`draft-${row.estimate}`}
              value={row.estimate}
              checked={false}
              label={`Price ${row.number} by it`}
            />
          ) : (
            <a href={`/jobs/${row.job}`}>{row.number}</a>
          )}
          <div class="hint">{`${row.unit}, revision ${row.revision}`}</div>
          {row.why ? <div class="hint">{row.why}</div> : null}
        </>,
        shown(row.was),
        shown(row.becomes),
        row.was === undefined || row.becomes === undefined ? "" : signed(row.becomes - row.was, tongue),
      ])}
      foot={
        both.length > 1
          ? [[`Sum of ${counted(both.length, "job")}`, money(was, tongue), money(becomes, tongue), signed(becomes - was, tongue)]]
          : []
      }
    />
  );
};

const signed = (amount: Minor, tongue: Tongue): string => `${amount > 0 ? "+" : ""}${money(amount, tongue)}`;
