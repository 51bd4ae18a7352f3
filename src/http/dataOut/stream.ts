/** A table as it is read: the first page goes out before the last is looked up. */
import { csvText } from "../../documents/csvText.js";
import type { Database } from "../../records/database.js";
import type { Sheet } from "./columns.js";

export function csvStream({ columns, rows }: Sheet, db: Database): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  const pages = rows(db)[Symbol.asyncIterator]();
  let begun = false;
  return new ReadableStream({
    pull: async (controller) => {
      if (!begun) {
        begun = true;
        // With a byte order mark spreadsheets know the encoding (Unicode 15, 23.8, from memory).
        controller.enqueue(encoder.encode(`\uFEFF${csvText([columns])}`));
        return;
      }
      for (;;) {
        const { done, value } = await pages.next();
        if (done) return controller.close();
        if (value.length === 0) continue;
        return controller.enqueue(encoder.encode(csvText(value)));
      }
    },
  });
}
