/** Holds the write lock until its input ends, saying when it has it. */
import Sqlite from "libsql";

const db = new Sqlite(process.argv[2]!);
db.exec("BEGIN IMMEDIATE");
process.stdout.write("held\n");
process.stdin.resume().on("end", () => {
  db.exec("COMMIT");
  db.close();
});
