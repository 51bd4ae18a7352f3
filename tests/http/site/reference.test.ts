import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openApiDocument } from "../../../src/http/api/index.js";
import { listed } from "../../../src/http/problems/listed.js";
import type { ApiDocument } from "../../../src/pages/reference/document.js";
import { openShop } from "../support/shop.js";

const browser = { headers: { accept: "text/html,*/*" } };
const document = JSON.parse(openApiDocument()) as ApiDocument;
const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, operation]) => ({ path, method: method.toUpperCase(), ...operation })),
);

let shop: Awaited<ReturnType<typeof openShop>>;
let html: string;
let ids: readonly string[];
beforeAll(async () => {
  shop = await openShop();
  html = await (await shop.call("/api", browser)).text();
  ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]!);
});
afterAll(() => shop.close());

/** What stands between this anchor and the next heading. */
const partAt = (id: string): string => html.slice(html.indexOf(` id="${id}"`)).split(/<h[23]/)[0]!;

describe("the API reference", () => {
  it("has a part for every operation, with its address and what it answers", () => {
    expect(operations.length).toBeGreaterThan(80);
    for (const { operationId, method, path, responses, parameters = [] } of operations) {
      const part = partAt(operationId);
      expect(part, operationId).toContain(`${method} ${path}`);
      for (const status of Object.keys(responses)) expect(part, `${operationId} ${status}`).toContain(`>${status}<`);
      for (const { name, in: where } of parameters) expect(part, operationId).toContain(`${name} (${where})`);
    }
  });

  it("has a part for every schema, with each of its members", () => {
    for (const [name, { properties = {} }] of Object.entries(document.components.schemas)) {
      const part = partAt(`schema-${name}`);
      for (const key of Object.keys(properties)) expect(part, name).toContain(`<code>${key}</code>`);
    }
  });

  it("leads nowhere that is not there, and names nothing twice", () => {
    expect(ids.length).toBe(new Set(ids).size);
    const links = [...html.matchAll(/href="#([^"]+)"/g)].map((match) => match[1]!);
    expect(links.filter((link) => !ids.includes(link))).toEqual([]);
    const refs = new Set([...openApiDocument().matchAll(/#\/components\/schemas\/(\w+)/g)].map((match) => `schema-${match[1]}`));
    expect([...refs].filter((ref) => !links.includes(ref))).toEqual([]);
  });

  it("carries no script and no style of its own", () => {
    expect(html).not.toMatch(/<script|<style| style=/);
  });
});

describe("the kinds of problems", () => {
  it("are a page for a browser and JSON for a program, at one address", async () => {
    const page = await shop.call("/problems", browser);
    expect([page.headers.get("content-type"), page.headers.get("vary")]).toEqual(["text/html; charset=UTF-8", "accept"]);
    const text = await page.text();
    for (const { type, name } of listed) expect(text, name).toContain(`<a href="${type}">${name}</a>`);
    expect((await shop.call("/problems")).headers.get("content-type")).toBe("application/json");
  });

  it("each have a page that says what it means", async () => {
    const text = await (await shop.call("/problems/limit-passed", browser)).text();
    expect(text).toContain("This passes what the owner agreed to");
    expect((await shop.call("/problems/nothing", browser)).status).toBe(404);
  });
});
