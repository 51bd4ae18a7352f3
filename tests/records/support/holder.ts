/** Holds the write lock for a second, saying when it has it. */
import Sqlite from "libsql";

const db = new Sqlite(process.argv[2]!);
db.exec("BEGIN IMMEDIATE");
process.stdout.write("held\n");
setTimeout(() => {
  db.exec("COMMIT");
  db.close();
}, 1000);
