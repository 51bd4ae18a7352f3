/** A form of the bench: one entry, by whoever works, kept once. */
import type { Child } from "hono/jsx";
import type { BenchView } from "./view.js";

const ACTS = ["start", "stop", "minutes", "tick", "part", "reading"] as const;
export type Act = (typeof ACTS)[number];
export const isBenchAct = (text: string): text is Act => ACTS.some((act) => act === text);

interface BenchFormProps {
  readonly view: BenchView;
  readonly act: Act;
  /** What the list of waiting entries calls it. */
  readonly title: string;
  readonly id?: string;
  readonly kind?: string;
  readonly children?: Child;
}

export const BenchForm = ({ view, act, title, id, kind, children }: BenchFormProps) => (
  <form
    method="post"
    action={`/jobs/${view.job.id}/bench`}
    class={`bench-form ${kind ?? ""}`.trim()}
    data-title={title}
    novalidate
    {...(id ? { id } : {})}
  >
    <input type="hidden" name="act" value={act} />
    <input type="hidden" name="token" value={view.token()} />
    <input type="hidden" name="person" value={view.by} />
    {children}
  </form>
);
