/** The two documents name what is there, and nothing that is not. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openApiDocument } from "../src/http/api/index.js";
import { createApp } from "../src/http/app.js";

const readme = readFileSync("README.md", "utf8");
const developers = readFileSync("DEVELOPERS.md", "utf8");
const manifest = JSON.parse(readFileSync("package.json", "utf8")) as {
  scripts: Record<string, string>;
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
};
const sources = readdirSync("src", { recursive: true, encoding: "utf8" })
  .filter((file) => /\.tsx?$/.test(file))
  .map((file) => readFileSync(join("src", file), "utf8"))
  .join("\n");

const found = (text: string, pattern: RegExp) => [...new Set([...text.matchAll(pattern)].map((match) => match[1]!))];

describe("the README", () => {
  test("opens with the job in one paragraph", () => {
    const [title, job, next] = readme.split(/\n\n/);
    expect(title).toBe("# Ohmwright");
    expect(job).toMatch(/written estimates for vintage electronics repair/);
    expect(next).toMatch(/^## /);
  });

  test("prints the two commands that do all set-up", () => {
    expect(readme).toMatch(/<!-- start -->\n```\nnpm ci && npm start\n```/);
    expect(readme).toMatch(/<!-- test -->\n```\nnpm ci && npm test\n```/);
  });

  test.each(found(sources, /\b((?:OHMWRIGHT|LIBSQL)_[A-Z_]+)\b/g))("names the setting %s", (setting) => {
    expect(readme).toContain(setting);
  });

  test.each(found(readme, /(fixtures\/[\w./-]*\w)/g))("names %s, which is there", (path) => {
    expect(existsSync(path)).toBe(true);
  });
});

describe("the README's table of pages", () => {
  const app = createApp({
    openDatabase: () => undefined,
    assets: {},
    guard: "loopback",
    secretOf: () => undefined,
    addressOf: () => "",
  });
  /** However the parameters are called: /estimates/:file{[^/]+\\.pdf} reads /estimates/:id.pdf. */
  const plain = (path: string) =>
    path
      .replaceAll(/:\w+\{[^}]*\\(\.\w+)\}/g, ":id$1")
      .replaceAll(/\{[^}]*\}/g, "")
      .replaceAll(/:\w+/g, ":id");
  const there = app.routes
    .filter(({ method, path }) => method === "GET" && !path.startsWith("/api/"))
    .map(({ path }) => plain(path));
  const table = readme.slice(readme.indexOf("## Every page"), readme.indexOf("## Cautions"));
  const named = found(table, /`(\/[^`]*)`/g).map(plain);

  test("names every page and every paper that can be opened, and none besides", () => {
    expect(there.length).toBeGreaterThan(50);
    expect([...named].sort()).toEqual([...new Set(there)].sort());
  });

  test("every address of a page that a guide names is there", () => {
    const pages = found(readme, /`(\/[a-z][\w/.:-]*)`/g).map(plain);
    expect(pages.filter((path) => !there.includes(path) && path !== "/sign-in")).toEqual([]);
  });
});

describe("the README on the API", () => {
  test("names every resource of the document, and none besides", () => {
    const { paths } = JSON.parse(openApiDocument()) as { paths: Record<string, Record<string, { tags: string[] }>> };
    const tags = new Set(
      Object.values(paths).flatMap((methods) => Object.values(methods).flatMap((operation) => operation.tags)),
    );
    const line = /\(OpenAPI 3\.1\)\. It has: ([^.]*)\./.exec(readme)![1]!;
    expect(found(line, /\*([^*]+)\*/g).sort()).toEqual([...tags].sort());
  });
});

describe("links within the documents", () => {
  const heads = found(readme, /^## (.+)$/gm).map((head) => head.toLowerCase().replaceAll(",", "").replaceAll(" ", "-"));

  test.each(found(`${readme}\n${developers}`, /\]\(([^)]+)\)/g))("%s leads somewhere", (target) => {
    expect(target.startsWith("#") ? heads.includes(target.slice(1)) : existsSync(target)).toBe(true);
  });
});

describe("both documents", () => {
  const RUN_BY_NPM = ["start", "test", "prepare"];

  test.each(Object.keys(manifest.scripts).filter((name) => name !== "prepare"))("one of them names the command %s", (name) => {
    const called = RUN_BY_NPM.includes(name) ? `npm ${name}` : `npm run ${name}`;
    expect(`${readme}\n${developers}`).toContain(called);
  });

  test.each(found(`${readme}\n${developers}`, /npm run (?:--silent )?([\w:]+)/g))("the command %s they name is there", (name) => {
    expect(manifest.scripts).toHaveProperty([name]);
  });

  test.each(found(developers, /`(src\/[\w./-]+|tests\/[\w./-]+|fixtures\/[\w./-]+)`/g))("%s is there", (path) => {
    expect(existsSync(path)).toBe(true);
  });
});

describe("DEVELOPERS.md", () => {
  test.each(Object.keys({ ...manifest.dependencies, ...manifest.devDependencies }).filter((name) => !name.startsWith("@types/")))(
    "justifies the dependency %s",
    (name) => {
      const table = developers.slice(developers.indexOf("## Dependencies"), developers.indexOf("## Decisions"));
      expect(table).toMatch(new RegExp(`(^|[ |,])${name.replace("/", "\\/")}([ ,|]|$)`, "m"));
    },
  );
});
