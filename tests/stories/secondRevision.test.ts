/**
 * A second revision, unanswered, after work was found and a part fitted, above the ceiling the owner had set at first: what owner and shop
 * read of it, and of what was agreed. The demo shop; people, work and part invented.
 */
import { expect, it } from "vitest";
import { compared } from "../../src/acts/compared.js";
import { beforeOf } from "../../src/acts/issue.js";
import { estimateBlocks } from "../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { earlierOf } from "../../src/http/papers/issuing.js";
import { signedMoney } from "../../src/wording/change.js";
import { answerOf, log, stands, tick } from "../acts/support/bench.js";
import { textsOf } from "../documents/support/texts.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, story } from "../http/support/story.js";
import { draftSaved } from "../records/support/drafts.js";

const EYE = { id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 1, reason: "dim" } as const;
const SLEEVE = { own: { name: "Capstan sleeve", type: "electrolytic", cost: 1200 } } as const;
const NOT_COUNTED = "Not counting the delivery of Capstan sleeve";
const RAISE = "agree a higher ceiling before starting";
const at = (minute: number) => `2026-11-25T11:${String(minute).padStart(2, "0")}:00.000Z`;
const flat = ({ html }: { readonly html: string }) => words(html).replaceAll(/\s+/g, " ");

it("tells what was found as found, sums what changed, and asks for nothing that is fitted or agreed to", async () => {
  const told = await story(1);
  const { db } = told.opened;
  const { draft } = await stands(db, told.jobId);
  const { input } = draft!;
  const items = [
    ...input.items,
    { ...EYE, certainty: { is: "if found", probability: 0.4 } } as const,
    { id: "sleeve", operation: "replace", count: 1, part: SLEEVE, certainty: { is: "planned" } } as const,
  ];
  const policy = { ...input.policy, ceiling: 30000 };
  const saved = await draftSaved(db, draft!.id, draft!.version, { ...draft!, input: { ...input, items, policy } }, at(0));
  expect(saved.is).toBe("done");
  expect(flat(await told.desk.get(told.job))).toContain(RAISE);
  const { owner, seen } = await come(told, await issued(told));
  expect(flat(seen)).toContain(NOT_COUNTED);
  await owner.press(await owner.press(seen, /^Agree to/, { name: "Žofie Kapradinová" }), /^Agree to/);
  for (const page of [told.job, `/estimates/${draft!.id}`]) expect(flat(await told.desk.get(page)), page).not.toContain(RAISE);

  answerOf(await tick(db, { job: told.jobId, when: at(2) }, { item: "eye", count: 1, person: HAND }));
  const piece = { item: "sleeve", partKind: "own:sleeve", partCount: 1, paidPrice: 1200, paidPer: 1 };
  expect(flat(await told.desk.get(told.job))).toContain("no delivery of Capstan sleeve");
  answerOf(await log(db, { job: told.jobId, when: at(3) }, piece));
  expect(flat(await told.desk.get(told.job))).not.toContain("no delivery of Capstan sleeve");
  const fault = { reason: "a cracked jack", work: "Clean a board", count: "9" };
  await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", fault);

  const issuing = flat(await told.desk.get(`${told.job}/issue`));
  expect(issuing).toContain("Replace the tuning eye: found");
  expect(issuing).not.toContain("no delivery of Capstan sleeve");
  // More than was agreed to is above the owner's ceiling again, until it is answered.
  expect(issuing).toContain(RAISE);
  const second = await come(told, await issued(told));
  const page = flat(second.seen);
  const stood = await stands(db, told.jobId);
  const { sums } = compared(stood).changes!;
  expect(page).toContain(`Difference ${signedMoney(sums.total.difference, stood.tongue)}`);
  expect(page).toContain("Added Replace the tuning eye dim");
  const now = stood.latest!;
  const paper = textsOf(
    estimateBlocks(subjectOf(now.sheet!, stood.inputOf(now), { earlier: earlierOf(beforeOf(stood, now.revision)!) })),
  ).join("\n");
  expect(paper).toContain("Difference");
  for (const text of [page, paper]) {
    expect(text).not.toContain("Dropped");
    expect(text).not.toContain(NOT_COUNTED);
  }
}, 120_000);
