/** A form of the bench: one entry, by whoever works, kept once. */
import type { Child } from "hono/jsx";
import type { BenchView } from "./view.js";

const ACTS = ["start", "stop", "minutes", "own", "tick", "part", "reading", "undo", "begin"] as const;
export type Act = (typeof ACTS)[number];
export const isBenchAct = (text: string): text is Act => ACTS.some((act) => act === text);

interface BenchFormProps {
  readonly view: BenchView;
  readonly act: Act;
  /** What the list of waiting entries calls it. */
  readonly title: string;
  readonly id?: string;
  readonly kind?: string;
  /** Pieces that may be used before it is asked. */
  readonly left?: number;
  readonly children?: Child;
}

export const BenchForm = ({ view, act, title, id, kind, left, children }: BenchFormProps) => (
  <form
    method="post"
    action={`/jobs/${view.job.id}/bench`}
    class={`bench-form ${kind ?? ""}`.trim()}
    data-title={title}
    novalidate
    {...(id ? { id } : {})}
    {...(left === undefined ? {} : { "data-left": String(Math.max(0, left)) })}
  >
    <input type="hidden" name="act" value={act} />
    <input type="hidden" name="token" value={view.token()} />
    <input type="hidden" name="person" value={view.by} />
    {children}
  </form>
);

/** Takes an entry back where it was made; `at`: the place of the page. */
export const Undo = ({ view, entry, what, at }: { view: BenchView; entry: string; what: string; at: string }) => (
  <BenchForm view={view} act="undo" title={`Undo: ${what}`} kind="take-back">
    <input type="hidden" name="entry" value={entry} />
    <input type="hidden" name="at" value={at} />
    <button type="submit">
      Undo<span class="unseen"> {what}</span>
    </button>
  </BenchForm>
);
