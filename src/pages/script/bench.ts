/**
 * The bench on a bad network: each entry is kept on the tablet first, then sent in order until it is answered. A refused one stays with
 * its problem. Without this script every form still works.
 */
import { backInto, formOf, preview, refusedHere, saidAt, untouched } from "./benchForms.js";
import { changeQueue, fieldOf, send, type Waiting, waiting, withFields } from "./benchQueue.js";
import { refreshed, rowOf, type WaysOut } from "./benchScreen.js";

const queue = document.getElementById("queue")!;
const said = document.getElementById("queue-said")!;
const list = document.getElementById("queue-list")!;
const job = queue.dataset.job!;
const path = `/jobs/${job}/bench`;
const RETRY = 15_000;

document.documentElement.classList.add("scripted");

const worker = (): HTMLInputElement => document.getElementById("by") as HTMLInputElement;
let stuck: "no network" | "busy" | "sign in" | undefined;

function freshKey(): string {
  if (crypto.randomUUID) return crypto.randomUUID();
  const bytes = [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return bytes.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!(form instanceof HTMLFormElement)) return;
  if (!form.classList.contains("bench-form")) return;
  if (worker().value.trim() === "") {
    event.preventDefault();
    say("Who works? Type the name first.");
    worker().focus();
    return;
  }
  const key = freshKey();
  const own: (readonly [string, string])[] = [
    ["token", key],
    ["person", worker().value.trim()],
    // It may be sent another day.
    ["moment", new Date().toISOString()],
  ];
  const button = event.submitter instanceof HTMLButtonElement ? event.submitter : undefined;
  if (button?.name) own.push([button.name, button.value]);
  const typed = TYPED.includes(form.id);
  saidAt(form, "");
  // A second press on what was just sent and emptied is no second entry.
  if (form.dataset.sent !== undefined && untouched(form)) return event.preventDefault();
  const box = button?.name === "all" ? form.querySelector<HTMLInputElement>('[name="partCount"], [name="count"]') : null;
  if (box) box.value = button!.value;
  const fields = [...new FormData(form)].map(([name, value]): [string, string] => [name, String(value)]);
  const more = button?.name === "beyond" ? 0 : beyond(form, fields);
  if (more > 0) {
    event.preventDefault();
    return askBeyond(form, more);
  }
  const entry = { key, title: titleOf(form, fields), fields: [] };
  try {
    changeQueue(job, (before) => [...before, { ...entry, fields: withFields({ ...entry, fields }, own) }]);
  } catch {
    // This browser keeps nothing, so the form goes out as it would without script.
    return;
  }
  event.preventDefault();
  if (typed) {
    pressed.add(key);
    form.dataset.sent = "";
  }
  if (typed || form.classList.contains("use")) form.reset();
  show();
  void sendAll();
});

/** Forms whose fields are emptied once they are sent. */
const TYPED = ["minutes-form", "part-form", "reading-form", "own-form"];
/** Sent from this page just now, so that what is refused goes back to where the hand still is. */
const pressed = new Set<string>();

/** How many pieces more than the work still needs, with those that wait to be sent. */
function beyond(form: HTMLFormElement, fields: readonly (readonly [string, string])[]): number {
  if (form.dataset.left === undefined) return 0;
  const wanted = { key: "", title: "", fields };
  const pieces = (entry: Waiting): number => Number(fieldOf(entry, "partCount") || 1) || 0;
  const queued = waiting(job).filter(
    (entry) => fieldOf(entry, "act") === "part" && fieldOf(entry, "for") === fieldOf(wanted, "for"),
  );
  return [wanted, ...queued].reduce((sum, entry) => sum + pieces(entry), 0) - Number(form.dataset.left);
}

/** Where the hand is: pressed again by the button that says it. */
function askBeyond(form: HTMLFormElement, more: number): void {
  form.querySelector<HTMLButtonElement>(".beyond")!.hidden = false;
  form.querySelector(".use-said")!.textContent = `That is ${more} more than the work needs.`;
}

const UNIT: Readonly<Record<string, string>> = { minutes: " min", "own.minutes": " min" };

function titleOf(form: HTMLFormElement, fields: readonly (readonly [string, string])[]): string {
  const typed = ["code", "ownPart", "partCount", "minutes", "own", "own.minutes", "count", "label", "found", "unit"].flatMap(
    (name) => fields.flatMap(([each, value]) => (each === name && value.trim() ? `${value.trim()}${UNIT[name] ?? ""}` : [])),
  );
  const chosen = form.id === "minutes-form" ? form.querySelector("select")?.selectedOptions[0]?.textContent : undefined;
  return [form.dataset.title, chosen, typed.join(" ")].filter(Boolean).join(", ");
}

