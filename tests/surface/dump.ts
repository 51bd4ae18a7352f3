/** `tsx tests/surface/dump.ts FOLDER`: the OpenAPI document and the table of routes as they are, for `compare.ts` to hold later ones against. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openShop } from "../http/support/shop.js";

const folder = process.argv[2];
if (!folder) throw new Error("Name the folder to write to.");
const { app, close } = await openShop();
const routes = new Set(app.routes.filter(({ method }) => method !== "ALL").map(({ method, path }) => `${method} ${path}`));
const document = await app.request("http://localhost:4700/openapi.json");
mkdirSync(folder, { recursive: true });
writeFileSync(join(folder, "routes.txt"), `${[...routes].sort().join("\n")}\n`);
writeFileSync(join(folder, "openapi.json"), `${JSON.stringify(await document.json(), null, 2)}\n`);
await close();
