/** Photos of a job: looked at, added, taken out, and chosen for the estimate. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { carryOut } from "../../acts/carryOut.js";
import { removePhoto } from "../../acts/removePhoto.js";
import { showPhotos } from "../../acts/showPhotos.js";
import type { PhotoRead } from "../../documents/picture/picture.js";
import { readPhoto } from "../../documents/picture/readPicture.js";
import { isOnItsSide } from "../../documents/picture/turn.js";
import { isDay } from "../../estimating/day.js";
import { LENGTHS, line, reading } from "../../pages/form/reading.js";
import { type PhotoGroup, PhotosPage, type ShownPhoto } from "../../pages/photos/photosPage.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { estimates } from "../../records/estimates.js";
import { MOST_PHOTOS, type Photo, type PhotoValue, photos as records } from "../../records/photos.js";
import { rateBooks } from "../../records/rateBooks.js";
import { sha256 } from "../../records/sha256.js";
import { workTitle } from "../../wording/line.js";
import { photoRefusalText } from "../../wording/photoRefusal.js";
import { day } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { pageDoor } from "../doors/page.js";
import { photoAnswer } from "../photos/answer.js";
import { type PhotosOnPaper, photosOnPaper } from "../photos/onPaper.js";
import { refuse } from "../problems/refuse.js";
import { formWithFiles } from "./form.js";
import { frameFor, pageAnswer, photoScriptFor } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { tokenOf } from "./token.js";

export const photos = new Hono<AppEnv>();

photos.get("/photos/:id", async (c) => {
  const photo = await records.find(c.var.db, c.req.param("id"));
  if (!photo || (await records.isRemoved(c.var.db, photo.id)))
    return refuse(c, "not found", { detail: "There is no such photo." });
  return photoAnswer(c, photo);
});

photos.get("/jobs/:id/photos", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  return subject ? show(c, subject, { say: SAID[c.req.query("said") ?? ""] }) : refuse(c, "not found", NO_JOB);
});

const SAID: Readonly<Record<string, string>> = {
  added: "Added.",
  removed: "Taken out.",
  chosen: "Kept: the ticked photos are printed with the draft.",
};

photos.post("/jobs/:id/photos", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const store = c.var.photos;
  if (!store) return refuse(c, "photo store missing");
  const form = await formWithFiles(c);
  const fields = new Map([...form].flatMap(([name, value]) => (typeof value === "string" ? [[name, value] as const] : [])));

  const { value, errors } = await said(c, subject, fields);
  const read = await readFiles(form.getAll("photo"));
  if (read.wrong) errors.set("photo", read.wrong);
  if (errors.size > 0) return show(c, subject, { fields, errors });

  const [token, at] = [tokenOf(fields), c.var.clock().toISOString()];
  for (const [place, { mime, width, height, turn, bytes }] of read.photos.entries()) {
    const id = `${token}-${place + 1}`;
    // The same form sent twice: the first bytes stay.
    if (await records.find(c.var.db, id)) continue;
    await store.put(id, bytes, mime);
    const photo = { ...value, mime, width, height, turn, size: bytes.length, sha256: await sha256(bytes) };
    if ((await records.add(c.var.db, id, subject.job.id, photo, at)) !== "too many") continue;
    await store.remove(id);
    const text = photoRefusalText({ is: "too many photos", most: MOST_PHOTOS }, "Photos of one job");
    return show(c, subject, { fields, errors: new Map([["photo", text]]) });
  }
  return c.redirect(`/jobs/${subject.job.id}/photos?said=added`, 303);
});

/** What the form says of the photos. */
async function said(c: Context<AppEnv>, subject: JobSubject, fields: ReadonlyMap<string, string>) {
  const book = (await rateBooks.find(c.var.db, subject.settings.rateBookId))!.book;
  const at = reading(plainContext("2000-01-01", subject.tongue, book));
  const caption = line(at, "caption", fields.get("caption"), LENGTHS.line);
  const by = line(at, "by", fields.get("by"), 200);
  const errors = errorsIn(at);
  const takenOn = fields.get("takenOn")?.trim();
  if (takenOn && !isDay(takenOn)) errors.set("takenOn", "Taken on: write it as year, month, day, such as 2026-11-25.");
  const shows = fields.get("shows") ?? "intake";
  const subjects = await subjectsOf(c, subject);
  if (!subjects.some(([value]) => value === shows))
    errors.set("shows", "What they show: this work is not part of the job any more; choose again.");
  const [of, ...item] = shows.split(":");
  const value = {
    of: of === "fault" ? "fault" : "intake",
    ...(item.length > 0 && { item: item.join(":") }),
    ...(caption && { caption }),
    ...(takenOn && { takenOn }),
    ...(by && { by }),
  } satisfies Partial<PhotoValue>;
  return { value, errors };
}

