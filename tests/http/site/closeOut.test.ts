import { expect, it } from "vitest";
import { closeOuts } from "../../../src/records/closeOuts.js";
import { ownerLinks } from "../../../src/records/ownerLinks.js";
import { agreedJob, HAND, worked } from "../../records/support/closed.js";
import { TAPE_ECHO } from "../../records/support/livedIn.js";
import { visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";

const page = `/jobs/${TAPE_ECHO}/close-out`;

it("closes a job by its page alone: what is wrong beside its field, nothing typed lost, the account beforehand and kept after", async () => {
  const opened = await shop();
  const { db } = opened;
  const desk = visitor(opened);
  expect((await desk.get(page)).status).toBe(409);
  const { id: estimateId } = await agreedJob(db);
  await worked(db, TAPE_ECHO, 1.2);

  const first = await desk.get(page);
  expect(first.status, words(first.html)).toBe(200);
  expect(words(first.html)).toContain("The account as it stands");
  const total = /id="total">.*?<strong>([^<]+)</s.exec(first.html)![1]!;
  const typed = { by: HAND, "payments.0.on": "2026-11-26", "payments.0.amount": "50", warrantyDays: "ninety", hour: "28.00" };
  const wrong = await desk.press(first, "Close the job", typed);
  expect(wrong.status).toBe(422);
  expect(words(wrong.html)).toContain("There is a problem");
  expect(wrong.html).toMatch(/id="warrantyDays"[^>]*value="ninety"[^>]*aria-describedby="warrantyDays-wrong"/);
  expect(wrong.html).toMatch(/id="payments\.0\.amount"[^>]*value="50"/);

  const shown = await desk.press(wrong, "Work out the account", { warrantyDays: "180" });
  expect(shown.status, words(shown.html)).toBe(200);
  expect(words(shown.html)).toContain(total);
  const done = await desk.press(shown, "Close the job");
  expect(done.status, words(done.html)).toBe(200);
  expect(words(done.html)).toMatch(/The job earned £[\d.]+, £[\d.]+ less than planned: .* more at the bench than allowed/);
  const pdf = await opened.app.request(`http://localhost:4700/jobs/${TAPE_ECHO}/final-account.pdf`);
  expect(pdf.headers.get("content-type")).toBe("application/pdf");

  const sent = { by: HAND, deliveredTo: "ottilie@larkholt.example", expiresAt: "2027-01-01T00:00:00.000Z" };
  const link = await ownerLinks.add(db, estimateId, sent, "2026-11-25T09:00:00.000Z");
  if (link.is !== "made") throw new Error(link.is);
  const owner = visitor(opened);
  const seen = await owner.send("/o/entry", [["link", link.secret.fragment]]);
  expect(words(seen.html)).toContain("The work is done");
  expect(seen.html).toContain('href="/o/final-account.pdf"');
  expect(words(seen.html)).not.toMatch(/margin|earned|planned/i);
  expect((await owner.get("/o/final-account.pdf")).headers.get("content-type")).toBe("application/pdf");

  const again = await desk.get(`${page}?correct`);
  expect(again.html).toMatch(/id="payments\.0\.amount"[^>]*value="50"/);
  const unsaid = await desk.press(again, "Correct the close-out", { "payments.0.amount": "60" });
  expect(words(unsaid.html)).toContain("Why it is corrected: say it for the record.");
  const corrected = await desk.press(unsaid, "Correct the close-out", { reason: "the deposit was 60" });
  expect(words(corrected.html)).toContain("Corrected: the deposit was 60");
  expect((await closeOuts.ofJob(db, TAPE_ECHO)).map(({ result }) => result.account.totals.prepaid)).toEqual([5000, 6000]);
});
