/** The heads of a table's columns. */
export interface Head {
  readonly name: string;
  /** Above figures, which stand to the right; or heard and not seen, above buttons and marks. */
  readonly as?: "figure" | "unseen";
}

export const figure = (name: string): Head => ({ name, as: "figure" });
export const unseen = (name: string): Head => ({ name, as: "unseen" });

export const Heads = ({ of }: { of: readonly (string | Head)[] }) => (
  <thead>
    <tr>
      {of
        .map((head): Head => (typeof head === "string" ? { name: head } : head))
        .map(({ name, as }) => (
          <th scope="col" {...(as === "figure" && { class: "figure" })}>
            {as === "unseen" ? <span class="unseen">{name}</span> : name}
          </th>
        ))}
    </tr>
  </thead>
);
