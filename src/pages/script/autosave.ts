/**
 * A draft on record saves itself when typing pauses, by the same button as a person presses and against the same version, so that
 * nobody's changes are overwritten. What cannot be saved quietly waits for the button, which shows why.
 */
import { drawnIn, isOnRecord } from "../form/drawn.js";
import { fieldsNow, form } from "./screen.js";

const PAUSE = 4000;

interface Autosave {
  /** Something was typed. */
  readonly touch: () => void;
  /** What the button has to wait for, lest it meets its own page's save. */
  readonly running: () => Promise<void> | undefined;
}

/** `onSaved`: all that was typed is on record. */
export function autosave(onSaved: () => void): Autosave {
  // A page that shows two versions, or a job not on record yet, is saved by hand.
  const able = form().querySelector<HTMLInputElement>('[name="meta.version"]')?.value && !document.getElementById("conflict");
  if (!able) return { touch: () => {}, running: () => undefined };
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let saving: Promise<void> | undefined;
  let touched = false;
  let stopped = false;

  async function save(): Promise<void> {
    touched = false;
    const now = [...new FormData(form())].filter(([name]) => !KEPT_BY_HAND.test(name));
    const body = new URLSearchParams(now.map(([name, value]) => [name, String(value)]));
    body.set("intent", "save");
    const answer = await fetch(form().action, { method: "POST", body, headers: { accept: "text/html" } });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (answer.ok && answer.redirected && page.getElementById("intake")) {
      takeFacts(page);
      for (const name of GIVEN_BY_THE_SERVER) take(name, page);
      if (!touched) onSaved();
      return say(`Saved ${new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })}`);
    }
    if (answer.status === 401)
      return say("Not saved yet: your sign-in has ended. Press Save to sign in; what you typed is kept.");
    if (answer.status !== 409) return say("Not saved yet: something has to be put right. Press Save to see what.");
    stopped = true;
    say("It was saved or issued elsewhere meanwhile. Press Save to see how it stands; nothing of yours is lost.");
  }

  const begin = () => {
    if (stopped || saving) return;
    saving = save()
      .catch(() => say("Not saved yet: there is no connection. It is tried again when you type."))
      .finally(() => {
        saving = undefined;
        if (touched) touch();
      });
  };
  const touch = () => {
    touched = true;
    clearTimeout(waiting);
    waiting = setTimeout(begin, PAUSE);
  };
  return { touch, running: () => saving };
}

/** Own words are put on the shop's lists once they are written to their end. */
const KEPT_BY_HAND = /^line\.[^.]+\.keep$/;

/** Without the owner's new record, each save would make another. */
const GIVEN_BY_THE_SERVER = ["meta.version", "meta.drawn", "owner.id"];

type Box = HTMLInputElement | HTMLTextAreaElement;

/** What others changed on record, where nothing was typed over it here. */
function takeFacts(page: Document): void {
  const drawn = drawnIn(fieldsNow());
  for (const theirs of page.querySelectorAll<Box>("#intake input, #intake textarea")) {
    if (!isOnRecord(theirs.name)) continue;
    const ours = form().querySelector<Box>(`[name="${CSS.escape(theirs.name)}"]`);
    const stood = drawn.get(theirs.name) ?? "";
    if (ours instanceof HTMLInputElement && theirs instanceof HTMLInputElement && ours.type === "checkbox") {
      if (ours.checked === Boolean(stood)) ours.checked = theirs.checked;
    } else if (ours && ours.value.trim() === stood.trim() && ours.value !== theirs.value) ours.value = theirs.value;
  }
}

function take(name: string, page: Document): void {
  const theirs = page.querySelector<HTMLInputElement | HTMLSelectElement>(`[name="${name}"]`);
  const ours = form().querySelector<HTMLInputElement | HTMLSelectElement>(`[name="${name}"]`);
  if (!theirs || !ours) return;
  if (ours instanceof HTMLSelectElement && theirs instanceof HTMLSelectElement) {
    const chosen = theirs.selectedOptions[0];
    if (chosen && ![...ours.options].some(({ value }) => value === chosen.value)) ours.append(document.adoptNode(chosen));
    ours.value = chosen?.value ?? ours.value;
  } else ours.value = theirs.value;
}

function say(text: string): void {
  const place = document.getElementById("saved-at");
  if (place) place.textContent = text;
}
