/** Instant recalculation of the intake form, with the engine of the server. Without this script every button still works. */
import { foundByName } from "../../wording/named.js";
import { act } from "../form/act/act.js";
import type { KindsFound } from "../form/context.js";
import { partNames, workNames } from "../form/names.js";
import { autosave } from "./autosave.js";
import { carriage, fieldsNow, form, learn, pricingContext, redraw, reprice } from "./screen.js";

/** Buttons whose work needs the shop's records. */
const ON_THE_SERVER = new Set(["save", "take model", "take owner", "fresh prices", "earlier counts"]);

let unsaved = carriage().surroundings.unsaved === true;
let waiting: ReturnType<typeof setTimeout> | undefined;
const saver = autosave(() => {
  unsaved = false;
});
const place = document.getElementById("form-place")!;

document.documentElement.classList.add("scripted");

function perform(intent: string): void {
  const { fields, focus, say } = act(intent, fieldsNow(), pricingContext);
  unsaved = true;
  saver.touch();
  redraw(fields, focus, say);
}

place.addEventListener("input", () => {
  unsaved = true;
  saver.touch();
  clearTimeout(waiting);
  waiting = setTimeout(reprice, 60);
});

document.addEventListener("kindsfound", (event) => {
  learn((event as CustomEvent<KindsFound>).detail);
  reprice();
});

place.addEventListener("change", ({ target }) => {
  if (!(target instanceof HTMLInputElement)) return;
  if (target.name.startsWith("show.")) redraw(fieldsNow());
  if (/^line\.[^.]+\.(operation|part)$/.test(target.name)) askMore(target);
  if (/^assembly\.[^.]+\.name$/.test(target.name)) rename(target);
});

/** What is on no list wants to say more. */
function askMore({ name, value }: HTMLInputElement): void {
  const [, row, leaf] = name.split(".");
  const names = leaf === "part" ? partNames(pricingContext) : workNames(pricingContext);
  const more = document.getElementById(`more-${row}`);
  if (value.trim() && !foundByName(value.trim(), names) && more instanceof HTMLDetailsElement) more.open = true;
}

/** The name is said in other places too. */
function rename(box: HTMLInputElement): void {
  const row = box.name.split(".")[1]!;
  for (const at of [
    document.getElementById(`row-${row}`),
    document.getElementById(`map-${row}`)?.querySelector(".assembly-name"),
  ]) {
    if (at && box.value.trim()) at.textContent = box.value.trim();
  }
  const names = [...form().querySelectorAll<HTMLInputElement>("input[data-row]")]
    .map(({ value }) => value.trim())
    .filter(Boolean);
  const options = names.map((name) => {
    const option = document.createElement("option");
    option.value = name;
    return option;
  });
  document.getElementById("assemblies")?.replaceChildren(...options);
}

place.addEventListener("submit", (event) => {
  const button = event.submitter;
  const intent = button instanceof HTMLButtonElement && button.name === "intent" ? button.value : "";
  if (button?.hasAttribute("data-leaves")) return;
  if (intent === "recalculate") {
    event.preventDefault();
    reprice();
  } else if (intent !== "" && !ON_THE_SERVER.has(intent)) {
    event.preventDefault();
    perform(intent);
  } else if (saver.running()) {
    event.preventDefault();
    void saver.running()?.then(() => form().requestSubmit(button));
  } else {
    unsaved = false;
    if (intent === "save") setTimeout(() => button?.setAttribute("disabled", ""), 0);
  }
});

place.addEventListener("keydown", (event) =>
  onKey(event, {
    save: () => form().requestSubmit(form().querySelector<HTMLButtonElement>("[data-save]")),
    addAssembly: () => perform("add assembly"),
    addLine: () => perform("add line"),
  }),
);

window.addEventListener("beforeunload", (event) => {
  if (unsaved) event.preventDefault();
});

// Coming back to the page finds its button pressed.
window.addEventListener("pageshow", () => form().querySelector("[data-save]")?.removeAttribute("disabled"));

document.getElementById("summary")?.focus();
document.getElementById("conflict")?.focus();
// A browser may have kept what was typed before the page was left.
reprice();

/**
 * Enter goes down a column and adds a row at the end; Shift and Enter, and the arrows, go up and down; Ctrl and Enter saves.
 * Tab keeps its meaning everywhere.
 */
interface KeyActions {
  readonly save: () => void;
  readonly addAssembly: () => void;
  readonly addLine: () => void;
}

function onKey(event: KeyboardEvent, actions: KeyActions): void {
  const at = event.target;
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    actions.save();
    return;
  }
  if (!(at instanceof HTMLInputElement) || at.type === "checkbox" || event.altKey || event.ctrlKey || event.metaKey) return;
  const down = event.key === "Enter" ? !event.shiftKey : event.key === "ArrowDown" ? true : undefined;
  const up = event.key === "Enter" ? event.shiftKey : event.key === "ArrowUp" ? true : undefined;
  if (!down && !up) return;
  const row = at.closest<HTMLElement>("table.grid tbody tr, fieldset.line, table.boards tbody tr");
  // With a list of suggestions the arrows choose from it.
  if (!row || (event.key !== "Enter" && (at.hasAttribute("list") || at.dataset.list !== undefined))) return;
  event.preventDefault();
  const next = beside(at, row, down ? 1 : -1);
  if (next) next.select();
  else if (event.key === "Enter" && down && row.matches("table.grid tr")) actions.addAssembly();
  else if (event.key === "Enter" && down && row.matches(".line")) actions.addLine();
}

/** The box in the same place of the next or previous row. */
function beside(at: HTMLInputElement, row: HTMLElement, step: 1 | -1): HTMLInputElement | undefined {
  const kind = row.matches(".line") ? "fieldset.line" : "tr";
  const place = boxes(row).indexOf(at);
  let other = step === 1 ? row.nextElementSibling : row.previousElementSibling;
  while (other && !(other.matches(kind) && boxes(other)[place]))
    other = step === 1 ? other.nextElementSibling : other.previousElementSibling;
  if (!other) return undefined;
  const found = row.matches("tr")
    ? [...other.children][[...row.children].indexOf(at.closest("th, td")!)]?.querySelector<HTMLInputElement>(
        "input:not([type=hidden])",
      )
    : boxes(other)[place];
  return found ?? undefined;
}

const boxes = (row: Element): HTMLInputElement[] => [...row.querySelectorAll<HTMLInputElement>("input:not([type=hidden])")];
