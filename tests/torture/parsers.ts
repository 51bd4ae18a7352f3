/**
 * Everything that reads what others wrote, with what nobody would write: no reader throws, and none takes long. What a browser says of its
 * languages (Accept-Language) is read nowhere: a shop has one.
 */
import { gzipSync } from "node:zlib";
import fc from "fast-check";
import { answerByLink } from "../../src/acts/answerByLink.js";
import { addExtraFault } from "../../src/acts/extraFault.js";
import { logWork } from "../../src/acts/logWork.js";
import { readForm, typedFrom } from "../../src/acts/readForm.js";
import { changeSettings } from "../../src/acts/settings.js";
import { takePayment } from "../../src/acts/takePayment.js";
import { guarded, unguarded } from "../../src/documents/csvText.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import { readPhoto, readPicture } from "../../src/documents/picture/readPicture.js";
import { decode } from "../../src/http/dataIn/decode.js";
import { readModelFile } from "../../src/http/dataIn/readModelFile.js";
import { readTable } from "../../src/http/dataIn/table.js";
import { seenIn } from "../../src/http/doors/etag.js";
import { heldIn, ownPath } from "../../src/http/frame/held.js";
import { hostsIn, isInside } from "../../src/http/guard/inside.js";
import { placeOf } from "../../src/http/guard/place.js";
import { callerBehind, hopsIn } from "../../src/http/guard/proxy.js";
import { readBackup } from "../../src/records/backup/read.js";
import { numbered } from "../../src/records/jobs.js";
import { wordsIn } from "../../src/records/search.js";
import { plainCode } from "../../src/records/secrets.js";
import { readFigure } from "../../src/wording/decimal.js";
import { knownLocale } from "../../src/wording/figures.js";
import { asLetter, KEYBOARD, priced } from "../documents/support/cast.js";
import { exif, jpeg, png, segment, webp } from "../http/support/pictures.js";

/** Any code points, halves of pairs too, and those that mean something to a reader. */
export const text = fc.oneof(
  fc.string({ unit: "binary", maxLength: 60 }),
  fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 40 }).map((codes) => String.fromCharCode(...codes)),
  fc
    .array(
      fc.constantFrom(
        ..."01239.,-+'\"\\/:;%[]{}()=&?#@ \t\r\n\0\u00a0\u202e\ufeff\u0660٣eE",
        "::",
        "ffff",
        "%00",
        "null",
        "J-",
        "__proto__",
        "é",
        "€",
      ),
      {
        maxLength: 30,
      },
    )
    .map((parts) => parts.join("")),
);
const bytes = fc.uint8Array({ maxLength: 400 });
/** A whole picture with bytes changed, put in and cut off. */
const picture = fc
  .record({
    of: fc.constantFrom(jpeg(), png(8, 4), png(300, 200), webp(), segment(0xe1, exif(6)), png(8, 4, [], 400)),
    changed: fc.array(fc.tuple(fc.nat(), fc.nat(255)), { maxLength: 6 }),
    more: fc.option(fc.tuple(fc.nat(), fc.uint8Array({ maxLength: 20 })), { nil: undefined }),
    cut: fc.option(fc.nat(), { nil: undefined }),
  })
  .map(({ of, changed, more, cut }) => {
    const file = Uint8Array.from(of);
    for (const [at, byte] of changed) file[at % file.length] = byte;
    const at = more ? more[0] % file.length : 0;
    const put = more ? Uint8Array.from([...file.slice(0, at), ...more[1], ...file.slice(at)]) : file;
    return cut === undefined ? put : put.slice(0, cut % put.length);
  });
const table = fc.array(fc.constantFrom('"', '""', ",", ";", "\t", "\r\n", "\n", "\r", "'=", "name", "type", "1", " "), {
  maxLength: 40,
});
const locale = fc.oneof(fc.constantFrom("en-GB", "de-DE", "fr-CH", "sv-SE", "hi-IN"), text);

/** As a form is sent: fields of the act, below them, and others. */
const form = (names: readonly string[]) =>
  fc.array(
    fc.tuple(
      fc.oneof(
        fc.constantFrom(...names),
        fc
          .tuple(fc.constantFrom(...names), fc.oneof(fc.constantFrom("0", "x", "__proto__", "1.name", "-1", "1e9"), text))
          .map((parts) => parts.join(".")),
        text,
      ),
      text,
    ),
    { maxLength: 12 },
  );
const FORMS = [answerByLink, addExtraFault, logWork, changeSettings, takePayment].map(({ fields, name }) => ({ fields, name }));

