/** Photos of a job: looked at, added, taken out, and chosen for the estimate. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { addPhotos, type PhotoSent, removePhoto, showPhotos } from "../../acts/photos.js";
import { typedFrom, typedWith } from "../../acts/readForm.js";
import { isOnItsSide } from "../../documents/picture/turn.js";
import { type PhotoGroup, PhotosPage, type ShownPhoto } from "../../pages/photos/photosPage.js";
import { PHOTO_TYPES, type Photo, photos as records } from "../../records/photos.js";
import { workTitle } from "../../wording/line.js";
import { day } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { fresh, type PageStatus, pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer, photoScriptFor } from "../frame/frame.js";
import { photoAnswer } from "../photos/answer.js";
import { unfitIn } from "../photos/onPaper.js";
import { photoSent } from "../photos/sent.js";
import { refuse } from "../problems/refuse.js";
import { formWithFiles } from "./form.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";

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
  if (!c.var.photos) return refuse(c, "photo store missing");
  const form = await formWithFiles(c);
  const files = form.getAll("photo").filter((one): one is File => typeof one !== "string" && one.size > 0);
  const sent: PhotoSent[] = [];
  for (const file of files) sent.push(await photoSent(file.name || "The photo", new Uint8Array(await file.arrayBuffer())));
  const typed = typedFrom(new URLSearchParams([...form].filter((pair): pair is [string, string] => typeof pair[1] === "string")));
  const [of, ...item] = (typed.get("shows") ?? "intake").split(":");
  return pageDoor(c, addPhotos, {
    on: { job: subject.job.id, sent },
    tongue: subject.tongue,
    withFiles: { typed, files: sent.map(({ name, read }) => ("is" in read ? name : read.sha256)) },
    said: { typed: typedWith(typed, { of, item: item.join(":") }), names: { of: "shows", item: "shows" } },
    done: () => `/jobs/${subject.job.id}/photos?said=added`,
    show: (again) => show(c, subject, again),
    anew: true,
  });
});

photos.post("/jobs/:id/photos/on-paper", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { job, tongue } = subject;
  const unfit = unfitIn(c, job.id);
  // Beside the tick of each.
  let errors: ReadonlyMap<string, string> = new Map();
  return pageDoor(c, showPhotos, {
    on: {
      job: job.id,
      unfit: async (wanted) => {
        const found = await unfit(wanted);
        errors = new Map(found.map(({ id, text }) => [`onPaper-${id}`, text]));
        return found;
      },
    },
    tongue,
    done: () => `/jobs/${job.id}/photos?said=chosen`,
    show: async ({ typed, errors: whole, refusal }) =>
      show(c, (await jobSubject(c, job.id)) ?? subject, {
        ticked: new Set(typed.all("onPaper")),
        ...(refusal ? { say: whole.get("")!, status: 409 } : { errors }),
      }),
  });
});

photos.post("/jobs/:id/photos/:photo/removal", async (c) => {
  const { id, photo } = c.req.param();
  const outcome = await carryOut(removePhoto, deskOf(c), {}, { job: id, photo });
  // Pressed twice.
  const gone = outcome.ok || (await records.find(c.var.db, photo))?.jobId === id;
  return gone ? c.redirect(`/jobs/${id}/photos?said=removed`, 303) : refuse(c, outcome.refusal.is, outcome.refusal);
});

/** The unit as it came in, a fault, or a fault by the work that puts it right. */
function subjectsOf({ stands }: JobSubject): readonly (readonly [string, string])[] {
  const latest = stands.revisions.at(-1);
  const input = latest && stands.inputOf(latest);
  const work = input?.items.map((item) => [`fault:${item.id}`, `Fault: ${workTitle(item, input)}`] as const) ?? [];
  return [["intake", "The unit as it came in"], ["fault", "A fault"], ...work];
}

interface Shown {
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: ReadonlyMap<string, string>;
  readonly ticked?: ReadonlySet<string>;
  readonly say?: string | undefined;
  readonly status?: PageStatus;
}

async function show(c: Context<AppEnv>, subject: JobSubject, { fields = new Map(), errors = new Map(), ...shown }: Shown) {
  const { head, settings, stands } = subject;
  const { photos: found, draft } = stands;
  const chosen = shown.ticked ?? new Set((draft?.input.paperwork?.photos ?? []).map(({ id }) => id));
  const subjects = subjectsOf(subject);
  const seen = (photo: Photo): ShownPhoto => shownPhoto(photo, subjects, settings.locale, chosen.has(photo.id));
  const groups: readonly PhotoGroup[] = [
    { name: "As it came in", photos: found.filter(({ of }) => of === "intake").map(seen) },
    { name: "Faults", photos: found.filter(({ of }) => of === "fault").map(seen) },
  ];
  const blank = fresh(addPhotos, { by: lastHand(subject) });
  return pageAnswer(
    c,
    <PhotosPage
      frame={frameFor(c, settings.name)}
      script={photoScriptFor(c)}
      job={head}
      groups={groups}
      subjects={subjects}
      form={{ ...blank, fields: new Map([...blank.fields, ...fields]), errors }}
      types={PHOTO_TYPES}
      closed={!c.var.photos}
      say={shown.say}
      {...(draft && { draft: { revision: draft.revision } })}
    />,
    errors.size > 0 ? 422 : shown.status,
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
