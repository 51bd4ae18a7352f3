/** npm run verify: recomputes what is on record and names the first thing that does not match. Changes nothing. */
import { check } from "./verify/check.js";

const { code, said } = await check(process.argv.slice(2), process.env);
(code >= 2 ? process.stderr : process.stdout).write(`${said}\n`, () => process.exit(code));
