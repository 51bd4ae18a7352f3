/** Owners, to find the one whose data is asked for. */

import { Box } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { Table } from "../frame/table.js";

export interface OwnersPageProps {
  readonly frame: Frame;
  readonly name: string;
  readonly rows: readonly { readonly id: string; readonly name: string; readonly contact?: string | undefined }[];
  readonly more: boolean;
}

export const OwnersPage = ({ frame, name, rows, more }: OwnersPageProps) => (
  <Page frame={frame} title="One owner's data" at="/settings">
    <h1>One owner's data</h1>
    <form method="get" action="/data/owners" class="inline">
      <Box name="name" label="Name begins with" fields={new Map([["name", name]])} errors={new Map()} size="line" />
      <button type="submit">Look</button>
    </form>
    {rows.length === 0 ? (
      <p>Nobody of that name is on record.</p>
    ) : (
      <Table
        class="list"
        caption="Owners"
        heads={["Name", "Reached by"]}
        rows={rows.map((row) => [<a href={`/data/owners/${encodeURIComponent(row.id)}`}>{row.name}</a>, row.contact])}
      />
    )}
    {more ? <p>There are more; type more of the name.</p> : null}
  </Page>
);
