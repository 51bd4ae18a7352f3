/** The tour as it is read: pictures, words, and how long the way to the first PDF takes. */
import type { Stop } from "./guide.js";
import { FIRST_PDF } from "./tour.js";

/** Common practice, no source: a slow typist, who looks for each thing before clicking and reads each new page. */
const SECONDS = { key: 0.3, click: 3, page: 10 };

export interface Way {
  readonly clicks: number;
  readonly keys: number;
  readonly pages: number;
  readonly seconds: number;
}

export function wayToPdf(stops: readonly Stop[]): Way {
  const way = stops.slice(0, stops.findIndex(({ name }) => name === FIRST_PDF) + 1);
  const clicks = way.reduce((sum, stop) => sum + stop.clicks, 0);
  const keys = way.reduce((sum, stop) => sum + stop.keys, 0);
  const seconds = Math.round(keys * SECONDS.key + clicks * SECONDS.click + way.length * SECONDS.page);
  return { clicks, keys, pages: way.length, seconds };
}

export function tourText(stops: readonly Stop[]): string {
  const { clicks, keys, pages, seconds } = wayToPdf(stops);
  return `# A tour of the demo shop

Made by \`npm run tour\`, which walks through the demo shop in a browser; the tests walk the same way. Makers, models and people are invented.

From the first page to the first PDF: ${counted(clicks, "click")} and ${counted(keys, "key")} on ${pages} pages, about ${Math.floor(seconds / 60)} min ${seconds % 60} s for someone new, at ${SECONDS.key} s a key, ${SECONDS.click} s a click and ${SECONDS.page} s to read each page (common practice, no source).

${stops.map((stop, index) => part(stop, index + 1)).join("\n\n")}
`;
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? "" : "s"}`;

const part = ({ name, title, text, clicks, keys }: Stop, number: number): string =>
  `## ${number}. ${title}

${text}${clicks + keys > 0 ? ` (${counted(clicks, "click")}, ${counted(keys, "key")}.)` : ""}

![${title}](${String(number).padStart(2, "0")}-${name}.png)`;
