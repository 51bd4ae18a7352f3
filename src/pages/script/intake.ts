/** Instant recalculation of the intake form, with the engine of the server. Without this script every button still works. */
import { act } from "../form/act/act.js";
import { autosave } from "./autosave.js";
import { onKey } from "./keys.js";
import { carriage, fieldsNow, form, pricingContext, redraw, reprice } from "./screen.js";

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

place.addEventListener("change", ({ target }) => {
  if (!(target instanceof HTMLInputElement)) return;
  if (target.name.startsWith("show.")) redraw(fieldsNow());
  if (/^assembly\.[^.]+\.name$/.test(target.name)) rename(target);
});

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
