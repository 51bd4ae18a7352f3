/** Finds a job by anything in it. Answers as one types; the arrows and Enter go through what was found. */
import type { IsoDate } from "../../estimating/input.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import { type Frame, Page } from "../frame/layout.js";

interface FoundRow {
  readonly jobId: string;
  readonly number: string;
  readonly arrivedOn: IsoDate;
  readonly owner: string;
  readonly unit: string;
  readonly serial?: string;
  readonly told: string;
}

interface FindProps {
  readonly frame: Frame;
  readonly script: string;
  readonly locale: string;
  readonly typed: string;
  readonly words: readonly string[];
  readonly rows: readonly FoundRow[];
  /** More were found than are shown. */
  readonly more: boolean;
  /** Of the help. */
  readonly guides: readonly { readonly href: string; readonly title: string; readonly text: string }[];
}

export const FindPage = ({ frame, script, locale, typed, words, rows, more, guides }: FindProps) => (
  <Page frame={frame} title="Find" at="/find" script={script}>
    <h1>Find</h1>
    <search>
      <form method="get" action="/find" id="find">
        <label for="q">Owner, unit, serial, fault or note</label>
        <p class="hint" id="q-hint">
          Two letters or more; several words narrow it down. Arrow keys go through what was found, Enter opens it.
        </p>
        <div class="find-row">
          <input
            id="q"
            name="q"
            type="search"
            value={typed}
            aria-describedby="q-hint"
            autocomplete="off"
            spellcheck={false}
            autofocus
          />
          <button type="submit" class="primary">
            Find
          </button>
        </div>
      </form>
    </search>
    <div id="found">
      <p role="status" id="found-said">
        {said(typed, words, rows.length, more)}
        {guides.length > 0 ? ` ${counted(guides.length, "page")} of the help ${guides.length === 1 ? "has" : "have"} it.` : ""}
      </p>
      {rows.length > 0 ? (
        <ol class="found">
          {rows.map((row) => (
            <li>
              <a href={`/jobs/${row.jobId}`}>
                <Marked text={`${row.number} · ${row.unit}`} words={words} />
              </a>
              <div>
                <Marked text={[row.owner, row.serial && `serial ${row.serial}`].filter(Boolean).join(" · ")} words={words} />
                {` · came in ${day(row.arrivedOn, locale)}`}
              </div>
              {row.told ? (
                <div class="hint">
                  <Marked text={row.told} words={words} />
                </div>
              ) : null}
            </li>
          ))}
        </ol>
      ) : null}
      {guides.length > 0 ? (
        <>
          <h2>In the help</h2>
          <ol class="found">
            {guides.map(({ href, title, text }) => (
              <li>
                <a href={href}>
                  <Marked text={title} words={words} />
                </a>
                <div class="hint">
                  <Marked text={text} words={words} />
                </div>
              </li>
            ))}
          </ol>
        </>
      ) : null}
    </div>
  </Page>
);

const Marked = ({ text, words }: { text: string; words: readonly string[] }) => (
  <>{excerpt(text, words).map((piece) => (piece.hit ? <mark>{piece.text}</mark> : piece.text))}</>
);

function said(typed: string, words: readonly string[], count: number, more: boolean): string {
  if (typed.trim() === "") return "";
  if (words.length === 0) return "Type two letters or figures of a word, or more.";
  if (count === 0) return "Nothing on record has all of these words. Try fewer, or the beginning of a word.";
  if (more) return `The newest ${count} are shown. One more word narrows it down.`;
  return count === 1 ? "One job found." : `${count} jobs found.`;
}

/** The part of a text in which the words looked for stand, and where in it they stand. */
interface Piece {
  readonly text: string;
  readonly hit: boolean;
}

const AROUND = 60;
const WHOLE = 160;

/** Without case and accents, letter for letter as long as the text: what has no single letter beneath stays as it is. */
const plain = (text: string): string =>
  [...text]
    .map((letter) => {
      const bare = letter.normalize("NFD").replaceAll(/\p{M}/gu, "").toLowerCase();
      return bare.length === letter.length ? bare : letter;
    })
    .join("");

export function excerpt(text: string, words: readonly string[]): Piece[] {
  const [folded, wanted] = [plain(text), words.map(plain)];
  const first = Math.min(...wanted.map((word) => folded.indexOf(word)).filter((at) => at >= 0), folded.length);
  const from = text.length <= WHOLE || first <= AROUND || first === folded.length ? 0 : text.lastIndexOf(" ", first - AROUND) + 1;
  const cut = text.length - from <= WHOLE ? text.length : text.lastIndexOf(" ", from + WHOLE);
  const to = cut <= from ? from + WHOLE : cut;
  const pieces: Piece[] = [];
  let at = from;
  while (at < to) {
    const hits = wanted
      .map((word) => ({ start: folded.indexOf(word, at), length: word.length }))
      .filter(({ start, length }) => start >= 0 && start + length <= to)
      .sort((a, b) => a.start - b.start || b.length - a.length);
    const hit = hits[0];
    if (!hit) break;
    if (hit.start > at) pieces.push({ text: text.slice(at, hit.start), hit: false });
    pieces.push({ text: text.slice(hit.start, hit.start + hit.length), hit: true });
    at = hit.start + hit.length;
  }
  if (at < to) pieces.push({ text: text.slice(at, to), hit: false });
  if (pieces.length === 0) return [];
  return [
    ...(from > 0 ? [{ text: "… ", hit: false }] : []),
    ...pieces,
    ...(to < text.length ? [{ text: " …", hit: false }] : []),
  ];
}
