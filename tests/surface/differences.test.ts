import { expect, it } from "vitest";
import { differences, gathered, type Json } from "./differences.js";

const TEXT = { type: "string" };
const document = (schema: Json, schemas: Record<string, Json> = {}, more: Record<string, Json> = {}) => ({
  openapi: "3.1.0",
  paths: { "/a": { get: { ...more, responses: { 200: schema } } } },
  components: { schemas },
});
const ref = (name: string) => ({ $ref: `#/components/schemas/${name}` });

it("finds nothing where a schema is renamed, put in place, or a list stands in another order", () => {
  const thing = (...required: string[]) => ({ type: "object", required, properties: { a: TEXT, b: TEXT } });
  const was = document(ref("Thing"), { Thing: thing("a", "b") });
  expect(differences(was, document(ref("Other"), { Other: thing("b", "a") }))).toEqual([]);
  expect(differences(was, document(thing("a", "b")))).toEqual([]);
  expect(differences(document(thing("a", "b")), was)).toEqual([]);
});

it("follows schemas that refer to themselves", () => {
  const tree = (type: string) => ({ type: "object", properties: { name: { type }, inside: ref("Tree") } });
  const was = document(ref("Tree"), { Tree: tree("string") });
  expect(differences(was, was)).toEqual([]);
  expect(differences(was, document(ref("Tree"), { Tree: tree("number") }))).toEqual([
    '~ #/components/schemas/Tree/properties/name/type: "string" -> "number"',
  ]);
});

it("tells what came, went and changed, a parameter by its name", () => {
  const parameters = (...names: string[]) => ({ parameters: names.map((name) => ({ in: "query", name })) });
  const was = document(TEXT, { Unused: TEXT }, parameters("from", "to"));
  const is = document({ type: "number", minimum: 0 }, {}, parameters("to", "limit"));
  expect(differences(was, is)).toEqual([
    '- /paths//a/get/parameters/query from: {"in":"query","name":"from"}',
    '+ /paths//a/get/parameters/query limit: {"in":"query","name":"limit"}',
    "+ /paths//a/get/responses/200/minimum: 0",
    '~ /paths//a/get/responses/200/type: "string" -> "number"',
    '- #/components/schemas/Unused: {"type":"string"}',
  ]);
});

it("tells a change that many operations share once", () => {
  const at = (path: string) => `+ /paths//${path}/get/responses/503: {}`;
  expect(gathered([at("a"), at("b"), "- #/components/schemas/Unused: {}", "+ /paths//c: {}"])).toEqual([
    "+ */responses/503: {} (2 operations, the first /paths//a/get)",
    "- #/components/schemas/Unused: {}",
    "+ /paths//c: {}",
  ]);
  expect(gathered([at("a")])).toEqual([at("a")]);
});