let sending = false;
async function sendAll(): Promise<void> {
  if (sending) return;
  sending = true;
  let kept = false;
  try {
    // One page of this job sends at a time.
    const work = async () => {
      for (let next = nextOf(); next; next = nextOf()) {
        const { key } = next;
        const answer = await send(path, next);
        stuck = answer.is === "later" ? answer.why : undefined;
        if (answer.is === "later") {
          pressed.clear();
          break;
        }
        kept ||= answer.is === "kept";
        changeQueue(job, (before) =>
          before.flatMap((entry) => {
            if (entry.key !== key) return entry;
            if (answer.is === "kept") return [];
            return { ...entry, problem: answer.problem, overridable: answer.overridable, beyond: answer.beyond };
          }),
        );
        show();
        if (answer.is === "refused" && pressed.delete(key) && !answer.overridable && !answer.beyond) returned(next, answer);
      }
    };
    await (navigator.locks ? navigator.locks.request(`bench ${job}`, work) : work());
    if (kept && !stuck) await refreshed(`${path}?by=${encodeURIComponent(worker().value.trim())}`).catch(() => {});
  } finally {
    sending = false;
    show();
  }
}

const nextOf = (): Waiting | undefined => waiting(job).find(({ problem }) => problem === undefined);

const WHY = {
  "no network": "They are sent when the network is back.",
  busy: "The shop cannot answer just now; they are sent again in a moment.",
  "sign in": "Sign in again in another tab, then come back.",
};

/** What waits, and the page as it will be when that is sent. */
function show(): void {
  const entries = waiting(job);
  const refused = entries.filter(({ problem }) => problem !== undefined).length;
  const open = entries.length - refused;
  const offline = stuck === "no network" || !navigator.onLine;
  queue.hidden = false;
  queue.classList.toggle("queue-waits", entries.length > 0);
  say(
    [
      open > 0 ? `${open} waiting.${stuck ? ` ${WHY[stuck]}` : ""}` : refused > 0 ? "" : "All sent.",
      refused > 0 ? `${refused} refused: correct or drop ${refused === 1 ? "it" : "them"} below.` : "",
      offline ? `No network: the page is as it was at ${queue.dataset.at}.` : "",
    ]
      .filter(Boolean)
      .join(" "),
  );
  // Only when it differs: somebody may be typing in it.
  const shown = JSON.stringify(entries);
  if (list.dataset.shown !== shown) list.replaceChildren(...entries.map((entry) => rowOf(entry, WAYS_OUT)));
  list.dataset.shown = shown;
  for (const entry of entries) if (entry.problem === undefined) preview(entry);
  refusedHere(entries, offline);
}

const say = (text: string): void => {
  queue.hidden = false;
  if (said.textContent !== text) said.textContent = text;
};

const drop = (entry: Waiting): void => {
  changeQueue(job, (before) => before.filter(({ key }) => key !== entry.key));
  show();
};

/** Wrong as typed: back into the form it came from, unless something else is being typed there. */
function returned(entry: Waiting, { problem, field }: { readonly problem: string; readonly field: string }): void {
  const form = formOf(entry);
  if (!form || !untouched(form)) return;
  delete form.dataset.sent;
  drop(entry);
  saidAt(form, problem);
  backInto(entry, field);
}

const WAYS_OUT: WaysOut = {
  drop,
  correct: (entry) => {
    drop(entry);
    backInto(entry);
  },
  again: ({ title, fields, key }, typed) => {
    const entry = { key: freshKey(), title, fields };
    const again = { ...entry, fields: withFields(entry, typed) };
    changeQueue(job, (before) => before.map((each) => (each.key === key ? again : each)));
    show();
    void sendAll();
  },
};

function tell(): void {
  const since = document.getElementById("timer-for")?.dataset.since;
  if (!since) return;
  const minutes = Math.max(0, Math.floor((Date.now() - Date.parse(since)) / 60_000));
  document.getElementById("timer-for")!.textContent = `, ${minutes} min so far`;
}

window.addEventListener("online", () => void sendAll());
window.addEventListener("offline", show);
window.addEventListener("storage", show);
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "visible") void sendAll();
});
setInterval(() => {
  tell();
  if (nextOf()) void sendAll();
}, RETRY);

tell();
show();
void sendAll();

if ("serviceWorker" in navigator) {
  const files = [...document.querySelectorAll<HTMLLinkElement | HTMLScriptElement>("link[href], script[src]")];
  const keep = [path, ...files.map((file) => new URL("href" in file ? file.href : file.src).pathname)];
  void navigator.serviceWorker
    .register("/bench-worker.js", { scope: "/jobs/" })
    .then(() => navigator.serviceWorker.ready)
    .then(({ active }) => active?.postMessage({ keep }))
    .catch(() => {});
}
document.getElementById("summary")?.focus();
document.getElementById("refused")?.focus();
