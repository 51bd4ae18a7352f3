/**
 * Boxes with a list of suggestions: any words in any order find an entry, the arrows go through them, Enter takes one, Escape closes
 * (the combobox pattern of the ARIA Authoring Practices). Without this script the browser's own list does.
 */
import type { KindsFound } from "../form/context.js";
import { FORGOTTEN } from "./localDraft.js";
import { staysWithoutNetwork } from "./online.js";

const MOST = 12;
const plain = (text: string): string => text.normalize("NFKD").replaceAll(/\p{M}/gu, "").toLowerCase();

const popup = document.createElement("ul");
popup.id = "suggested";
popup.role = "listbox";
popup.hidden = true;
popup.setAttribute("aria-label", "Suggestions");
let box: HTMLInputElement | undefined;
let at = -1;
/** What stays before the entry that is taken. */
let counted = "";

/** A box of one list, or of another's entries too. */
const listsOf = ({ dataset }: HTMLElement): readonly HTMLElement[] =>
  [dataset.list, dataset.also].flatMap((id) => (id && document.getElementById(id)) || []);

/** In a box of two lists a count may stand before the name. */
const countIn = ({ value, dataset }: HTMLInputElement): string =>
  dataset.also === undefined ? "" : (/^\s*\d+\s*(?:[x×]\s)?\s*/.exec(value)?.[0] ?? "");

const nameIn = (of: HTMLInputElement): string => of.value.slice(countIn(of).length);

/** Entries that have every word typed; those that begin with what was typed come first. */
function found(typed: string, lists: readonly HTMLElement[]): string[] {
  const words = plain(typed).split(/\s+/).filter(Boolean);
  const fits = lists
    .flatMap((list) => [...list.querySelectorAll("option")])
    .flatMap(({ value }) => {
      const text = plain(value);
      return value !== "" && words.every((word) => text.includes(word))
        ? [{ value, first: text.startsWith(words[0] ?? "") }]
        : [];
    });
  const ranked = [...fits.filter(({ first }) => first), ...fits.filter(({ first }) => !first)];
  return [...new Set(ranked.map(({ value }) => value))].slice(0, MOST);
}

function show(): void {
  const count = box ? countIn(box) : "";
  const near = box ? found(box.value, listsOf(box)) : [];
  // A value such as 100 uF begins like a count.
  counted = near.length === 0 ? count : "";
  const fits = box && counted !== "" ? found(box.value.slice(counted.length), listsOf(box)) : near;
  close();
  // Nothing is left to suggest.
  if (!box || fits.length === 0 || (fits.length === 1 && fits[0] === box.value)) return;
  popup.replaceChildren(
    ...fits.map((value, index) => {
      const entry = document.createElement("li");
      entry.role = "option";
      entry.id = `suggested-${index}`;
      entry.textContent = value;
      return entry;
    }),
  );
  const { left, bottom, width } = box.getBoundingClientRect();
  popup.style.left = `${left + window.scrollX}px`;
  popup.style.top = `${bottom + window.scrollY}px`;
  popup.style.minWidth = `${width}px`;
  if (!popup.isConnected) (document.getElementById("main") ?? document.body).append(popup);
  popup.hidden = false;
  box.setAttribute("aria-expanded", "true");
  mark(-1);
}

let asked: AbortController | undefined;
let soon: ReturnType<typeof setTimeout> | undefined;

/** What the page does not carry is looked for once the typing pauses; without an answer the entries at hand are suggested. */
function look(list: HTMLElement, typed: string): void {
  clearTimeout(soon);
  asked?.abort();
  const { find } = list.dataset;
  if (find === undefined || typed.trim().length < 2) return;
  soon = setTimeout(async () => {
    asked = new AbortController();
    const { signal } = asked;
    const headers = { accept: "application/json" };
    const at = new URL(find, location.href);
    at.searchParams.set("q", typed);
    const answer = await fetch(at, { headers, signal }).catch(() => undefined);
    const detail = answer?.ok ? ((await answer.json().catch(() => undefined)) as KindsFound | undefined) : undefined;
    if (!detail || signal.aborted) return;
    const known = new Set([...list.querySelectorAll("option")].map(({ value }) => value));
    for (const { name } of detail.kinds) if (!known.has(name)) list.append(new Option("", name));
    document.dispatchEvent(new CustomEvent("kindsfound", { detail }));
    if (box?.dataset.list === list.id && nameIn(box) === typed && document.activeElement === box) show();
  }, 150);
}

function close(): void {
  popup.hidden = true;
  at = -1;
  box?.setAttribute("aria-expanded", "false");
  box?.removeAttribute("aria-activedescendant");
}

function mark(next: number): void {
  at = next;
  for (const [index, entry] of [...popup.children].entries()) entry.ariaSelected = String(index === at);
  const entry = popup.children[at];
  entry?.scrollIntoView({ block: "nearest" });
  if (entry) box?.setAttribute("aria-activedescendant", entry.id);
  else box?.removeAttribute("aria-activedescendant");
}

function take(entry: Element | undefined): void {
  if (!box || !entry) return;
  box.value = counted + (entry.textContent ?? "");
  close();
  for (const name of ["input", "change"]) box.dispatchEvent(new Event(name, { bubbles: true }));
  close();
}

document.addEventListener("focusin", ({ target }) => {
  if (!(target instanceof HTMLInputElement)) return;
  const list = target.getAttribute("list");
  if (list !== null) {
    target.dataset.list = list;
    target.removeAttribute("list");
    target.role = "combobox";
    target.autocomplete = "off";
    target.setAttribute("aria-autocomplete", "list");
    target.setAttribute("aria-controls", popup.id);
    target.setAttribute("aria-expanded", "false");
  }
  box = target.dataset.list === undefined ? undefined : target;
});
document.addEventListener("focusout", close);
document.addEventListener("input", ({ target }) => {
  if (target !== box || !box) return;
  show();
  const list = document.getElementById(box.dataset.list ?? "");
  if (list) look(list, nameIn(box));
});
popup.addEventListener("mousedown", (event) => {
  // The box keeps the focus.
  event.preventDefault();
  take((event.target as Element).closest("li") ?? undefined);
});

// Before the form's own keys, which move between rows.
document.addEventListener(
  "keydown",
  (event) => {
    if (event.target !== box || !box || event.altKey || event.ctrlKey || event.metaKey) return;
    const last = popup.children.length - 1;
    if (popup.hidden && event.key === "ArrowDown") show();
    else if (popup.hidden) return;
    else if (event.key === "ArrowDown") mark(at === last ? 0 : at + 1);
    else if (event.key === "ArrowUp") mark(at <= 0 ? last : at - 1);
    else if (event.key === "Enter" && at >= 0) take(popup.children[at]);
    else if (event.key === "Escape") close();
    else return;
    event.preventDefault();
    event.stopPropagation();
  },
  true,
);

document.addEventListener("submit", ({ target }) => {
  if (!(target instanceof HTMLFormElement) || !target.action.endsWith("/sign-out")) return;
  for (const key of Object.keys(localStorage)) if (key.startsWith(FORGOTTEN)) localStorage.removeItem(key);
});

staysWithoutNetwork();
