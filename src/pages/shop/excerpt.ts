/** The part of a text in which the words looked for stand, and where in it they stand. */
export interface Piece {
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
