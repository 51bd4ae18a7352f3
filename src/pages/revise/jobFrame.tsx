/** A page about one job, with the way back to it. */

import type { Child } from "hono/jsx";
import { type Frame, Page } from "../frame/layout.js";

export interface JobHead {
  readonly id: string;
  /** Such as J-2026-0001. */
  readonly number: string;
  /** Maker and model. */
  readonly unit: string;
}

interface JobFrameProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly title: string;
  readonly wrong?: boolean;
  readonly script?: string;
  readonly children?: Child;
}

export const JobFramed = ({ frame, job, title, wrong = false, script, children }: JobFrameProps) => (
  <Page frame={frame} title={`${title}, ${job.number}`} at="/" wrong={wrong} {...(script && { script })}>
    <p class="links back">
      <a href={`/jobs/${job.id}`}>{`${job.number}, ${job.unit}`}</a>
    </p>
    <h1>{title}</h1>
    {children}
  </Page>
);

/** The account of a closed job rests on the log as it was. */
export const LogChanged = ({ job }: { job: string }) => (
  <p class="not-agreed" id="log-changed">
    <strong>The log changed after closing: correct the close-out.</strong>{" "}
    <a href={`/jobs/${job}/close-out?correct`}>Correct it from the log as it stands now</a>
  </p>
);
