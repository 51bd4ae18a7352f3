/** Who works, and the timer that runs. */

import { HAZARDS } from "../../estimating/lists.js";
import { Ask } from "../frame/ask.js";
import { Box, Pick, Ticks } from "../frame/field.js";
import { BenchForm } from "./benchForm.js";
import { type BenchView, workValue } from "./view.js";

export const TimerPart = (view: BenchView) => {
  const { by, timer, others, job, closedOn } = view;
  return (
    <section class="at-work" aria-labelledby="at-work-name" id="at-work" data-follows>
      <h2 id="at-work-name" class="unseen">
        Who works
      </h2>
      <form method="get" action={`/jobs/${job.id}/bench`} class="who" id="who">
        <Box {...view} name="by" label="Who works" value={by} autocomplete="name" />
        <button type="submit">I am working</button>
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
      <Box {...view} name="worked" label={`Minutes worked since ${view.timer!.since}`} size="figure" keys="decimal" />
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

/** Minutes, where no timer ran. */
export const Minutes = (view: BenchView) => {
  const { groups, after, input } = view;
  const works = [
    ...groups.flatMap(({ name, works }) => works.map(({ id, title, blocked }) => [id, `${name}: ${title}`, blocked] as const)),
    ...after.map(({ id, title, blocked }) => [id, title, blocked] as const),
  ];
  return (
    <BenchForm view={view} act="minutes" title="Minutes" id="minutes-form">
      <fieldset class="part">
        <legend>Enter minutes</legend>
        <div class="columns">
          <Pick
            {...view}
            name="work"
            label="Work"
            options={[
              ["access", "Opening and refitting"],
              ...works.map(
                ([id, title, blocked]) => [workValue({ item: id }), blocked ? `${title} – not agreed` : title] as const,
              ),
              ...(input.map?.assemblies ?? []).map(
                ({ id, name }) => [workValue({ assembly: id }), `${name}: opening and refitting`] as const,
              ),
              ...(input.offers ?? [])
                .filter(({ pullMinutes }) => pullMinutes !== undefined)
                .map(({ id, source }) => [workValue({ offer: id }), `Pull parts: ${source}`] as const),
            ]}
          />
          <Ask form={view} name="minutes" size="money" />
          <Ask form={view} name="note" rows={1} />
        </div>
        <button type="submit" class="primary big">
          Log the minutes
        </button>
      </fieldset>
    </BenchForm>
  );
};

/** What nobody agreed to is logged by name, with a reason, in the same step. */
export const OwnWork = (view: BenchView) => (
  <BenchForm view={view} act="own" title="Work in your own words" id="own-form">
    <fieldset class="part">
      <legend>Work that is on no list</legend>
      <p class="hint">
        Nobody agreed to it, so it is not billed. To charge it, <a href={`/jobs/${view.job.id}/extra-fault`}>send a revision</a>{" "}
        instead, and wait for the answer.
      </p>
      <div class="columns">
        <Ask form={view} name="own" size="long" />
        <Ask form={view} name="own.minutes" size="money" />
        <Ask
          form={view}
          name="own.assembly"
          label="Where"
          options={[
            ["", "the unit as a whole"],
            ...(view.input.map?.assemblies ?? []).map(({ id, name }) => [id, name] as const),
          ]}
        />
        <Ask form={view} name="own.override.by" value={view.fields.get("own.override.by") ?? view.by} />
        <Ask form={view} name="own.override.reason" label="Why it is done without an agreement" size="long" />
      </div>
      <details class="fold" {...(view.dangers.length > 0 ? { open: true } : {})}>
        <summary>Its dangers, a note</summary>
        <Ticks
          {...view}
          name="ownHazards"
          legend="Dangers"
          hint="Each shows its usual caution here."
          values={HAZARDS}
          ticked={view.dangers}
        />
        <Ask form={view} name="own.note" rows={1} />
      </details>
      <button type="submit" class="big">
        Log this work
      </button>
    </fieldset>
  </BenchForm>
);
