/**
 * A draft on record saves itself when typing pauses, by the same button as a person presses and against the same version, so that
 * nobody's changes are overwritten. What cannot be saved quietly waits for the button, which shows why.
 */
import { drawnIn, isOnRecord } from "../form/drawn.js";
import { fieldsNow, form, put } from "./screen.js";

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
    const body = new URLSearchParams([...fieldsNow()].filter(([name]) => !KEPT_BY_HAND.test(name)));
    body.set("intent", "save");
    const answer = await fetch(form().action, { method: "POST", body, headers: { accept: "text/html" } });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (answer.ok && answer.redirected && page.getElementById("intake")) {
      takeOver(page);
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

/** What the server gave, and what others changed on record where nothing was typed over it here. */
function takeOver(page: Document): void {
  const theirs = fieldsNow(page.querySelector<HTMLFormElement>("#intake")!);
  const ours = fieldsNow();
  const drawn = drawnIn(ours);
  const said = (of: ReadonlyMap<string, string>, name: string) => (of.get(name) ?? "").replace(/\r\n?/g, "\n").trim();
  for (const name of new Set([...theirs.keys(), ...ours.keys()])) {
    const given = GIVEN_BY_THE_SERVER.includes(name) || (isOnRecord(name) && said(ours, name) === said(drawn, name));
    if (!given || said(ours, name) === said(theirs, name)) continue;
    if (name === "owner.id") offerOwner(page, theirs.get(name) ?? "");
    put(name, theirs.get(name) ?? "");
  }
}

/** A new owner is one to choose by now. */
function offerOwner(page: Document, id: string): void {
  const choices = form().querySelector<HTMLSelectElement>('[name="owner.id"]');
  const made = page.querySelector<HTMLOptionElement>(`[name="owner.id"] option[value="${CSS.escape(id)}"]`);
  if (choices && ![...choices.options].some(({ value }) => value === id)) choices.append(new Option(made?.text ?? "", id));
}

function say(text: string): void {
  const place = document.getElementById("saved-at");
  if (place) place.textContent = text;
}
