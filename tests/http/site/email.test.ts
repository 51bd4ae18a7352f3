/** One rule for an e-mail at every door: the settings' page, the intake form and the API. */
import { eq } from "drizzle-orm";
import { expect, it } from "vitest";
import { ownersTable } from "../../../src/records/owners.js";
import { words } from "../support/noScript.js";
import { story } from "../support/story.js";

const GIVE = "give one address, such as ines@example.org.";
const WRONG = "pell@@nowhere";

it.each([WRONG, "pell", "pell @nowhere", "pell@", "@nowhere", "a@b, c@d"])("'%s' is no address at any door", async (wrong) => {
  const { opened, desk, estimateId } = await story();
  const added = await opened.send("POST", "/api/owners", { name: "Pell Marrowby", email: wrong });
  expect([added.status, ((await added.json()) as { errors: unknown }).errors]).toEqual([
    422,
    [{ pointer: "/email", name: "e-mail unreadable", detail: `E-mail is "${wrong}"; ${GIVE}`, type: expect.any(String) }],
  ]);
  const settings = await desk.press(await desk.get("/settings"), "Save", { email: wrong });
  expect([settings.status, words(settings.html)]).toEqual([422, expect.stringContaining(`E-mail is "${wrong}"; ${GIVE}`)]);
  const intake = await desk.press(await desk.get(`/estimates/${estimateId}?open=all`), "Save", { "owner.email": wrong });
  expect([intake.status, words(intake.html)]).toEqual([
    422,
    expect.stringContaining(`Owner's e-mail: '${wrong}' is not an address; ${GIVE}`),
  ]);
});

it("one that was kept before is read as it stands, and put right when its record is next changed", async () => {
  const { opened, desk, estimateId, jobId } = await story();
  const { ownerId } = (await (await opened.call(`/api/jobs/${jobId}`)).json()) as { ownerId: string };
  const path = `/api/owners/${ownerId}`;
  await opened.db.update(ownersTable).set({ email: WRONG }).where(eq(ownersTable.id, ownerId));
  const kept = await opened.call(path);
  const { id: _, version: __, createdAt: ___, updatedAt: ____, ...value } = (await kept.json()) as Record<string, unknown>;
  expect([kept.status, value.email]).toEqual([200, WRONG]);
  const tag = { "if-match": kept.headers.get("etag")! };
  expect((await opened.send("PUT", path, value, tag)).status).toBe(422);
  const draft = await desk.get(`/estimates/${estimateId}?open=all`);
  expect((await desk.press(draft, "Save", { "owner.phone": "01632 960001" })).status).toBe(422);
  const right = await desk.press(draft, "Save", { "owner.email": "pell@nowhere.example" });
  expect([right.status, words(right.html)]).toEqual([200, expect.stringContaining("Saved.")]);
  expect(((await (await opened.call(path)).json()) as { email: string }).email).toBe("pell@nowhere.example");
});
