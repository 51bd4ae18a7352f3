/** Each thing that keeps an estimate from being issued leads to a field that is there. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { DOCUMENT_FIELDS } from "../../../src/estimating/law/profile.js";
import type { Unready } from "../../../src/estimating/law/unready.js";
import { whereToFill } from "../../../src/pages/revise/whereToFill.js";
import { visitor } from "../support/noScript.js";
import { demo, openShop } from "../support/shop.js";

let opened: Awaited<ReturnType<typeof openShop>>;
let estimate = "";
beforeAll(async () => {
  opened = await openShop();
  estimate = (await demo()).jobs[0]!.estimates[0]!.id;
});
afterAll(() => opened.close());

const word = (pointer: string): Unready => ({ is: "word not allowed", word: "minimum", sentence: "A minimum.", pointer });
const LACKS: readonly Unready[] = [
  ...DOCUMENT_FIELDS.map((field): Unready => ({ is: "field missing", field })),
  ...["/unit/found", "/unit/condition", "/policy/discount/reason", "/items/3/reason", "/paperwork/terms/0"].map(word),
  { is: "validity too short", until: "2026-11-26", atLeast: "2026-12-25", days: 30, asOfFrom: "2026-11-25" },
];

it.each(LACKS.map((lack) => [JSON.stringify(lack), lack] as const))("%s", async (_, lack) => {
  const [path, id] = whereToFill(lack, estimate).split("#");
  const { status, html } = await visitor(opened).get(path!);
  expect(status).toBe(200);
  expect(html).toContain(`id="${id}"`);
});
