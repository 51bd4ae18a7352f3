/** Who works, and the timer that runs. */
import { BenchForm } from "./benchForm.js";
import { type BenchView, workValue } from "./view.js";

export const TimerPart = (view: BenchView) => {
  const { by, timer, others, job, errors, closedOn } = view;
  return (
    <section class="at-work" aria-labelledby="at-work-name" id="at-work" data-follows>
      <h2 id="at-work-name" class="unseen">
        Who works
      </h2>
      <form method="get" action={`/jobs/${job.id}/bench`} class="who" id="who">
        <div class={errors.has("by") ? "field field-wrong" : "field"}>
          <label for="by">Who works</label>
          {errors.has("by") ? (
            <p class="wrong" id="by-wrong">
              <span class="unseen">Error: </span>
              {errors.get("by")}
            </p>
          ) : null}
          <input
            id="by"
            name="by"
            value={by}
            autocomplete="name"
            {...(errors.has("by") ? { "aria-invalid": "true", "aria-describedby": "by-wrong" } : {})}
          />
        </div>
        <button type="submit">That is me</button>
      </form>
      {/* One started while the job was being closed runs on, and is paused by an override. */}
      {closedOn === undefined || (timer && !timer.elsewhere) ? (
        timer?.elsewhere ? (
          <p class="timer timer-on">
            Your timer runs on <a href={`/jobs/${timer.elsewhere.id}/bench`}>{timer.elsewhere.number}</a>: {timer.title}, since{" "}
            {timer.since}. Pause it there first.
          </p>
        ) : (
          <div class={timer ? "timer timer-on" : "timer"} id="timer">
            <p>
              {timer ? (
                <>
                  <strong id="timer-title">{timer.title}</strong>{" "}
                  <span class="hint">
                    since {timer.since}
                    <span id="timer-for" data-since={timer.startedAt} />
                  </span>
                </>
              ) : (
                <span id="timer-title">No timer runs. Start one beside the work.</span>
              )}
            </p>
            {timer ? <Pause {...view} /> : null}
          </div>
        )
      ) : null}
      {others.map(({ person, title, since }) => (
        <p class="hint">
          {person}: {title}, since {since}
        </p>
      ))}
    </section>
  );
};

const Pause = (view: BenchView) => (
  <BenchForm view={view} act="stop" title={`Pause: ${view.timer!.title}`} id="stop" kind="pause">
    <button type="submit" class="primary big">
      Pause and log the time
    </button>
    <details {...(view.errors.has("worked") ? { open: true } : {})}>
      <summary>It ended earlier</summary>
      <div class={view.errors.has("worked") ? "field field-wrong" : "field"}>
        <label for="worked">Minutes worked since {view.timer!.since}</label>
        {view.errors.has("worked") ? (
          <p class="wrong" id="worked-wrong">
            {view.errors.get("worked")}
          </p>
        ) : null}
        <input
          id="worked"
          name="worked"
          inputmode="decimal"
          class="size-figure"
          value={view.fields.get("worked") ?? ""}
          autocomplete="off"
          {...(view.errors.has("worked") ? { "aria-invalid": "true", "aria-describedby": "worked-wrong" } : {})}
        />
      </div>
    </details>
  </BenchForm>
);

interface StartProps {
  readonly view: BenchView;
  readonly title: string;
  readonly item?: string;
  readonly assembly?: string;
}

/** Starting one pauses the one that runs; beside the work that it runs on it can be paused. */
export const Start = ({ view, title, item, assembly }: StartProps) => {
  const work = workValue({ item, assembly });
  if (view.timer?.work === work && !view.timer.elsewhere)
    return (
      <BenchForm view={view} act="stop" title={`Pause: ${title}`} kind="start running">
        <button type="submit" class="primary big">
          Pause<span class="unseen"> the timer on {title}</span>
        </button>
      </BenchForm>
    );
  return (
    <BenchForm view={view} act="start" title={`Start: ${title}`} kind="start">
      <input type="hidden" name="work" value={work} />
      <button type="submit" class="big">
        Start<span class="unseen"> a timer on {title}</span>
      </button>
    </BenchForm>
  );
};
