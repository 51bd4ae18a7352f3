/** npm start: the shop on this machine, over a file database. */
import { HELP, readOptions } from "./start/options.js";

const say = (text: string) => process.stdout.write(`${text}\n`);

function leave(why: string, code = 1): never {
  process.stderr.write(`${why}\n`);
  process.exit(code);
}

const options = readOptions(process.argv.slice(2), process.env);
if (options.is === "help") {
  say(HELP);
  process.exit(0);
}
if (options.is === "refused") leave(options.why);

// Loaded after the options are: help and refusals come at once.
const { open } = await import("./start/open.js");
const shop = await open(options.start, say);
if (shop.is === "refused") leave(shop.why, shop.code);
say(`Ohmwright is at ${shop.url}`);
if (options.start.secret)
  say(
    `${shop.hasAccounts ? "" : "Sign in with OHMWRIGHT_SECRET until someone has an account. "}Browsers keep the sign-in only over HTTPS or on localhost.`,
  );
say("Stop it with Ctrl-C.");

let stopping = false;
for (const signal of ["SIGINT", "SIGTERM"] as const) {
  process.on(signal, async () => {
    if (stopping) return;
    stopping = true;
    await shop.stop();
    process.exit(0);
  });
}
