/** One side of the comparison, as its own process: the shop over a folder of data, or raw node:http that sends as many bytes as its path asks for. Tells its processor time when asked. */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { connectFile } from "../../../src/records/connectFile.js";
import { startServer } from "../../../src/server.js";

const folder = process.argv[2];
const tell = (value: unknown) => process.send!(value);
process.on("message", () => tell(process.cpuUsage()));
process.on("disconnect", () => process.exit(0));
tell(folder ? await shop(folder) : await raw());

async function shop(folder: string): Promise<string> {
  const { db } = await connectFile(`file:${folder}/ohmwright.db`);
  const { url } = await startServer({ db, host: "127.0.0.1", port: 0, secret: undefined, write: () => {} });
  return url;
}

function raw(): Promise<string> {
  const bodies = new Map<string, Buffer>();
  const server = createServer((request, response) => {
    // What is sent is read, on both sides.
    request.resume().on("end", () => {
      const path = request.url!;
      if (!bodies.has(path)) bodies.set(path, Buffer.alloc(Number(path.slice(1)), "a"));
      const body = bodies.get(path)!;
      response.writeHead(200, { "content-type": "text/html; charset=utf-8", "content-length": body.length }).end(body);
    });
  });
  return new Promise((resolve) => {
    server.listen(0, "127.0.0.1", () => resolve(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`));
  });
}
