/**
 * The server over a folder of data whose database is migrated already. With `by statement` it is the control: each statement of a write
 * commits by itself, with a breath after it.
 */
import { setTimeout as breath } from "node:timers/promises";
import type { Client, InStatement } from "@libsql/client";
import { connectFile } from "../../src/records/connectFile.js";
import { startServer } from "../../src/server.js";

const [folder, how] = process.argv.slice(2);
const { db } = await connectFile(`file:${folder}/ohmwright.db`);
if (how === "by statement") {
  const { $client: client } = db as unknown as { readonly $client: Client };
  const whole = client.batch.bind(client);
  client.batch = async (statements, mode) => {
    const done = [];
    for (const each of statements as InStatement[]) {
      done.push(...(await whole([each], mode)));
      await breath(3);
    }
    return done;
  };
}
const { url } = await startServer({ db, host: "127.0.0.1", port: 0, secret: undefined });
process.stdout.write(`${url}\n`);
