/** The rate book as files: out as CSV and JSON, in again through what it does; and its versions. */
import { BOOK_PAGES, BOOK_PARTS, PART_NAMES } from "../../wording/rateBookParts.js";
import { FileBox, Pick } from "../frame/field.js";
import { BookPage, type BookView } from "./rateBook.js";

export const FilesPage = (view: BookView) => {
  const { form, book, newest } = view;
  const versions = Array.from({ length: newest }, (_, at) => newest - at).slice(0, 50);
  return (
    <BookPage {...view} title={BOOK_PAGES.files} at="files" files>
      <h2>Out</h2>
      <ul class="links">
        <li>
          <a href={`/rate-book/rate-book.json?version=${book.version}`}>The whole book, JSON</a>
        </li>
        {PART_NAMES.map((part) => (
          <li>
            <a href={`/rate-book/${part}.csv?version=${book.version}`}>{BOOK_PARTS[part].title}, CSV</a>
          </li>
        ))}
      </ul>
      <h2>In</h2>
      <p>What a file does not have stays as it is. Rows go by their id; a row without one is new. An empty cell takes away.</p>
      <Pick
        {...form}
        name="what"
        label="What it is"
        options={[
          ["json", "the whole book, JSON"],
          ...PART_NAMES.map((part) => [part, `${BOOK_PARTS[part].title}, CSV`] as const),
        ]}
      />
      <FileBox errors={form.errors} name="file" label="File" accept=".csv,.json,text/csv,application/json" />
      {form.fields.get("text") ? (
        <>
          <label for="text">Or its text</label>
          <textarea id="text" name="text" rows={8}>
            {`\n${form.fields.get("text")}`}
          </textarea>
        </>
      ) : (
        <details>
          <summary>Or paste its text</summary>
          <label class="unseen" for="text">
            Its text
          </label>
          <textarea id="text" name="text" rows={8} />
        </details>
      )}
      <h2>Versions</h2>
      <ul class="links">
        {versions.map((version) => (
          <li>
            <a href={`/rate-book?version=${version}`} {...(version === book.version ? { "aria-current": "true" } : {})}>
              Version {version}
            </a>
          </li>
        ))}
      </ul>
    </BookPage>
  );
};
