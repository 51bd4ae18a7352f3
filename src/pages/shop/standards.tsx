/** Tables of the rate book. */
import { Table } from "../frame/table.js";

interface StandardsProps {
  readonly title: string;
  readonly lead?: string;
  readonly head: readonly string[];
  readonly rows: readonly { readonly id: string; readonly cells: readonly string[] }[];
}

export const Standards = ({ title, lead, head, rows }: StandardsProps) => (
  <section>
    <h2>{title}</h2>
    {lead ? <p class="hint">{lead}</p> : null}
    <Table class="list named standards" caption={title} heads={head} rows={rows} />
  </section>
);

/** Anchor, name, value. Several rows may share one entry: the first carries the anchor. */
export const Plain = ({ title, rows }: { title: string; rows: readonly (readonly [string, string, string])[] }) => (
  <section>
    <h2>{title}</h2>
    <dl class="plain">
      {rows.map(([id, name, value], index) => (
        <div {...(rows.findIndex((row) => row[0] === id) === index ? { id } : {})}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  </section>
);
