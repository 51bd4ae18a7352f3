/** The server over a folder of data whose database is migrated already; with `by statement`, as a control. */
import { connectFile } from "../../src/records/connectFile.js";
import { photoFolder } from "../../src/records/photoFolder.js";
import { startServer } from "../../src/server.js";
import { byStatement } from "./byStatement.js";

const [folder, how] = process.argv.slice(2);
const { db } = await connectFile(`file:${folder}/ohmwright.db`);
if (how === "by statement") byStatement(db);
const photos = photoFolder(`${folder}/photos`);
const { url } = await startServer({ db, photos, host: "127.0.0.1", port: 0, secret: undefined });
process.stdout.write(`${url}\n`);
