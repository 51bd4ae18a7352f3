/** The two documents name what is there, and nothing that is not. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openApiDocument } from "../src/http/api/index.js";
import { createApp } from "../src/http/app/app.js";

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

describe("the threats", () => {
  const tests = readdirSync("tests", { recursive: true, encoding: "utf8" })
    .filter((file) => /\.test\.tsx?$/.test(file))
    .map((file) => readFileSync(join("tests", file), "utf8"))
    .join("\n");
  const [, table = ""] = /\n## Threats\n([\s\S]*?)\n## /.exec(developers) ?? [];
  const rows = found(table, /\| \*(.+)\* \|$/gm);

  test.each(rows)("are held by the test '%s'", (title) => {
    expect(tests).toContain(`"${title}"`);
  });

  test("are of every sort", () => {
    expect(found(table, /^\| ([A-Z]) \|/gm)).toEqual(["S", "T", "R", "I", "D", "E"]);
    expect(rows.length).toBeGreaterThan(15);
  });
});

describe("addresses the README names", () => {
  const app = createApp({
    openDatabase: () => undefined,
    assets: {},
    guard: "loopback",
    secretOf: () => undefined,
    addressOf: () => "",
  });
  const there = app.routes.map(({ path }) => path);

  test.each(found(readme, /`(\/[a-z][\w/.:-]*)`/g))("%s is there", (path) => {
    expect(there).toContain(path);
  });

  test("leave out none of those that every operator and program starts from", () => {
    expect(found(readme, /`(\/[a-z][\w/.:-]*)`/g)).toEqual(
      expect.arrayContaining(["/help", "/health", "/set-up", "/api", "/openapi.json", "/problems"]),
    );
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

/** A part of DEVELOPERS.md, from its heading to the next of the same rank. */
const part = (heading: string) => developers.split(/^(?=## )/m).find((each) => each.startsWith(`## ${heading}\n`))!;
const filesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).map((file) => join(folder, file).replaceAll("\\", "/"));

describe("the house in DEVELOPERS.md", () => {
  const drawn = part("The house").split("```")[1]!;
  /** Room -> the folders named under it. */
  const named = new Map(
    drawn
      .split(/^ {2}(?=\S)/m)
      .slice(1)
      .map((room) => [room.split("/")[0]!, found(room.slice(room.indexOf("\n")), /(?<=^ {4}(?:\w+\/ )*)(\w+)\/(?= )/gm)]),
  );
  const folders = (path: string) =>
    readdirSync(path, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ name }) => name)
      .sort();

  test("names every room of src", () => {
    expect([...named.keys()].filter((name) => !name.includes(".")).sort()).toEqual(folders("src"));
  });

  test.each(folders("src"))("names every folder of %s, and none besides", (room) => {
    expect([...named.get(room)!].sort()).toEqual(folders(join("src", room)));
  });
});

describe("DEVELOPERS.md", () => {
  test("answers ten questions, each with a file that is there", () => {
    const answers = part("Where is it?").match(/^\| where.*|^\| how.*|^\| who.*/gm)!;
    expect(answers).toHaveLength(10);
    for (const answer of answers) {
      const files = found(answer, /`(src\/[\w./-]+)`/g);
      expect(files.length, answer).toBeGreaterThan(0);
      expect(files.filter((file) => !existsSync(file))).toEqual([]);
    }
  });

  const there = ["src", "tests", "fixtures", "migrations"].flatMap(filesIn);
  test.each(found(developers, /`([\w./-]+\.tsx?)`/g))("names %s, which is there", (name) => {
    expect(existsSync(name) || there.some((file) => file.endsWith(`/${name}`))).toBe(true);
  });

  test("has its decisions by subject, each with its day", () => {
    const [, ...subjects] = part("Decisions").split(/^### /m);
    expect(subjects.length).toBeGreaterThan(5);
    const undated = subjects
      .flatMap((subject) => subject.trim().split("\n").slice(1))
      .filter((line) => !/^- \d{4}-\d\d-\d\d: /.test(line));
    expect(undated.filter((line) => line !== "")).toEqual([]);
  });

  const dependencies = { ...manifest.dependencies, ...manifest.devDependencies };

  test.each(
    found(part("Dependencies, one line each"), /(?<=^\|[^|]*?)(@?[a-z][\w./-]*)(?=(?:, [^|]*| \(dev\))? \|)/gm).filter(
      (name) => name !== "package" && name !== "why",
    ),
  )("names the dependency %s, which package.json has", (name) => {
    expect(dependencies).toHaveProperty([name]);
  });
  test.each(Object.keys(dependencies).filter((name) => !name.startsWith("@types/")))("justifies the dependency %s", (name) => {
    const table = developers.slice(developers.indexOf("## Dependencies"), developers.indexOf("## Decisions"));
    expect(table).toMatch(new RegExp(`(^|[ |,])${name.replace("/", "\\/")}([ ,|]|$)`, "m"));
  });
});
