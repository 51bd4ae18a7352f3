import { readFileSync } from "node:fs";
import { Validator } from "@seriousme/openapi-schema-validator";
import { describe, expect, it } from "vitest";
import { api, openApiDocument } from "../../../src/http/api/index.js";
import { shop } from "../support/shop.js";

interface Operation {
  readonly operationId: string;
  readonly security: readonly Readonly<Record<string, readonly string[]>>[];
  readonly responses: Readonly<Record<string, { readonly content?: Readonly<Record<string, { readonly schema?: unknown }>> }>>;
  readonly parameters?: readonly { readonly in: string; readonly name: string; readonly required?: boolean }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: unknown }>> };
}

interface Document {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: {
    readonly schemas: Readonly<Record<string, { readonly additionalProperties?: unknown; readonly type?: string }>>;
  };
}

const document = JSON.parse(openApiDocument()) as Document;
const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, operation]) => ({ path, method: method.toUpperCase(), ...operation })),
);

/** What takes bytes instead of JSON. */
const BYTES: Readonly<Record<string, readonly string[]>> = {
  "/api/restore": ["application/gzip"],
  "/api/logos": ["image/png", "image/jpeg"],
  "/api/jobs/{id}/photos": ["image/jpeg", "image/png", "image/webp"],
};

describe("/openapi.json", () => {
  it("tells of each operation which scopes a token needs, as the table of who may do what has it", () => {
    const scopes = (operationId: string) => operations.find((each) => each.operationId === operationId)!.security[0];
    expect(scopes("listOwners")).toEqual({ bearer: ["read"] });
    expect(scopes("addOwner")).toEqual({ bearer: ["write"] });
    expect(scopes("backUpShop")).toEqual({ bearer: ["read", "admin"] });
    expect(scopes("replaceSettings")).toEqual({ bearer: ["write", "admin"] });
    const keepingNothing = operations.filter(({ path, method }) => method === "POST" && /^\/api\/[\w-]+\.pdf$/.test(path));
    expect(keepingNothing.map(({ security }) => security[0])).toEqual(keepingNothing.map(() => ({ bearer: ["read"] })));
    for (const { path, method, security } of operations)
      expect(security, `${method} ${path}`).toEqual([
        { bearer: [expect.any(String), ...security[0]!.bearer!.slice(1)] },
        { session: [] },
        {},
      ]);
  });

  it("is served as it is made", async () => {
    const { call } = await shop();
    const response = await call("/openapi.json");
    expect(response.headers.get("content-type")).toContain("application/json");
    expect(await response.json()).toEqual(document);
  });

  // Judge: the OpenAPI 3.1 schema as packed in @seriousme/openapi-schema-validator.
  it("is valid OpenAPI 3.1", async () => {
    const { valid, errors } = await new Validator().validate(JSON.parse(openApiDocument()));
    expect(errors ?? []).toEqual([]);
    expect(valid).toBe(true);
    expect(document.openapi).toBe("3.1.0");
  });

  it("lists every API route that is mounted, and no other", () => {
    const mounted = api.routes
      .filter(({ method, path }) => method !== "ALL" && path.startsWith("/api/"))
      .map(({ method, path }) => `${method} ${path.replaceAll(/:(\w+)/g, "{$1}")}`);
    expect(operations.map(({ method, path }) => `${method} ${path}`).sort()).toEqual([...new Set(mounted)].sort());
  });

  it("names every operation once", () => {
    const names = operations.map(({ operationId }) => operationId);
    expect(new Set(names).size).toBe(names.length);
    expect(names.every((name) => /^[a-z]+[A-Za-z]+$/.test(name))).toBe(true);
  });

  it("documents the refusals as problems, and a JSON body for every change", () => {
    for (const { path, method, responses, requestBody } of operations) {
      const refusals = Object.entries(responses).filter(([status]) => Number(status) >= 400);
      expect(refusals.length, path).toBeGreaterThan(0);
      for (const [status, { content }] of refusals)
        expect(Object.keys(content ?? {}), `${method} ${path} ${status}`).toEqual(["application/problem+json"]);
      const types = BYTES[path] ?? ["application/json"];
      if (method !== "GET") expect(Object.keys(requestBody?.content ?? {}), `${method} ${path}`).toEqual(types);
    }
  });

  it("takes an Idempotency-Key on every POST that writes, and wants If-Match wherever its absence is answered 428", () => {
    const header = (of: (typeof operations)[number], name: string) =>
      of.parameters?.find((each) => each.in === "header" && each.name === name);
    // These write nothing; a restore goes into a database without a shop alone, so a repeat is refused.
    const others = ["/api/estimate", "/api/estimate/risk", "/api/estimate/refined", "/api/estimate.pdf", "/api/bench-sheet.pdf"];
    const without = operations.filter((each) => each.method === "POST" && !header(each, "idempotency-key"));
    expect(without.map(({ path }) => path)).toEqual([...others, "/api/shop-copy.pdf", "/api/restore"]);
    const versioned = operations.filter(({ responses }) => "428" in responses);
    expect(versioned.length).toBeGreaterThan(8);
    for (const each of versioned) expect(header(each, "if-match")?.required, each.path).toBe(true);
  });

  it("says that unknown keys are refused", () => {
    const open = Object.entries(document.components.schemas).filter(
      ([, { type, additionalProperties }]) => type === "object" && additionalProperties !== false,
    );
    expect(open.map(([name]) => name)).toEqual([]);
    expect(Object.keys(document.components.schemas)).toEqual(
      expect.arrayContaining(["EstimateInput", "Sheet", "Problem", "RateBook", "Job"]),
    );
  });
});

describe("the types of problems", () => {
  it("are listed, each at its own address", async () => {
    const { call } = await shop();
    const { problems } = (await (await call("/problems")).json()) as {
      problems: { type: string; name: string; meaning: string }[];
    };
    expect(new Set(problems.map(({ type }) => type)).size).toBe(problems.length);
    for (const problem of problems) expect(await (await call(problem.type)).json()).toEqual(problem);
    expect((await call("/problems/nothing")).status).toBe(404);
  });

  it("include every problem of the engine", async () => {
    const { call } = await shop();
    const { problems } = (await (await call("/problems")).json()) as { problems: { name: string }[] };
    const union = readFileSync("src/estimating/problems.ts", "utf8").split("export type ProblemName")[0]!;
    const names = [...union.matchAll(/readonly name: "([^"]+)"/g)].map(([, name]) => name);
    expect(names.length).toBeGreaterThan(30);
    expect(problems.map(({ name }) => name)).toEqual(expect.arrayContaining(names));
  });
});
