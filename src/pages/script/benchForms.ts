/** The forms of the bench page, by the entries that came from them. */

import { fieldOf, type Waiting } from "./benchQueue.js";
import { made } from "./benchScreen.js";

export function formOf(entry: Waiting): HTMLFormElement | undefined {
  const [act, item, label] = ["act", "item", "label"].map((name) => fieldOf(entry, name));
  if (act === "minutes") return document.querySelector<HTMLFormElement>("#minutes-form") ?? undefined;
  if (act === "own") return document.querySelector<HTMLFormElement>("#own-form") ?? undefined;
  if (act === "part") return document.querySelector<HTMLFormElement>("#part-form") ?? undefined;
  if (act === "reading" && label) return document.querySelector<HTMLFormElement>("#reading-form") ?? undefined;
  const forms = document.querySelectorAll<HTMLFormElement>("form.bench-form");
  return [...forms].find((form) => {
    const has = (name: string, value: string | undefined) =>
      form.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value === value;
    return has("act", act) && (act !== "tick" || has("item", item)) && (act !== "start" || has("work", fieldOf(entry, "work")));
  });
}

/** Back into the form it came from; `field`: the one to look at again. */
export function backInto(entry: Waiting, field = ""): void {
  const form = formOf(entry);
  if (!form) return;
  for (const fold of form.querySelectorAll("details")) fold.open = true;
  let [first, wrong]: [HTMLElement | undefined, HTMLElement | undefined] = [undefined, undefined];
  for (const element of form.elements) {
    if (!isBox(element)) continue;
    const text = fieldOf(entry, element.name);
    if (element instanceof HTMLInputElement && element.type === "checkbox") {
      element.checked = entry.fields.some(([name, value]) => name === element.name && value === element.value);
      continue;
    }
    element.value = text === "" && element.name === "code" ? fieldOf(entry, "kind") || fieldOf(entry, "type") : text;
    if (element.name === field) wrong = element;
    first ??= element;
  }
  wrong?.setAttribute("aria-invalid", "true");
  (wrong ?? first ?? form.querySelector("button"))?.focus();
}

type Box = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

const isBox = (element: Element): element is Box =>
  (element instanceof HTMLInputElement && element.type !== "hidden") ||
  element instanceof HTMLSelectElement ||
  element instanceof HTMLTextAreaElement;

/** Every box that is typed in is as the page came; a choice says nothing by itself. */
export const untouched = (form: HTMLFormElement): boolean =>
  [...form.elements].every(
    (element) =>
      !isBox(element) ||
      element instanceof HTMLSelectElement ||
      (element.type === "checkbox"
        ? (element as HTMLInputElement).checked === (element as HTMLInputElement).defaultChecked
        : element.value === element.defaultValue),
  );

/** One sentence under the form, until it is sent again. */
export function saidAt(form: HTMLFormElement, text: string): void {
  const old = form.nextElementSibling;
  if (old?.classList.contains("said-here")) old.remove();
  for (const box of form.querySelectorAll("[aria-invalid]")) box.removeAttribute("aria-invalid");
  if (text === "") return;
  const told = made("p", text, "wrong said-here");
  told.role = "alert";
  form.after(told);
}

/** What was refused, said where the hand was; the ways out of it stand with the entry. Of a form that was emptied, what became of it. */
export function refusedHere(entries: readonly Waiting[], offline: boolean): void {
  for (const old of document.querySelectorAll(".refused-here, .kept-here")) old.remove();
  const open = offline ? entries.filter(({ problem }) => problem === undefined) : [];
  for (const form of new Set(open.map(formOf)))
    if (form?.id.endsWith("-form"))
      form.after(made("p", "Kept on this device; sent when there is a connection.", "hint kept-here"));
  for (const entry of entries) {
    const form = entry.problem === undefined ? undefined : formOf(entry);
    if (!form) continue;
    const told = made("p", "", "wrong refused-here");
    const way = made("a", entry.problem);
    way.href = "#queue";
    told.append(way);
    form.after(told);
  }
}

/** A tick or a timer that waits is shown as if it were sent, so that work can go on. */
export function preview(entry: Waiting): void {
  const act = fieldOf(entry, "act");
  if (act === "tick") {
    const form = formOf(entry);
    const count = fieldOf(entry, "all") || fieldOf(entry, "count");
    const box = form?.querySelector<HTMLInputElement>('[name="count"]');
    if (box && box.type !== "hidden") box.value = count;
    form?.closest(".bench-row")?.classList.toggle("done", count !== "0" && box?.type === "hidden");
  }
  if (act === "part" && fieldOf(entry, "for")) {
    const forms = document.querySelectorAll<HTMLFormElement>("form.use");
    const form = [...forms].find((each) => each.querySelector<HTMLInputElement>('[name="for"]')?.value === fieldOf(entry, "for"));
    const said = form?.querySelector(".use-said");
    if (said) said.textContent = `${fieldOf(entry, "partCount") || "1"} more, waiting to be sent.`;
  }
  if (act !== "start" && act !== "stop") return;
  const timer = document.getElementById("timer");
  if (!timer) return;
  timer.classList.toggle("timer-on", act === "start");
  const since = new Date(fieldOf(entry, "moment")).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  const text =
    act === "start" ? `${entry.title.replace(/^Start: /, "")}, since ${since}` : "No timer runs. Start one beside the work.";
  const title = made("p", text);
  title.id = "timer-title";
  timer.replaceChildren(title);
  if (act === "start") timer.append(pauseForm(entry.title.replace(/^Start: /, "")));
}

function pauseForm(title: string): HTMLFormElement {
  const form = made("form", "", "bench-form pause");
  form.id = "stop";
  form.dataset.title = `Pause: ${title}`;
  const act = made("input");
  act.type = "hidden";
  act.name = "act";
  act.value = "stop";
  form.append(act, made("button", "Pause and log the time", "primary big"));
  return form;
}
