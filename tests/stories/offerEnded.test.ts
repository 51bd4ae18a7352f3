/** An offer that ended is agreed to elsewhere than on its page: knowingly, or on a day while it stood. The demo shop; people invented. */
import { expect, it } from "vitest";
import { answersOf } from "../../src/records/agreements.js";
import { estimates } from "../../src/records/estimates.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { day } from "../../src/wording/time.js";
import { words } from "../http/support/noScript.js";
import { HAND, issued, type Story, story } from "../http/support/story.js";

const DAY = 86_400_000;
const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");

/** Some days past the last one; that day as the shop writes it, and the total. */
async function ended(days = 3): Promise<{ told: Story; until: string; amount: string; validUntil: string }> {
  const told = await story();
  await issued(told);
  const { sheet } = (await estimates.find(told.opened.db, told.estimateId))!;
  told.opened.pass(Date.parse(sheet!.validUntil) - Date.parse("2026-11-25") + days * DAY);
  return {
    ...{ told, validUntil: sheet!.validUntil, until: day(sheet!.validUntil, "en-GB") },
    amount: (sheet!.totals.total / 100).toFixed(2),
  };
}

it("is asked about once, and the record tells of it", async () => {
  const { told, until, amount } = await ended();
  const form = await told.desk.get(`${told.job}/answers`);
  expect(flat(form.html)).toContain(`This offer ended on ${until}, and the owner can no longer agree to it on the page.`);
  const asked = await told.desk.press(form, /^Record: agreed/, { recordedBy: HAND, by: "Ivo Brezovar", amount });
  expect([asked.status, flat(asked.html).includes(`The offer ended on ${until}. The answer was given after that`)]).toEqual([
    422,
    true,
  ]);
  const kept = await told.desk.press(asked, /^Record: agreed/, { afterEnd: "yes" });
  expect(kept.status, words(kept.html)).toBe(200);
  expect(flat(kept.html)).toContain(`The offer had ended on ${until}; it was taken all the same.`);
  expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
}, 120_000);

it("is taken without a question where it was said while the offer stood", async () => {
  const { told, until, amount, validUntil } = await ended();
  const form = await told.desk.get(`${told.job}/answers`);
  const said = { recordedBy: HAND, by: "Ivo Brezovar", amount, "spoken.date": validUntil };
  const kept = await told.desk.press(form, /^Record: agreed/, said);
  expect(kept.status, words(kept.html)).toBe(200);
  expect(flat(kept.html)).not.toContain(`The offer had ended on ${until}`);
  expect(await answersOf(told.opened.db, told.jobId)).toHaveLength(1);
}, 120_000);

it("is asked about by program too, in writing as well, and never where it is declined", async () => {
  const { told } = await ended();
  const at = `/api/estimates/${told.estimateId}/agreements`;
  const written = { answer: "agreed", by: "Ivo Brezovar", channel: "e-mail", writing: "e-mail", recordedBy: HAND };
  const refused = await told.opened.send("POST", at, written);
  expect([refused.status, await refused.json()]).toMatchObject([
    422,
    {
      errors: [
        { pointer: "/afterEnd", name: "offer ended", detail: expect.stringContaining("A writing has no day of its own here") },
      ],
    },
  ]);
  expect((await told.opened.send("POST", at, { ...written, afterEnd: true })).status).toBe(201);
  const events = (await (await told.opened.call(`/api/jobs/${told.jobId}/events`)).json()) as {
    items: { is: string; content: object }[];
  };
  expect(events.items.find(({ is }) => is === "answered")!.content).toHaveProperty("afterOfferEnded");

  const other = (await ended()).told;
  const no = await other.opened.send("POST", `/api/estimates/${other.estimateId}/agreements`, { ...written, answer: "declined" });
  expect(no.status).toBe(201);
}, 120_000);

it("is not spoken of on its last day", async () => {
  const { told } = await ended(0);
  expect((await told.desk.get(`${told.job}/answers`)).html).not.toContain('id="ended"');
}, 120_000);
