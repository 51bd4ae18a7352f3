/** Adds owners until it is killed, telling each id once it was acknowledged. */
import { connectFile } from "../../../src/records/connectFile.js";
import { owners } from "../../../src/records/owners.js";
import { put } from "./put.js";

const { db } = await connectFile(`file:${process.argv[2]}`);
for (let n = 0; ; n++) {
  const id = `owner-${n}`;
  await put(db, owners, id, { name: `Owner ${n}` }, "2026-11-25T09:00:00.000Z");
  process.stdout.write(`${id}\n`);
}
