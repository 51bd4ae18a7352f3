/** Where the shop's records come in and go out. */
import { type Frame, Page } from "../frame/layout.js";

interface DataPageProps {
  readonly frame: Frame;
  readonly sheets: readonly string[];
  /** Only a manager takes data out. */
  readonly mayTakeOut: boolean;
}

const words = (name: string): string => name.replaceAll("-", " ");

export const DataPage = ({ frame, sheets, mayTakeOut }: DataPageProps) => (
  <Page frame={frame} title="Data in and out" at="/settings">
    <h1>Data in and out</h1>
    <h2>In</h2>
    <p>Each file is read and shown first, row by row. Nothing is written until you say so, and then all of it or nothing.</p>
    <ul class="plain">
      <li>
        <a href="/data/in/part-kinds">Part kinds</a>: the catalogue, from CSV
      </li>
      <li>
        <a href="/data/in/offers">Offers</a>: who sells a part kind, and for how much, from CSV
      </li>
      <li>
        <a href="/data/in/exchange-rates">Exchange rates</a>: what other currencies cost in the shop's, by day, from CSV
      </li>
      <li>
        <a href="/data/in/parts-list">A parts list</a>: designators, values and counts become the counts of an assembly
      </li>
      <li>
        <a href="/models/import">A teardown map</a>: a model from another shop, as JSON
      </li>
    </ul>
    {mayTakeOut ? <Out sheets={sheets} /> : <p>Only a manager of the shop can export data, erase an owner or make a backup.</p>}
  </Page>
);

const Out = ({ sheets }: Pick<DataPageProps, "sheets">) => (
  <>
    <h2>Out</h2>
    <p>
      As CSV in UTF-8. A text that begins with =, +, - or @ has an apostrophe in front, so that no spreadsheet runs it; reading it
      back here takes the apostrophe off.
    </p>
    <ul class="plain">
      {sheets.map((name) => (
        <li>
          <a href={`/api/csv/${name}`} download={`${name}.csv`}>
            {words(name)}
          </a>
        </li>
      ))}
    </ul>
    <h2>One owner</h2>
    <p>
      <a href="/data/owners">Everything that is held about an owner</a>, to hand over or to erase.
    </p>
    <h2>Everything</h2>
    <p>
      <a href="/api/backup" download="ohmwright.backup.gz">
        Back up the whole shop
      </a>{" "}
      into one file. It holds your customers' data: keep it where only the shop can read it. <code>npm run restore</code> puts it
      into an empty database, and checks it.
    </p>
  </>
);
