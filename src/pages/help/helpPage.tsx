/** The guides as pages: the index, one page a subject. Drawn from Markdown that is ours, so of it only what the guides use is read. */
import type { Child } from "hono/jsx";
import { Bare, type Frame, Page } from "../frame/layout.js";
import type { Guide } from "./guide.js";
import { GUIDES } from "./guides.js";

/** Whoever is not signed in sees nothing of the shop. */
export type HelpFrame =
  | { readonly shop: Frame }
  | { readonly bare: { readonly style: string | undefined; readonly icon: string } };

const Around = ({ frame, title, children }: { frame: HelpFrame; title: string; children: Child }) =>
  "shop" in frame ? (
    <Page frame={frame.shop} title={title}>
      {children}
    </Page>
  ) : (
    <Bare {...frame.bare} title={title}>
      {children}
    </Bare>
  );

export const HelpIndex = ({ frame }: { frame: HelpFrame }) => (
  <Around frame={frame} title="Help">
    <h1>Help</h1>
    <dl class="meanings">
      {GUIDES.map(({ slug, title, gist }) => (
        <div>
          <dt>
            <a href={`/help/${slug}`}>{title}</a>
          </dt>
          <dd>{gist}.</dd>
        </div>
      ))}
    </dl>
  </Around>
);

export const HelpPage = ({ frame, guide }: { frame: HelpFrame; guide: Guide }) => (
  <Around frame={frame} title={guide.title}>
    <p class="links back">
      <a href="/help">Help</a>
    </p>
    <h1>{guide.title}</h1>
    {guide.text
      .trim()
      .split(/\n{2,}/)
      .map((block) => (
        <Block text={block} />
      ))}
  </Around>
);

const Block = ({ text }: { text: string }) => {
  const rows = text.split("\n");
  const heading = /^## (.+?) \{#([\w-]+)\}$/.exec(text);
  if (heading) return <h2 id={heading[2]}>{inline(heading[1]!)}</h2>;
  if (text.startsWith("- "))
    return (
      <ul>
        {rows.map((row) => (
          <li>{inline(row.slice(2))}</li>
        ))}
      </ul>
    );
  if (text.startsWith("1. "))
    return (
      <ol>
        {rows.map((row) => (
          <li>{inline(row.replace(/^\d+\. /, ""))}</li>
        ))}
      </ol>
    );
  return text.startsWith("| ") ? <Table rows={rows.map(cells)} /> : <p>{inline(text)}</p>;
};

const cells = (row: string): readonly string[] =>
  row
    .split("|")
    .slice(1, -1)
    .map((cell) => cell.trim());

const Table = ({ rows: [heads = [], , ...rows] }: { rows: readonly (readonly string[])[] }) => (
  <div class="scroll" tabindex={0}>
    <table>
      <thead>
        <tr>
          {heads.map((head) => (
            <th scope="col">{inline(head)}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([first = "", ...rest]) => (
          <tr>
            <th scope="row">{inline(first)}</th>
            {rest.map((cell) => (
              <td>{inline(cell)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

const MARKED = /(\*\*[^*]+\*\*|\*[^*]+\*|`[^`]+`|\[[^\]]+\]\([^)]+\))/;

const inline = (text: string): Child[] =>
  text.split(MARKED).map((piece) => {
    const link = /^\[([^\]]+)\]\(([^)]+)\)$/.exec(piece);
    if (link) return <a href={link[2]}>{link[1]}</a>;
    if (piece.startsWith("**")) return <strong>{piece.slice(2, -2)}</strong>;
    if (piece.startsWith("*") && piece.length > 1) return <em>{piece.slice(1, -1)}</em>;
    return piece.startsWith("`") ? <code>{piece.slice(1, -1)}</code> : piece;
  });
