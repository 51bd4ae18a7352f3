/** `tsx tests/surface/compare.ts BEFORE AFTER`: two folders written by `dump.ts`; prints what differs in routes and in the OpenAPI document. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { differences } from "./differences.js";

const [before, after] = process.argv.slice(2);
if (!before || !after) throw new Error("Name the two folders.");
const routesIn = (folder: string) => readFileSync(join(folder, "routes.txt"), "utf8").trim().split("\n");
const documentIn = (folder: string) => JSON.parse(readFileSync(join(folder, "openapi.json"), "utf8"));

const [was, is] = [new Set(routesIn(before)), new Set(routesIn(after))];
const routes = [
  ...[...is].filter((route) => !was.has(route)).map((route) => `+ ${route}`),
  ...[...was].filter((route) => !is.has(route)).map((route) => `- ${route}`),
];
const api = differences(documentIn(before), documentIn(after));
console.log([`Routes: ${routes.length} differences`, ...routes, `OpenAPI: ${api.length} differences`, ...api].join("\n"));
