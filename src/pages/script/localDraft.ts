/**
 * What is typed is kept in this browser until it is on record, and offered again after a crash. Signing out forgets it. A new estimate is
 * told from the record it became by its token, a draft on record from a later one by its version.
 */
/** What stands under such keys in this browser is somebody's: signing out forgets it. */
export const FORGOTTEN = "ohmwright typed ";

interface Kept {
  readonly at: number;
  readonly fields: readonly (readonly [string, string])[];
}

const NEW = "/estimates/new";
const keyOf = (path: string): string => `${FORGOTTEN}${path}`;
const MOST_DAYS = 30;

export function keep(fields: ReadonlyMap<string, string>): void {
  try {
    localStorage.setItem(keyOf(location.pathname), JSON.stringify({ at: Date.now(), fields: [...fields] } satisfies Kept));
  } catch {
    // Full, or not allowed: the draft on record is what there is.
  }
}

export function forget(path = location.pathname): void {
  try {
    localStorage.removeItem(keyOf(path));
  } catch {
    // Not allowed: nothing was kept.
  }
}

function read(path: string): { readonly at: Date; readonly fields: Map<string, string> } | undefined {
  try {
    const kept = JSON.parse(localStorage.getItem(keyOf(path)) ?? "null") as Kept | null;
    if (!kept || Date.now() - kept.at > MOST_DAYS * 86_400_000) return undefined;
    return { at: new Date(kept.at), fields: new Map(kept.fields.map(([name, text]) => [name, text])) };
  } catch {
    return undefined;
  }
}

/**
 * A new estimate is kept by the shop too, where the next device finds it. One save at a time, so that none meets another of its own;
 * offline it stays in this browser, and goes along with what is typed next.
 */
export function keeper(now: () => ReadonlyMap<string, string>, put: (name: string, text: string) => void) {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> | undefined;
  const send = (intent: string, fields: Iterable<readonly [string, string]>) =>
    fetch(NEW, { method: "POST", body: new URLSearchParams([...[...fields].map((pair) => [...pair]), ["intent", intent]]) });
  const save = async () => {
    const answer = await send("keep", now());
    if (!answer.ok) return;
    const { id, version } = (await answer.json()) as { readonly id: string; readonly version: number };
    put("meta.draft", id);
    put("meta.draftVersion", String(version));
    keep(now());
  };
  const touch = () => {
    if (location.pathname !== NEW) return;
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      if (running) return touch();
      running = save()
        .catch(() => {})
        .finally(() => {
          running = undefined;
        });
    }, 2000);
  };
  const drop = (fields: ReadonlyMap<string, string>) => {
    const id = fields.get("meta.draft");
    if (id) void send("throw away", [["meta.draft", id]]).catch(() => {});
  };
  return { touch, drop, stop: () => clearTimeout(waiting) };
}

const SENT = "ohmwright sent";

/** The button was pressed: the next page says whether all of it is on record. */
export function sent(): void {
  try {
    sessionStorage.setItem(SENT, location.pathname);
  } catch {
    // Not allowed: what was typed may be offered once more.
  }
}

/** The page that answered the button says so; one come back to, or loaded again, does not. */
function isSaved(): boolean {
  try {
    const path = sessionStorage.getItem(SENT);
    sessionStorage.removeItem(SENT);
    const [how] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
    return path === location.pathname && how?.type === "navigate" && new URLSearchParams(location.search).has("saved");
  } catch {
    return false;
  }
}

/** What was typed here and is not on record, where the form has not moved on since. */
export function kept(now: ReadonlyMap<string, string>): ReturnType<typeof read> {
  if (isSaved()) forget();
  // The record that a new estimate became.
  if (location.pathname.endsWith(`/${read(NEW)?.fields.get("meta.token")}`)) forget(NEW);
  const found = read(location.pathname);
  if (!found) return undefined;
  const said = (of: ReadonlyMap<string, string>) =>
    JSON.stringify([...of].filter(([name, text]) => text !== "" && !/^(meta|next|usual)\./.test(name)).sort());
  if (found.fields.get("meta.version") === now.get("meta.version") && said(found.fields) !== said(now)) return found;
  forget();
  return undefined;
}
