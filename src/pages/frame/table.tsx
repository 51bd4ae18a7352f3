/** A table from data: caption, heads with their scope, a first column that names its row, figures to the right, sums below. */
import type { Child } from "hono/jsx";

interface Head {
  readonly name: string;
  /** Above figures, which stand to the right; or heard and not seen, above buttons and marks. */
  readonly as?: "figure" | "unseen";
  /** Of the head and of every cell below it. */
  readonly class?: string;
}

export const figure = (name: string): Head => ({ name, as: "figure" });
export const figures = (...names: readonly string[]): Head[] => names.map(figure);
export const unseen = (name: string): Head => ({ name, as: "unseen" });

type Cells = readonly Child[];
type Row = Cells | { readonly cells: Cells; readonly class?: string | false | undefined; readonly id?: string };

interface TableProps {
  readonly caption: string;
  /** Where no heading says the same. */
  readonly captionSeen?: boolean;
  /**
   * `lines`: what adds up or is looked up, `lines stacking` where rows turn into cards on a narrow screen; `list`: records, cards
   * there too, `list named` where every part of a card says what it is, not its figures alone.
   */
  readonly class?: string;
  readonly id?: string;
  readonly heads?: readonly (string | Head)[];
  readonly rows?: readonly Row[];
  /** Their first cell takes the columns that are left over. */
  readonly foot?: readonly Cells[];
  /** Wider than a narrow screen: it moves sideways by itself, under its caption or this name. */
  readonly scroll?: boolean | string;
  /** What is said in place of a table without rows. */
  readonly empty?: string;
  /** Bodies of more than plain rows. */
  readonly children?: Child;
}

export const Table = (props: TableProps) => {
  const { caption, captionSeen = false, id, heads = [], rows = [], foot = [], scroll, empty, children } = props;
  const columns = heads.map(asHead);
  if (rows.length === 0 && children === undefined && empty !== undefined) return <p class="empty">{empty}</p>;
  const table = (
    <table {...(props.class && { class: props.class })} {...(id && { id })}>
      <caption {...(!captionSeen && { class: "unseen" })}>{caption}</caption>
      {columns.length > 0 ? <Heads of={columns} /> : null}
      {children ?? (
        <tbody>
          {rows.map((row) => (
            <BodyRow row={row} columns={columns} named={props.class} />
          ))}
        </tbody>
      )}
      {foot.length > 0 ? (
        <tfoot>
          {foot.map(([name, ...figures]) => (
            <tr>
              <th scope="row" {...spanning(columns.length - figures.length)}>
                {name}
              </th>
              {figures.map((text) => (
                <td class="figure">{text}</td>
              ))}
            </tr>
          ))}
        </tfoot>
      ) : null}
    </table>
  );
  if (!scroll) return table;
  return (
    <section class="scroll" tabindex={0} aria-label={scroll === true ? caption : scroll}>
      {table}
    </section>
  );
};

const spanning = (columns: number) => (columns > 1 ? { colspan: columns } : {});

const asHead = (head: string | Head): Head => (typeof head === "string" ? { name: head } : head);

const Heads = ({ of }: { of: readonly (string | Head)[] }) => (
  <thead>
    <tr>
      {of.map(asHead).map((head) => (
        <th scope="col" {...classOf(head)}>
          {head.as === "unseen" ? <span class="unseen">{head.name}</span> : head.name}
        </th>
      ))}
    </tr>
  </thead>
);

const BodyRow = ({ row, columns, named = "" }: { row: Row; columns: readonly Head[]; named: string | undefined }) => {
  const { cells, class: own, id } = "cells" in row ? row : { cells: row };
  const [name, ...others] = cells;
  const every = /\b(stacking|named)\b/.test(named);
  const list = named.startsWith("list");
  return (
    <tr {...(own && { class: own })} {...(id && { id })}>
      <th scope="row">{name}</th>
      {others.map((cell, index) => {
        const head = columns[index + 1];
        // A card has no heads: each of its figures says what it is.
        const says = head && head.as !== "unseen" && (every || (list && head.as === "figure"));
        return (
          <td {...classOf(head)} {...(says && { "data-name": head.name })}>
            {cell}
          </td>
        );
      })}
    </tr>
  );
};

const classOf = (head: Head | undefined) => {
  const own = [head?.as === "figure" && "figure", head?.class].filter(Boolean).join(" ");
  return own ? { class: own } : {};
};
