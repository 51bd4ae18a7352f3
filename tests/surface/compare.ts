/** `tsx tests/surface/compare.ts BEFORE AFTER [--words]`: two folders written by `dump.ts`; prints what differs in routes and in the OpenAPI document, descriptions and examples only when asked for. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { differences, gathered } from "./differences.js";

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
const isWords = (line: string) => /\/(description|summary|examples?|title)[:/]/.test(line);
const told = gathered(process.argv.includes("--words") ? api : api.filter((line) => !isWords(line)));
const heads = [
  `Routes: ${routes.length} differences`,
  `OpenAPI: ${api.length} differences, ${api.filter(isWords).length} of them in words; told are ${told.length}`,
];
console.log([heads[0], ...routes, heads[1], ...told].join("\n"));
