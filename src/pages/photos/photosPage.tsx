/** Photos of one job: what is there, what goes into the estimate, and more of them. */
import { PHOTO_LIMITS } from "../../wording/photoRefusal.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { FileBox, Pick, Tick } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "../revise/jobFrame.js";

export interface ShownPhoto {
  readonly id: string;
  /** Address of the picture. */
  readonly src: string;
  /** Upright, in pixels. */
  readonly width: number;
  readonly height: number;
  readonly caption: string;
  /** When and by whom, and how large. */
  readonly about: string;
  readonly onPaper: boolean;
}

export interface PhotoGroup {
  readonly name: string;
  readonly photos: readonly ShownPhoto[];
}

interface PhotosPageProps {
  readonly frame: Frame;
  readonly script: string;
  readonly job: JobHead;
  readonly groups: readonly PhotoGroup[];
  /** What a new photo can show: value and name. */
  readonly subjects: readonly (readonly [value: string, name: string])[];
  readonly form: AskedForm;
  /** Media types of what can be added. */
  readonly types: readonly string[];
  /** The revision that ticked photos go into; absent where none is a draft. */
  readonly draft?: { readonly revision: number };
  /** No place to keep them is set up. */
  readonly closed: boolean;
  readonly say?: string | undefined;
}

export const PhotosPage = (props: PhotosPageProps) => {
  const { frame, script, job, groups, say, draft, closed } = props;
  const { errors } = props.form;
  const here = `/jobs/${job.id}/photos`;
  const many = groups.reduce((sum, { photos }) => sum + photos.length, 0);
  return (
    <JobFramed frame={frame} job={job} title="Photos" wrong={errors.size > 0} script={script}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {closed ? (
        <p class="empty">
          No place for photos is set up, so none can be shown or added. On the edge, bind a bucket under the name PHOTOS; on this
          machine, start the shop with npm start. Everything else works.
        </p>
      ) : (
        <AddPhotos {...props} here={here} />
      )}
      {many === 0 ? (
        <p class="empty">No photos yet. Take a few before the unit is opened: they settle what it looked like.</p>
      ) : (
        groups.map(({ name, photos }) =>
          photos.length === 0 ? null : (
            <section>
              <h2>{name}</h2>
              <div class="photos">
                {photos.map((photo) => (
                  <Photo photo={photo} here={here} ticks={draft !== undefined} wrong={errors.get(`onPaper-${photo.id}`)} />
                ))}
              </div>
            </section>
          ),
        )
      )}
      {many > 0 && draft ? (
        <form method="post" action={`${here}/on-paper`} id="on-paper" class="actions">
          <button type="submit">Put the ticked photos into revision {draft.revision}</button>
          <span class="hint">They are printed on its last pages, and the owner sees them with the estimate.</span>
        </form>
      ) : null}
    </JobFramed>
  );
};

const Photo = ({
  photo: { id, src, width, height, caption, about, onPaper },
  here,
  ticks,
  wrong,
}: {
  photo: ShownPhoto;
  here: string;
  ticks: boolean;
  wrong: string | undefined;
}) => (
  <figure class={wrong ? "photo field-wrong" : "photo"} id={`photo-${id}`}>
    <a href={src}>
      <img src={src} width={width} height={height} alt={caption || about} loading="lazy" />
    </a>
    <figcaption>
      {caption ? <strong>{caption}</strong> : null}
      <span class="hint">{about}</span>
    </figcaption>
    {ticks ? (
      <Tick
        id={`onPaper-${id}`}
        name="onPaper"
        value={id}
        form="on-paper"
        checked={onPaper}
        errors={new Map(wrong ? [[`onPaper-${id}`, wrong]] : [])}
        label={
          <>
            In the estimate<span class="unseen">: {caption || about}</span>
          </>
        }
      />
    ) : null}
    <details>
      <summary>
        Take it out<span class="unseen">: {caption || about}</span>
      </summary>
      <form method="post" action={`${here}/${id}/removal`}>
        <p class="hint">It is removed from this page and from a draft. An estimate that was issued with it keeps it.</p>
        <button type="submit">Remove this photo</button>
      </form>
    </details>
  </figure>
);

const PHOTO_HINT = `JPEG, PNG or WebP, ${PHOTO_LIMITS.bytes / 1024 / 1024} MB in all. Location and camera data are removed.`;

const AddPhotos = ({ here, form, types, subjects }: PhotosPageProps & { here: string }) => (
  <form method="post" action={here} enctype="multipart/form-data" id="add-photos" novalidate>
    <input type="hidden" name="token" value={form.fields.get("token") ?? ""} />
    <div class="columns">
      <FileBox errors={form.errors} name="photo" label="Photos to add" hint={PHOTO_HINT} accept={types.join(",")} multiple>
        <p role="status" class="hint" id="resized"></p>
      </FileBox>
      <Pick {...form} name="shows" label="What they show" options={subjects} />
      <Ask form={form} name="caption" />
      <Ask form={form} name="takenOn" />
      <Ask form={form} name="by" autocomplete="name" />
    </div>
    <p class="actions">
      <button type="submit" class="primary" id="add">
        Add photos
      </button>
    </p>
  </form>
);
