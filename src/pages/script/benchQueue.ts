/** Entries of the bench that the shop has not answered yet, kept on this tablet by job, in order. */
export interface Waiting {
  /** Idempotency-Key, the same until it is answered. */
  readonly key: string;
  readonly title: string;
  readonly fields: readonly (readonly [name: string, value: string])[];
  /** Why it was refused; it stays until somebody decides. */
  readonly problem?: string;
  readonly overridable?: boolean;
  /** More pieces than the work needs: sent again when that is said. */
  readonly beyond?: boolean;
}

const place = (job: string): string => `ohmwright bench ${job}`;

export function waiting(job: string): readonly Waiting[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(place(job)) ?? "[]");
    return Array.isArray(kept) ? (kept as Waiting[]) : [];
  } catch {
    return [];
  }
}

/** Reads again before it writes: another page of the same job may have sent one meanwhile. */
export function changeQueue(job: string, change: (queue: readonly Waiting[]) => readonly Waiting[]): void {
  const queue = change(waiting(job));
  if (queue.length === 0) localStorage.removeItem(place(job));
  else localStorage.setItem(place(job), JSON.stringify(queue));
}

export const fieldOf = ({ fields }: Waiting, name: string): string => fields.findLast(([each]) => each === name)?.[1] ?? "";

export const withFields = (entry: Waiting, more: readonly (readonly [string, string])[]): Waiting["fields"] => {
  const names = new Set(more.map(([name]) => name));
  return [...entry.fields.filter(([name]) => !names.has(name)), ...more];
};

type Sent =
  | { readonly is: "kept" }
  | {
      readonly is: "refused";
      readonly problem: string;
      readonly overridable: boolean;
      readonly beyond: boolean;
      readonly field: string;
    }
  /** No network, or the shop cannot answer now: it is sent again later. */
  | { readonly is: "later"; readonly why: "no network" | "busy" | "sign in" };

interface Problem {
  readonly type?: string;
  readonly title?: string;
  readonly detail?: string;
  readonly errors?: readonly { readonly pointer?: string; readonly name?: string; readonly detail?: string }[];
}

/** A network that takes longer than this has lost it; sent again, it is still kept once. */
const PATIENCE = 30_000;
const OVERRIDABLE = ["/problems/work-unagreed", "/problems/part-unagreed", "/problems/limit-passed", "/problems/job-closed"];

export async function send(path: string, entry: Waiting): Promise<Sent> {
  let answer: Response;
  try {
    answer = await fetch(path, {
      method: "POST",
      headers: { accept: "application/json", "idempotency-key": `"${entry.key}"` },
      body: new URLSearchParams(entry.fields.map(([name, value]) => [name, value])),
      signal: AbortSignal.timeout(PATIENCE),
    });
  } catch {
    return { is: "later", why: "no network" };
  }
  if (answer.ok && !answer.redirected) return { is: "kept" };
  const problem = (await answer.json().catch(() => ({}))) as Problem;
  if (answer.status === 401 || answer.redirected) return { is: "later", why: "sign in" };
  if (answer.status >= 500 || answer.status === 429 || problem.type === "/problems/idempotency-key-in-flight")
    return { is: "later", why: "busy" };
  const texts = problem.errors?.flatMap(({ detail }) => detail ?? []) ?? [];
  return {
    is: "refused",
    problem: texts.length > 0 ? texts.join(" ") : (problem.detail ?? problem.title ?? `The shop answered ${answer.status}.`),
    field: (problem.errors?.[0]?.pointer ?? "").slice(1).replaceAll("/", "."),
    beyond: problem.errors?.some(({ name }) => name === "more than needed") ?? false,
    overridable: OVERRIDABLE.includes(problem.type ?? "") && !["start", "tick", "reading"].includes(fieldOf(entry, "act")),
  };
}