type Reader<T> = readonly [name: string, from: fc.Arbitrary<T>, read: (value: T) => unknown];
export const reader = <T>(...[name, from, read]: Reader<T>): Reader<unknown> => [name, from, read as (value: unknown) => unknown];

export const READERS: readonly Reader<unknown>[] = [
  reader("a picture, to be printed", fc.oneof(picture, bytes), readPicture),
  reader("a photo, to be kept", fc.oneof(picture, bytes), readPhoto),
  reader(
    "a file's letters",
    fc.oneof(
      bytes,
      text.map((said) => new TextEncoder().encode(said)),
    ),
    decode,
  ),
  reader(
    "a table",
    fc.oneof(
      table.map((parts) => parts.join("")),
      text,
    ),
    readTable,
  ),
  reader("a cell", text, (said) => unguarded(guarded(said))),
  reader("a model's file", fc.oneof(fc.json(), text), (said) => readModelFile(said, KEYBOARD.rateBook, true)),
  reader(
    "a backup",
    fc.oneof(
      bytes,
      fc.oneof(text, fc.json()).map((said) => Uint8Array.from(gzipSync(said))),
    ),
    (file) => readBackup(() => new Blob([file]).stream() as ReadableStream<Uint8Array>, 99),
  ),
  reader("a figure", fc.tuple(text, fc.constantFrom("." as const, "," as const), fc.nat(6)), ([said, mark, decimals]) =>
    readFigure(said, { mark, decimals }),
  ),
  reader("a locale", locale, knownLocale),
  ...FORMS.map(({ fields, name }) =>
    reader(`the form of ${name}`, fc.tuple(form(Object.keys(fields.shape)), locale), ([pairs, said]) =>
      readForm(fields, typedFrom(new URLSearchParams(pairs as [string, string][])), {
        locale: knownLocale(said),
        currency: "EUR",
      }),
    ),
  ),
  reader("a job's number", text, numbered),
  reader("words looked for", text, wordsIn),
  reader("a code", text, plainCode),
  reader("a held form", fc.oneof(text, fc.json()), heldIn),
  reader("a path to go on to", text, ownPath),
  reader("a caller's address", text, placeOf),
  reader("what a proxy says", fc.tuple(text, text), ([peer, forwarded]) =>
    callerBehind(hopsIn("127.0.0.1, 10.0.0.0/8, fd00::/8"), peer, forwarded),
  ),
  reader("the setting of proxies", text, hopsIn),
  reader("the setting of hosts", text, (said) => hostsIn(said).some(isInside)),
  reader("a version seen", text, seenIn),
];

/** Texts on one paper. */
const EACH = 50;

/** `longest`: milliseconds of this process. Each reader so many times, and so many texts on paper; a sentence for each that threw or took long. */
export async function parsed(
  runs: number,
  seed?: number,
  readers = READERS,
  longest = 1000,
): Promise<{ readonly read: number; readonly faults: readonly string[] }> {
  const faults: string[] = [];
  const bounded = { numRuns: runs, ...(seed !== undefined && { seed }) };
  let read = 0;
  const timed = async (name: string, value: unknown, run: () => unknown) => {
    read += 1;
    const before = process.cpuUsage();
    await run();
    const { user, system } = process.cpuUsage(before);
    if (user + system > longest * 1000)
      faults.push(`${name}: ${Math.round((user + system) / 1000)} ms for ${fc.stringify(value)}`);
  };
  for (const [name, from, run] of readers) {
    const found = await fc.check(
      fc.asyncProperty(from, (value) => timed(name, value, () => run(value))),
      bounded,
    );
    if (found.failed) faults.push(`${name}: ${String(found.errorInstance)} for ${fc.stringify(found.counterexample)}`);
  }
  const paper = fc.array(text, { minLength: EACH, maxLength: EACH });
  const printed = fc.asyncProperty(paper, (texts) =>
    timed("a paper", texts, async () => {
      const input = asLetter({
        ...KEYBOARD,
        unit: { ...KEYBOARD.unit, model: texts[0]!, reported: texts[1]! },
        items: KEYBOARD.items.map((item, at) => ({ ...item, reason: texts[2 + (at % 20)]! })),
        paperwork: { ...KEYBOARD.paperwork, detail: "every line", owner: { name: texts[22]! }, terms: texts.slice(23) },
      });
      const { bytes: made } = await estimatePdf(priced(input), input);
      if (!Buffer.from(made.slice(-1024)).includes("%%EOF")) throw new Error("no whole paper");
    }),
  );
  const found = await fc.check(printed, { ...bounded, numRuns: Math.ceil(runs / EACH) });
  if (found.failed) faults.push(`a paper: ${String(found.errorInstance)} for ${fc.stringify(found.counterexample)}`);
  return { read, faults };
}
