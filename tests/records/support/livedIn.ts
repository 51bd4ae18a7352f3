/** One job of the demo shop, lived in: two revisions, links, questions, answers, a correction, work within and beyond what was agreed. */
import type { Given } from "../../../src/acts/answered.js";
import { addPhotos, removePhoto } from "../../../src/acts/photos.js";
import type { Database } from "../../../src/records/database.js";
import { estimates } from "../../../src/records/estimates.js";
import { ownerLinks } from "../../../src/records/ownerLinks.js";
import type { PhotoStore } from "../../../src/records/photoStore.js";
import { sha256 } from "../../../src/records/sha256.js";
import { answerOf, close, log, read, tick, withdraw } from "../../acts/support/bench.js";
import { deskAt, done } from "../../acts/support/desk.js";
import { type Answered, answer, asks, links, replies, withdraws } from "./answer.js";
import { closing } from "./closing.js";
import { draftSaved, issue, nextDraft, outgoing } from "./drafts.js";

/** Minutes after nine. */
export const at = (minutes: number): string => new Date(Date.parse("2026-11-25T09:00:00.000Z") + minutes * 60_000).toISOString();

export const TAPE_ECHO = "01a1e8fd-0b20-7cb5-9019-4936cadd928a";

export async function issued(db: Database, id: string, when = at(1), changed: Parameters<typeof outgoing>[0] = {}) {
  const draft = (await estimates.find(db, id))!;
  const done = await issue(db, id, draft.version, outgoing(changed), when);
  if (done.is !== "issued") throw new Error(JSON.stringify(done));
  return done as Extract<typeof done, { is: "issued" }>;
}

/** What the owner says of an estimate. */
export async function given(db: Database, estimateId: string, changed: Partial<Given> = {}): Promise<Given> {
  const { contentHash } = (await estimates.find(db, estimateId))!;
  return {
    estimateId,
    contentHash,
    answer: "agreed",
    by: "Ottilie Vantongeren",
    channel: "page",
    chosen: [],
    struck: [],
    ...changed,
  };
}

export function recordOf(outcome: Answered) {
  if (!("record" in outcome)) throw new Error(JSON.stringify(outcome));
  return outcome.record;
}

export const draftOf = async (db: Database, jobId: string) => {
  const draft = (await estimates.ofJob(db, jobId)).at(-1)!;
  if (draft.issuedAt) throw new Error("No open draft.");
  return draft;
};

/** Its bytes in memory, unless there is a place for them. */
export async function photographed(db: Database, job: string, id: string, bytes: Uint8Array, when: string, store?: PhotoStore) {
  const held = new Map<string, Uint8Array>();
  const memory: PhotoStore = {
    put: async (name, kept) => void held.set(name, kept),
    get: async (name) => held.get(name),
    remove: async (name) => void held.delete(name),
  };
  const read = { mime: "image/jpeg", width: 8, height: 4, turn: 1, sha256: await sha256(bytes), bytes } as const;
  const desk = { ...deskAt(db, when), photos: store ?? memory };
  const shown = { of: "fault", caption: "Leaked cell", by: "Wilhelmina" } as const;
  return done(addPhotos, desk, shown, { job, sent: [{ id, name: "cell.jpg", read }] });
}

export async function livedIn(db: Database, jobId = TAPE_ECHO) {
  const first = await issued(db, (await draftOf(db, jobId)).id, at(1));
  const link = (await ownerLinks.find(db, first.secret.fragment.split(".")[0]!))!;
  await asks(db, "question-1", link, "How long will it take?", at(2));
  await replies(db, "reply-1", "question-1", { by: "Wilhelmina", text: "About three weeks." }, at(3));
  const options = first.record.sheet!.options.map(({ id }) => id);
  recordOf(await answer(db, "answer-1", await given(db, first.record.id, { chosen: options }), at(4)));

  const next = await nextDraft(db, jobId, "draft-2", at(5));
  if (!next.record) throw new Error(next.is);
  const { jobId: _, ...value } = next.record;
  const found = { ...value.input.items[0]!, id: "found-1", count: 2, reason: "burnt when it was opened" };
  const input = { ...value.input, items: [...value.input.items, found] };
  await draftSaved(
    db,
    "draft-2",
    1,
    { jobId, rateBookId: value.rateBookId, rateBookVersion: value.rateBookVersion, input },
    at(6),
  );
  const second = await issued(db, "draft-2", at(7));
  recordOf(
    await answer(db, "answer-2", await given(db, "draft-2", { answer: "part agreed", chosen: options, struck: ["w05"] }), at(8)),
  );
  const correcting = {
    corrects: "answer-2",
    reason: "w05 is wanted after all",
    channel: "in person",
    writing: "note at the counter",
  } as const;
  recordOf(
    await answer(db, "answer-3", await given(db, "draft-2", { chosen: options, recordedBy: "Wilhelmina", ...correcting }), at(9)),
  );

  const made = (id: string) => ({ id, job: jobId, when: at(10) });
  const logged = async (id: string, entry: object, override?: { by: string; reason: string }) =>
    answerOf(await log(db, made(id), { person: "Wilhelmina", ...entry }, override));
  await logged("log-1", { item: "w01", minutes: 30, parts: 400 });
  await logged("log-3", { item: "w02", minutes: 5, partKind: "drive-belt", partCount: 1 });
  const wrong = { by: "Wilhelmina", reason: "meant for the other unit of Ottilie Vantongeren" };
  answerOf(await withdraw(db, made("taken-back-1"), "log-3", wrong));
  const odd = { ownPart: "Belt from the drawer", paidPrice: 100 };
  await logged(
    "log-2",
    { item: "w02", minutes: 6000, ...odd },
    { by: "Wilhelmina Stråhle", reason: "our own fault, not billed" },
  );
  answerOf(await tick(db, made("tick-1"), { item: "w01", count: 1, person: "Wilhelmina" }));
  const figures = { label: "supply +12 V, as Ottilie Vantongeren told", expected: 12, found: 11.8, unit: "V" };
  answerOf(await read(db, made("reading-1"), { ...figures, person: "Wilhelmina" }));
  await photographed(db, jobId, "photo-1", Uint8Array.from([0xff, 0xd8, 0xff]), at(10));
  const desk = { ...deskAt(db, at(10), "photo-removal-1"), staff: { id: "w", name: "Wilhelmina", role: "manager" as const } };
  await done(removePhoto, desk, {}, { job: jobId, photo: "photo-1" });
  answerOf(await close(db, made("closed"), closing({ closedOn: "2026-11-25" })));
  const other = await links(db, "draft-2", { by: "Wilhelmina", deliveredTo: "ottilie@larkholt.example", days: 37 }, at(11));
  await withdraws(db, "withdrawal-1", other.id, { by: "Wilhelmina", reason: "sent to the wrong address" }, at(12));
  return { jobId, first, second, link, other };
}
