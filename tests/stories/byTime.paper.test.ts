/** A price by time and parts says so wherever it is agreed to: paper at each level, shop's copy, owner's page and the words on record, in both languages; a fixed price says nothing of it. The demo shop; people and the work invented. */
import { expect, it } from "vitest";
import type { Pricing } from "../../src/estimating/input.js";
import { answersOf } from "../../src/records/agreements.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { stands } from "../acts/support/bench.js";
import { words } from "../http/support/noScript.js";
import { come, issued, story } from "../http/support/story.js";
import { draftSaved } from "../records/support/drafts.js";
import { printed } from "./support/everywhere.js";

const EYE = { id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 1, certainty: { is: "planned" } } as const;
const BY_TIME: Pricing = { is: "time and parts with ceiling", confidencePercent: 80 };
const COUNTED: Pricing = { is: "as counted" };
const flat = (text: string): string =>
  words(text)
    .replaceAll(/\s+/g, " ")
    .replaceAll(/ ([.,;])/g, "$1");

const SAID = {
  en: /What is billed is the time it really takes and the parts really used, at most (?:£[\d,.]+\d|[\d,.]+ £)(; work at a fixed price stays at that)?\./,
  de: /Berechnet werden die tatsächliche Arbeitszeit und die tatsächlich verwendeten Teile, höchstens [\d,.]+\d £(; Arbeiten zum Festpreis bleiben dabei)?\./,
} as const;

it.each([
  ["en", "letter", BY_TIME, []],
  ["de", "letter", BY_TIME, [EYE]],
  ["en", "every line", BY_TIME, [EYE]],
  ["en", "letter", COUNTED, []],
] as const)("is told, in %s, as %s, %o", async (language, detail, pricing, more) => {
  const told = await story(1);
  const { db } = told.opened;
  const draft = (await stands(db, told.jobId)).draft!;
  const items = [...draft.input.items, ...more];
  const input = { ...draft.input, items, policy: { ...draft.input.policy, pricing } };
  expect((await draftSaved(db, draft.id, draft.version, { ...draft, input }, "2026-11-25T11:00:00.000Z")).is).toBe("done");
  const papers = await told.desk.get(`${told.job}/papers`);
  await told.desk.press(papers, "Save", { language, detail, locale: language === "de" ? "de-DE" : "en-GB" });
  const { owner, seen } = await come(told, await issued(told));
  const agree = language === "de" ? /^Diesen Arbeiten/ : /^Agree to/;
  const check = await owner.press(seen, agree, { name: "Žofie Kapradinová" });
  await owner.press(check, agree);
  const { wording } = (await answersOf(db, told.jobId)).at(-1)!;
  const { text } = await printed(told, "/o/estimate.pdf?revision=1", owner);
  const { text: shops } = await printed(told, `/api/estimates/${told.estimateId}/shop-copy.pdf`, told.desk);
  const places = { page: flat(seen.html), check: flat(check.html), wording: flat(wording), paper: flat(text) };
  const found = Object.entries(places).map(([place, said]) => [place, SAID[language].exec(said)?.[0]] as const);
  const [[, first]] = found as [(typeof found)[number]];
  if (pricing === COUNTED) expect(first).toBeUndefined();
  else expect(first).toMatch(more.length > 0 ? /(stays at that|bleiben dabei)\.$/ : /\d( £)?\.$/);
  for (const [place, said] of found) expect(said, place).toBe(first);
  expect(SAID.en.test(flat(shops))).toBe(pricing !== COUNTED);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
});
