/** Tables of the rate book. */
export interface Row {
  readonly id: string;
  readonly cells: readonly string[];
}

export interface StandardsProps {
  readonly title: string;
  readonly lead?: string;
  readonly head: readonly string[];
  readonly rows: readonly Row[];
}

export const Standards = ({ title, lead, head, rows }: StandardsProps) => (
  <section>
    <h2>{title}</h2>
    {lead ? <p class="hint">{lead}</p> : null}
    <table class="list standards">
      <caption class="unseen">{title}</caption>
      <thead>
        <tr>
          {head.map((name) => (
            <th scope="col">{name}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ id, cells: [name, ...others] }) => (
          <tr id={id}>
            <th scope="row">{name}</th>
            {others.map((text, index) => (
              <td>
                <span class="narrow-name">{head[index + 1]}: </span>
                {text}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
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
