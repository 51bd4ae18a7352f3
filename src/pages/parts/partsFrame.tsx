/** The pages of parts to get, each with the way to the others. */
import type { Child } from "hono/jsx";
import { type Frame, Page } from "../frame/layout.js";

const PAGES = [
  ["/parts", "Order list"],
  ["/parts/goods-in", "Orders and goods in"],
  ["/parts/kinds", "Catalogue"],
  ["/parts/donors", "Donor units"],
  ["/parts/stock", "Stock"],
  ["/parts/rates", "Exchange rates"],
] as const;

interface PartsFrameProps {
  readonly frame: Frame;
  readonly title: string;
  readonly here?: (typeof PAGES)[number][0];
  readonly wrong?: boolean;
  readonly script?: string;
  readonly children?: Child;
}

export const PartsFramed = ({ frame, title, here, wrong = false, script, children }: PartsFrameProps) => (
  <Page frame={frame} title={title} at="/parts" wrong={wrong} {...(script && { script })}>
    <nav class="links screen sections" aria-label="Parts">
      {PAGES.map(([href, name]) => (
        <a href={href} {...(href === here ? { "aria-current": "page" } : {})}>
          {name}
        </a>
      ))}
    </nav>
    <h1>{title}</h1>
    {children}
  </Page>
);

/** Some names of parts, for a box with `list="kinds"`; the others of the catalogue are looked for while typing. */
export const KindList = ({ kinds, type }: { readonly kinds: readonly string[]; readonly type?: string }) => (
  <datalist id="kinds" data-find={type === undefined ? "/parts/kinds" : `/parts/kinds?type=${encodeURIComponent(type)}`}>
    {kinds.map((name) => (
      <option value={name} />
    ))}
  </datalist>
);

/** Jobs that something serves, each with its pieces. */
export const ServedJobs = ({
  served,
  jobs,
}: {
  served: readonly { readonly job: string; readonly pieces: number }[];
  jobs: ReadonlyMap<string, { readonly number: string; readonly unit?: string }>;
}) => (
  <ul class="served">
    {served.map(({ job, pieces }) => (
      <li>
        <a href={`/jobs/${job}/parts`} title={jobs.get(job)?.unit}>
          {jobs.get(job)?.number ?? job}
        </a>
        {`: ${pieces}`}
      </li>
    ))}
  </ul>
);
