/** What comes as bytes: backups put back, altered in places; and requests written to a socket by hand, in pieces and against the rules. */
import { connect } from "node:net";
import { gunzipSync, gzipSync } from "node:zlib";
import { type Answering, asked, type Dice, type Fuzzed, HOSTILE, written } from "./fuzz.js";
import { damaged, type Operation } from "./fuzzApi.js";

/** A line of it is another, gone or twice; or the file itself is damaged. */
function altered(backup: Uint8Array, of: Dice): Uint8Array<ArrayBuffer> {
  if (of.next() < 0.3) return damaged(backup, of);
  const lines = gunzipSync(backup).toString().split("\n");
  for (let times = 1 + of.below(3); times > 0; times -= 1) {
    const at = of.below(lines.length);
    const line = lines[at]!;
    const how = of.next();
    if (how < 0.2) lines.splice(at, 1);
    else if (how < 0.4) lines.splice(at, 0, line);
    else if (how < 0.6) lines[at] = written(of.one(HOSTILE));
    else if (how < 0.8) lines[at] = line.slice(0, of.below(line.length + 1));
    else lines[at] = line.replace(/:("[^"]*"|\d+)/, () => `:${written(of.one(HOSTILE))}`);
  }
  return Uint8Array.from(gzipSync(lines.join("\n")));
}

/** Into a shop that has nothing; answers whether something came in, which a whole and unaltered backup alone may. */
export async function fuzzRestore(app: Answering, backup: Uint8Array, of: Dice, into: Fuzzed): Promise<boolean> {
  const body = altered(backup, of);
  const headers = { "content-type": "application/gzip", "sec-fetch-site": "same-origin" };
  const answer = await asked(app, "POST /api/restore", "/api/restore", { method: "POST", headers, body }, into);
  return answer !== undefined && answer.status < 300;
}

/** In pieces, as HTTP/1.1 has it (RFC 9112, 7.1), or nearly so. */
function pieces(text: string, of: Dice): string {
  const cuts = Array.from({ length: of.below(5) }, () => of.below(text.length + 1)).sort((a, b) => a - b);
  const parts = [...cuts, text.length].map((cut, index) => text.slice(cuts[index - 1] ?? 0, cut)).filter((part) => part !== "");
  const size = (part: string) => Buffer.byteLength(part).toString(16);
  const whole = parts.map((part) => `${size(part)}\r\n${part}\r\n`).join("");
  const how = of.next();
  if (how < 0.5) return `${whole}0\r\n\r\n`;
  if (how < 0.6) return whole.slice(0, of.below(whole.length + 1));
  if (how < 0.7) return `${of.one(["zz", "-1", "ffffffffffffffff", "", "5;a=b", "0x5"])}\r\n${text}\r\n0\r\n\r\n`;
  if (how < 0.8) return `${whole}0\r\nx-trailer: ${"y".repeat(of.below(40_000))}\r\n\r\n`;
  if (how < 0.9) return `${whole.replaceAll("\r\n", "\n")}0\n\n`;
  return `${"1\r\n \r\n".repeat(of.below(3000))}${whole}0\r\n\r\n`;
}

/** The status that a request written by hand is answered with; undefined: the connection was closed without. */
function byHand(port: number, request: string): Promise<number | undefined> {
  return new Promise((done) => {
    const socket = connect(port, "127.0.0.1");
    let said = "";
    const end = () => {
      socket.destroy();
      done(said === "" ? undefined : Number(/^HTTP\/1\.1 (\d{3})/.exec(said)?.[1] ?? 0));
    };
    // Whoever sends no end waits for none: the server ends it in its own time.
    const late = setTimeout(end, 1500);
    socket.setEncoding("latin1").on("data", (part: string) => {
      said += part;
      if (/^HTTP\/1\.1 (?!100)\d{3}[\s\S]*\r\n\r\n/.test(said)) end();
    });
    socket.on("error", end).on("close", () => {
      clearTimeout(late);
      end();
    });
    socket.write(request);
  });
}

export async function fuzzSocket(
  port: number,
  { method, path, example }: Operation,
  ids: readonly string[],
  of: Dice,
  into: Fuzzed,
) {
  const at = path.replaceAll(/\{[^}]+\}/g, () => of.one(ids));
  const text = written(of.next() < 0.5 ? (example ?? {}) : of.one(HOSTILE));
  const more = of.next() < 0.15 ? `Content-Length: ${of.one(["5", "0", "-1", "99999999"])}\r\n` : "";
  const coding = of.next() < 0.8 ? "chunked" : of.one(["gzip, chunked", "identity", "chunked, chunked", "x"]);
  const head = `${method} ${at} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nTransfer-Encoding: ${coding}\r\n${more}\r\n`;
  into.requests += 1;
  const route = `SOCKET ${method} ${path}`;
  const status = await byHand(port, head + pieces(text, of));
  const told = into.routes.get(route) ?? { times: 0, refused: 0, worst: 0 };
  const refused = status === undefined || status >= 400 ? 1 : 0;
  into.routes.set(route, { ...told, times: told.times + 1, refused: told.refused + refused });
  // 501: a coding nobody knows (RFC 9112, 6.1).
  if (status === 0 || (status !== undefined && status >= 500 && ![501, 503].includes(status)))
    into.faults.push(`${route}: ${status} for ${head.slice(0, 120)} ${text.slice(0, 200)}`);
}
