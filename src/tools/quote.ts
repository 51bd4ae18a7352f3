/** npm run quote: what it says and its exit code are in quote/quote.ts. */
import { text } from "node:stream/consumers";
import { quote } from "./quote/quote.js";

process.exitCode = await quote(process.argv.slice(2), {
  say: (line) => process.stdout.write(`${line}\n`),
  complain: (line) => process.stderr.write(`${line}\n`),
  typed: () => text(process.stdin),
});
