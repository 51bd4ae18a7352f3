import { expect, it } from "vitest";
import { JOB_STATES } from "../../../src/acts/standing.js";
import { closed } from "../../records/support/closed.js";
import { agreedShop } from "../support/agreedShop.js";
import { BARE_JOB } from "../support/shop.js";

type Call = Awaited<ReturnType<typeof agreedShop>>["call"];
interface Listed {
  readonly items: readonly { readonly id: string; readonly state: string }[];
}
const TAPE_ECHO = "01a1e8fd-0b20-7cb5-9019-4936cadd928a";
const ORGAN = { job: "01a1e3d5-c4c0-7eb7-a9af-1608384dbd2c", draft: "01a211ee-ea80-7973-97f7-b9e60cb54b53" };
const AMPLIFIER = "01a1f34a-ad80-791e-8a2f-2b8f70a64d6d";

const stateOf = async (call: Call, id: string) => ((await (await call(`/api/jobs/${id}`)).json()) as { state: string }).state;
const inState = async (call: Call, state: string) =>
  ((await (await call(`/api/jobs?state=${encodeURIComponent(state)}`)).json()) as Listed).items.map(({ id }) => id);

it("a job is a draft, with the owner, answered or declined, waiting for parts, closed, and listed by that and what is next", async () => {
  const { call, send, db } = await agreedShop();
  expect(await stateOf(call, BARE_JOB)).toBe("draft");
  expect(await stateOf(call, ORGAN.job)).toBe("draft");
  expect(await stateOf(call, TAPE_ECHO)).toBe("waiting for parts");
  await send("POST", `/api/estimates/${ORGAN.draft}/issue`, { by: "Wilmot" }, { "if-match": "*" });
  expect(await stateOf(call, ORGAN.job)).toBe("with the owner");
  const said = { by: "Orla", channel: "e-mail", recordedBy: "Wilmot", writing: "e-mail of today" };
  const first = await send("POST", `/api/estimates/${ORGAN.draft}/agreements`, { ...said, answer: "declined" });
  expect(await stateOf(call, ORGAN.job)).toBe("declined");
  const { id: corrects } = (await first.json()) as { id: string };
  const corrected = { ...said, answer: "agreed", corrects, reason: "heard wrongly" };
  expect((await send("POST", `/api/estimates/${ORGAN.draft}/agreements`, corrected)).status).toBe(201);
  expect(await stateOf(call, ORGAN.job)).toBe("waiting for parts");
  expect(await (await call(`/api/jobs/${ORGAN.job}`)).json()).toMatchObject({
    next: "take the deposit",
    nextBy: expect.stringMatching(/^\d{4}-/),
  });
  await send("POST", `/api/jobs/${ORGAN.job}/estimates`, {});
  expect(await stateOf(call, ORGAN.job)).toBe("draft");
  await closed(db, AMPLIFIER);
  expect(await inState(call, "closed")).toEqual([AMPLIFIER]);
  expect(await inState(call, "waiting for parts")).toEqual([TAPE_ECHO]);
  const all = ((await (await call("/api/jobs")).json()) as Listed).items;
  for (const state of JOB_STATES)
    expect(await inState(call, state)).toEqual(all.flatMap((job) => (job.state === state ? [job.id] : [])));
  expect((await call("/api/jobs?state=lost")).status).toBe(400);
});
