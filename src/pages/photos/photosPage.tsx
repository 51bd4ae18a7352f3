/** Photos of one job: what is there, what goes into the estimate, and more of them. */
import { ErrorSummary, Said } from "../frame/errorSummary.js";
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

export interface PhotosPageProps {
  readonly frame: Frame;
  readonly script: string;
  readonly job: JobHead;
  readonly groups: readonly PhotoGroup[];
  /** What a new photo can show: value and name. */
  readonly subjects: readonly (readonly [value: string, name: string])[];
  readonly fields: ReadonlyMap<string, string>;
  readonly errors: ReadonlyMap<string, string>;
  /** The revision that ticked photos go into; absent where none is a draft. */
  readonly draft?: { readonly revision: number };
  /** No place to keep them is set up. */
  readonly closed: boolean;
  readonly say?: string | undefined;
}

export const PhotosPage = (props: PhotosPageProps) => {
  const { frame, script, job, groups, errors, say, draft, closed } = props;
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
    {wrong ? (
      <p class="wrong" id={`onPaper-${id}-wrong`}>
        <span class="unseen">Error: </span>
        {wrong}
      </p>
    ) : null}
    {ticks ? (
      <div class="tick">
        <input
          type="checkbox"
          id={`onPaper-${id}`}
          name="onPaper"
          value={id}
          form="on-paper"
          checked={onPaper}
          {...(wrong ? { "aria-describedby": `onPaper-${id}-wrong` } : {})}
        />
        <label for={`onPaper-${id}`}>
          In the estimate<span class="unseen">: {caption || about}</span>
        </label>
      </div>
    ) : null}
    <details>
      <summary>
        Take it out<span class="unseen">: {caption || about}</span>
      </summary>
      <form method="post" action={`${here}/${id}/removal`}>
        <p class="hint">It goes from this page and from a draft. An estimate that was issued with it keeps it.</p>
        <button type="submit">Take this photo out</button>
      </form>
    </details>
  </figure>
);

const AddPhotos = ({ here, fields, errors, subjects }: PhotosPageProps & { here: string }) => {
  const now = (name: string) => fields.get(name) ?? "";
  const wrong = (name: string) =>
    errors.has(name) ? (
      <p class="wrong" id={`${name}-wrong`}>
        <span class="unseen">Error: </span>
        {errors.get(name)}
      </p>
    ) : null;
  const told = (name: string, hint?: string) => ({
    ...(hint || errors.has(name)
      ? { "aria-describedby": [hint, errors.has(name) ? `${name}-wrong` : ""].filter(Boolean).join(" ") }
      : {}),
    ...(errors.has(name) ? { "aria-invalid": "true" } : {}),
  });
  const field = (name: string) => (errors.has(name) ? "field field-wrong" : "field");
  return (
    <form method="post" action={here} enctype="multipart/form-data" id="add-photos" novalidate>
      <input type="hidden" name="token" value={now("token")} />
      <div class="columns">
        <div class={field("photo")}>
          <label for="photo">Photos to add</label>
          <p class="hint" id="photo-hint">
            JPEG, PNG or WebP, 8 MB in all. Where and with what they were taken is taken out.
          </p>
          {wrong("photo")}
          <input
            type="file"
            id="photo"
            name="photo"
            accept="image/jpeg,image/png,image/webp"
            multiple
            {...told("photo", "photo-hint")}
          />
          <p role="status" class="hint" id="resized"></p>
        </div>
        <div class={field("shows")}>
          <label for="shows">What they show</label>
          {wrong("shows")}
          <select id="shows" name="shows" {...told("shows")}>
            {subjects.map(([value, name]) => (
              <option value={value} selected={value === now("shows")}>
                {name}
              </option>
            ))}
          </select>
        </div>
        <div class={field("caption")}>
          <label for="caption">Caption</label>
          {wrong("caption")}
          <input id="caption" name="caption" value={now("caption")} autocomplete="off" {...told("caption")} />
        </div>
        <div class={field("takenOn")}>
          <label for="takenOn">Taken on</label>
          {wrong("takenOn")}
          <input type="date" id="takenOn" name="takenOn" value={now("takenOn")} {...told("takenOn")} />
        </div>
        <div class={field("by")}>
          <label for="by">Added by</label>
          {wrong("by")}
          <input id="by" name="by" value={now("by")} autocomplete="name" {...told("by")} />
        </div>
      </div>
      <p class="actions">
        <button type="submit" class="primary" id="add">
          Add photos
        </button>
      </p>
    </form>
  );
};