/** All of them, or why the first one that is wrong is not taken: then none is. */
async function readFiles(sent: readonly FormDataEntryValue[]): Promise<{ photos: readonly PhotoRead[]; wrong?: string }> {
  const files = sent.filter((one): one is File => typeof one !== "string" && one.size > 0);
  if (files.length === 0) return { photos: [], wrong: photoRefusalText({ is: "photo missing" }, "Photos to add") };
  const found: PhotoRead[] = [];
  for (const file of files) {
    const read = readPhoto(new Uint8Array(await file.arrayBuffer()));
    if ("is" in read) return { photos: [], wrong: `${photoRefusalText(read, file.name || "The photo")} None was added.` };
    found.push(read);
  }
  return { photos: found };
}

photos.post("/jobs/:id/photos/on-paper", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { job, tongue } = subject;
  return pageDoor(c, showPhotos, {
    on: { job: job.id, unfit: async (wanted) => unfitOf(await photosOnPaper(c, await records.ofJob(c.var.db, job.id), wanted)) },
    tongue,
    done: () => `/jobs/${job.id}/photos?said=chosen`,
    show: async ({ typed, errors, refusal }) =>
      show(c, (await jobSubject(c, job.id)) ?? subject, {
        ticked: new Set(typed.all("onPaper")),
        ...(refusal ? { say: errors.get("")!, status: 409 } : { errors: new Map(errors) }),
      }),
  });
});

/** Beside the tick of each. */
const unfitOf = (checked: PhotosOnPaper) =>
  checked.ok
    ? []
    : checked.faults.map(({ id, text }) => ({ pointer: `/onPaper-${id}`, name: "picture unreadable", detail: text }));

photos.post("/jobs/:id/photos/:photo/removal", async (c) => {
  const { id, photo } = c.req.param();
  const outcome = await carryOut(removePhoto, deskOf(c), {}, { job: id, photo });
  if (outcome.ok) return c.redirect(`/jobs/${id}/photos?said=removed`, 303);
  const before = await records.find(c.var.db, photo);
  // Pressed twice.
  return before?.jobId === id
    ? c.redirect(`/jobs/${id}/photos?said=removed`, 303)
    : refuse(c, outcome.refusal.is, outcome.refusal);
});

const draftOf = ({ revisions }: JobSubject) => revisions.find(({ issuedAt }) => !issuedAt);

/** The unit as it came in, a fault, or a fault by the work that puts it right. */
async function subjectsOf(c: Context<AppEnv>, { revisions }: JobSubject): Promise<readonly (readonly [string, string])[]> {
  const latest = revisions.at(-1);
  const input = latest && (await estimates.inputOf(c.var.db, latest));
  const work = input?.items.map((item) => [`fault:${item.id}`, `Fault: ${workTitle(item, input)}`] as const) ?? [];
  return [["intake", "The unit as it came in"], ["fault", "A fault"], ...work];
}

interface Shown {
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: ReadonlyMap<string, string>;
  readonly ticked?: ReadonlySet<string>;
  readonly say?: string | undefined;
  readonly status?: 409;
}

async function show(c: Context<AppEnv>, subject: JobSubject, { fields, errors = new Map(), ticked, say, status }: Shown) {
  const { job, head, settings } = subject;
  const found = await records.ofJob(c.var.db, job.id);
  const draft = draftOf(subject);
  const chosen = ticked ?? new Set((draft?.input.paperwork?.photos ?? []).map(({ id }) => id));
  const subjects = await subjectsOf(c, subject);
  const shown = (photo: Photo): ShownPhoto => shownPhoto(photo, subjects, settings.locale, chosen.has(photo.id));
  const groups: readonly PhotoGroup[] = [
    { name: "As it came in", photos: found.filter(({ of }) => of === "intake").map(shown) },
    { name: "Faults", photos: found.filter(({ of }) => of === "fault").map(shown) },
  ];
  const blank = new Map([
    ["token", uuidv7()],
    ["by", c.var.staff?.name ?? lastHand(subject)],
  ]);
  return pageAnswer(
    c,
    <PhotosPage
      frame={frameFor(c, settings.name)}
      script={photoScriptFor(c)}
      job={head}
      groups={groups}
      subjects={subjects}
      fields={new Map([...blank, ...(fields ?? [])])}
      errors={errors}
      closed={!c.var.photos}
      say={say}
      {...(draft && { draft: { revision: draft.revision } })}
    />,
    errors.size > 0 ? 422 : status,
  );
}

function shownPhoto(
  photo: Photo,
  subjects: readonly (readonly [string, string])[],
  locale: string,
  onPaper: boolean,
): ShownPhoto {
  const { id, width, height, turn, caption = "", takenOn, by, size, item } = photo;
  const about = [
    item && subjects.find(([value]) => value === `fault:${item}`)?.[1],
    takenOn && `taken ${day(takenOn, locale)}`,
    by && `added by ${by}`,
    `${Math.max(1, Math.round(size / 1024))} kB`,
  ];
  const sideways = isOnItsSide(turn);
  return {
    id,
    src: `/photos/${id}`,
    width: sideways ? height : width,
    height: sideways ? width : height,
    caption,
    about: about.filter(Boolean).join(", "),
    onPaper,
  };
}
