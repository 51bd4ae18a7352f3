import type { Waiting } from "./benchQueue.js";

/** The page as the shop has it now, without losing what is being typed, what is unfolded and where the hand is. */
export async function refreshed(address: string): Promise<void> {
  // What is kept for a time without network is older than what this page shows: rather nothing (RFC 9111, 5.2.1.4).
  const answer = await fetch(address, { headers: { accept: "text/html", "cache-control": "no-cache" } });
  if (!answer.ok) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const at = page.getElementById("queue")?.dataset.at;
  const queue = document.getElementById("queue");
  if (at && queue) queue.dataset.at = at;
  for (const part of page.querySelectorAll<HTMLElement>("[data-follows]")) {
    const old = document.getElementById(part.id);
    if (old) replace(old, part);
  }
}

function replace(old: HTMLElement, part: HTMLElement): void {
  const typed = [...old.querySelectorAll<HTMLInputElement>("input[id]:not([type=hidden])")].flatMap(
    ({ id, value, defaultValue }) => (value === defaultValue ? [] : ([[id, value]] as const)),
  );
  const unfolded = [...old.querySelectorAll("details[open]")].flatMap((fold) => fold.closest("[id]")?.id ?? []);
  const hand = old.contains(document.activeElement) ? handOf(document.activeElement as HTMLElement) : undefined;
  old.replaceChildren(...document.adoptNode(part).childNodes);
  // A count that was ticked off is the shop's to say.
  for (const [id, value] of typed) {
    const box = id.startsWith("count.") ? null : document.getElementById(id);
    if (box instanceof HTMLInputElement) box.value = value;
  }
  for (const id of unfolded) for (const fold of document.getElementById(id)?.querySelectorAll("details") ?? []) fold.open = true;
  if (hand) handAt(hand)?.focus({ preventScroll: true });
}

interface Hand {
  readonly id: string;
  readonly nth: number;
}

/** By its own id, or as the so-manieth button of what has one. */
function handOf(element: HTMLElement): Hand | undefined {
  const around = element.closest<HTMLElement>("[id]");
  if (!around) return undefined;
  return { id: around.id, nth: [...around.querySelectorAll("button")].indexOf(element as HTMLButtonElement) };
}

function handAt({ id, nth }: Hand): HTMLElement | undefined {
  const around = document.getElementById(id);
  if (nth < 0) return around ?? undefined;
  const buttons = [...(around?.querySelectorAll("button") ?? [])];
  return buttons[nth] ?? buttons.at(-1);
}

/** The entries on this tablet, as a list: what waits, and what was refused with the ways out of it. */
export interface WaysOut {
  readonly correct: (entry: Waiting) => void;
  readonly drop: (entry: Waiting) => void;
  /** Sent again with what was said since. */
  readonly again: (entry: Waiting, typed: readonly (readonly [string, string])[]) => void;
}

export function made<K extends keyof HTMLElementTagNameMap>(tag: K, text = "", name = ""): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  element.textContent = text;
  if (name) element.className = name;
  return element;
}

function button(text: string, act: () => void): HTMLButtonElement {
  const element = made("button", text);
  element.type = "button";
  element.addEventListener("click", act);
  return element;
}

export function rowOf(entry: Waiting, ways: WaysOut): HTMLLIElement {
  const row = made("li");
  row.append(made("strong", entry.title));
  if (entry.problem === undefined) {
    row.append(made("span", " waiting", "hint"));
    return row;
  }
  row.append(made("span", entry.problem, "wrong"));
  if (entry.overridable) row.append(overrideFor(entry, ways));
  if (entry.beyond) row.append(button("Use it all the same", () => ways.again(entry, [["beyond", "yes"]])));
  row.append(
    button("Correct it", () => ways.correct(entry)),
    button("Drop it", () => ways.drop(entry)),
  );
  return row;
}

function overrideFor(entry: Waiting, { again }: WaysOut): HTMLFormElement {
  const form = made("form", "", "columns");
  for (const [name, text] of [
    ["override.by", "Who decides"],
    ["override.reason", "Why"],
  ] as const) {
    const label = made("label", text);
    const input = made("input");
    input.name = name;
    input.required = true;
    label.append(input);
    form.append(label);
  }
  form.append(made("button", "Log it by override"));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const said = [...new FormData(form)].map(([name, value]): [string, string] => [name, String(value)]);
    again(entry, [...said, ["intent", "override"]]);
  });
  return form;
}
