/** Another program that has the file open: runs each line it is sent as SQL, and answers with a line. */
import { createInterface } from "node:readline";
import Sqlite from "libsql";

const db = new Sqlite(process.argv[2]!);

for await (const sql of createInterface({ input: process.stdin })) {
  let answer: unknown;
  try {
    if (/^\s*SELECT/i.test(sql)) answer = { rows: db.prepare(sql).all() };
    else {
      db.exec(sql);
      answer = { rows: [] };
    }
  } catch (error) {
    answer = { refused: (error as Error).message };
  }
  process.stdout.write(`${JSON.stringify(answer)}\n`);
}
db.close();
