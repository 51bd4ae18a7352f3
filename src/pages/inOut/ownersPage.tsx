/** Owners, to find the one whose data is asked for. */

import { Box } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { Heads } from "../frame/table.js";

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
      <table class="list">
        <caption class="unseen">Owners</caption>
        <Heads of={["Name", "Reached by"]} />
        <tbody>
          {rows.map((row) => (
            <tr>
              <th scope="row">
                <a href={`/data/owners/${encodeURIComponent(row.id)}`}>{row.name}</a>
              </th>
              <td>{row.contact ?? ""}</td>
            </tr>
          ))}
        </tbody>
      </table>
    )}
    {more ? <p>There are more; type more of the name.</p> : null}
  </Page>
);
