/** Instant recalculation of the intake form, with the engine of the server. Without this script every button still works. */
import { foundByName } from "../../wording/named.js";
import { act } from "../form/act/act.js";
import type { KindsFound } from "../form/context.js";
import { partNames, workNames } from "../form/names.js";
import { opened } from "../form/open.js";
import { following } from "../form/places.js";
import { autosave } from "./autosave.js";
import { forget, keep, keeper, kept, sent } from "./localDraft.js";
import { morph } from "./morph.js";
import { notSent } from "./online.js";
import { begin, carriage, fieldsNow, form, learn, pricingContext, put, redraw, renew, reprice } from "./screen.js";

/** Buttons whose work needs the shop's records. */
const ON_THE_SERVER = new Set(["save", "take model", "take owner", "fresh prices", "earlier counts"]);
/** Those that change nothing but what is drawn. */
const LOOKS = /^(open|close|see|lines from):?/;

let unsaved = carriage().surroundings.unsaved === true;
let waiting: ReturnType<typeof setTimeout> | undefined;
let keeping: ReturnType<typeof setTimeout> | undefined;
const saver = autosave(() => {
  unsaved = false;
  clearTimeout(keeping);
  forget();
});

const shopKeeps = keeper(fieldsNow, put);

function touch(): void {
  unsaved = true;
  saver.touch();
  shopKeeps.touch();
  clearTimeout(keeping);
  keeping = setTimeout(() => keep(fieldsNow()), 500);
}
const place = document.getElementById("form-place")!;

document.documentElement.classList.add("scripted");

function perform(intent: string, fields = fieldsNow()): void {
  const acted = act(intent, fields, pricingContext);
  if (!LOOKS.test(intent)) touch();
  redraw(acted.fields, acted.focus, acted.say);
  const shown = intent.startsWith("see:") ? document.querySelector(".desk-shown") : undefined;
  if (shown && shown.getBoundingClientRect().top < 0) shown.scrollIntoView({ block: "start" });
}

place.addEventListener("input", ({ target }) => {
  if (target instanceof HTMLElement && target.id.startsWith("next.")) return;
  ticked(target);
  touch();
  clearTimeout(waiting);
  waiting = setTimeout(reprice, 60);
});

const linesOf = (box: HTMLTextAreaElement) => box.value.split("\n").map((line) => line.trim());

/** A usual line goes into its note or out of it; what is typed ticks it. */
function ticked(target: EventTarget | null): void {
  if (target instanceof HTMLInputElement && target.dataset.line) {
    const { line, into } = target.dataset;
    const box = form().querySelector<HTMLTextAreaElement>(`textarea[name="${into}"]`);
    if (!box) return;
    const others = linesOf(box).filter((each) => each && each !== line);
    box.value = (target.checked ? [...others, line] : others).join("\n");
  } else if (target instanceof HTMLTextAreaElement)
    for (const tick of form().querySelectorAll<HTMLInputElement>(`[data-into="${target.name}"]`))
      tick.checked = linesOf(target).includes(tick.dataset.line!);
}

document.addEventListener("kindsfound", (event) => {
  learn((event as CustomEvent<KindsFound>).detail);
  reprice();
});

/** Names, certainties and counts are said in other places too. What a pointer is about to press stays where it is until it has. */
let pressed = false;
let stale = false;
const settle = () =>
  setTimeout(() => {
    if (!stale || pressed) return;
    stale = false;
    redraw(unknownOpened(lineFollowed(fieldsNow())));
  }, 0);
document.addEventListener("pointerdown", () => {
  pressed = true;
});
for (const end of ["pointerup", "pointercancel", "click"])
  document.addEventListener(end, () => {
    pressed = false;
    settle();
  });
let named: string | undefined;
place.addEventListener("change", ({ target }) => {
  if (!(target instanceof HTMLInputElement || target instanceof HTMLSelectElement) || target.id.startsWith("next.")) return;
  named = target.name;
  if (/^(unit\.serial|owner\.(name|id))$/.test(named)) void askShop();
  stale = true;
  settle();
});

/** What the shop knows by now: who and what was here before, and its parts, offers and exchange rates. Offline, what is known stands. */
async function askShop(): Promise<void> {
  const body = new URLSearchParams([...fieldsNow(), ["intent", "recalculate"]]);
  const answer = await fetch(form().action, { method: "POST", body, headers: { accept: "text/html" } }).catch(() => undefined);
  const page = answer?.ok ? new DOMParser().parseFromString(await answer.text(), "text/html") : undefined;
  if (!page?.getElementById("context")) return;
  const [ours, theirs] = [document, page].map((one) => one.getElementById("drawn-seen"));
  if (ours && theirs) morph(ours, theirs);
  renew(carriage(page).context);
  reprice();
}

// Back from where prices were entered.
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "visible") void askShop();
});
window.addEventListener("focus", () => void askShop());

/** A line that was put elsewhere takes the view along, so that what is typed next is typed there. */
function lineFollowed(fields: Map<string, string>): Map<string, string> {
  const line = /^line\.([^.]+)\.assembly$/.exec(named ?? "")?.[1];
  const at = document.activeElement;
  const isElsewhere = at !== document.body && at?.closest<HTMLElement>(".line")?.dataset.line !== line;
  return line === undefined || isElsewhere ? fields : following(fields, line);
}

/** What is on no list wants to say more. */
function unknownOpened(fields: Map<string, string>): Map<string, string> {
  const [, row, leaf] = /^line\.([^.]+)\.(operation|part)$/.exec(named ?? "") ?? [];
  const typed = fields.get(named ?? "")?.trim();
  if (row === undefined || !typed) return fields;
  const names = leaf === "part" ? partNames(pricingContext) : workNames(pricingContext);
  return foundByName(typed, names) ? fields : opened(fields, `more.${row}`);
}

place.addEventListener("submit", (event) => {
  const button = event.submitter;
  const intent = button instanceof HTMLButtonElement && button.name === "intent" ? button.value : "";
  if (button?.hasAttribute("data-leaves")) return;
  if (intent === "recalculate") {
    event.preventDefault();
    reprice();
    void askShop();
  } else if (intent !== "" && !ON_THE_SERVER.has(intent)) {
    event.preventDefault();
    perform(intent);
  } else if (saver.running()) {
    event.preventDefault();
    void saver.running()?.then(() => form().requestSubmit(button));
  } else if (intent === "save" && reached !== button) {
    event.preventDefault();
    void reach(button);
  } else if (navigator.onLine) {
    reached = undefined;
    unsaved = false;
    shopKeeps.stop();
    if (intent === "save") {
      sent();
      setTimeout(() => button?.setAttribute("disabled", ""), 0);
    }
  }
});

/** The button that the shop was reached for. */
let reached: HTMLElement | null | undefined;
let asking = false;

/** Saved only once the shop answers at all: otherwise the form would give way to the browser's error page. */
async function reach(button: HTMLElement | null): Promise<void> {
  if (asking) return;
  asking = true;
  const answers = await fetch("/health", { method: "HEAD", cache: "no-store" }).then(
    () => true,
    () => false,
  );
  asking = false;
  if (!answers) {
    keep(fieldsNow());
    return notSent(button, form());
  }
  document.getElementById("not-sent")?.remove();
  reached = button;
  form().requestSubmit(button);
}

/** What is to be put right may stand where nothing is drawn yet. */
document.addEventListener("click", ({ target }) => {
  const href = target instanceof Element ? target.closest("a[href^='#']")?.getAttribute("href") : undefined;
  if (!href) return;
  const name = decodeURI(href.slice(1));
  if (name !== "" && !document.getElementById(name)) redraw(leadingTo(name, fieldsNow()), name);
});

function leadingTo(name: string, fields: Map<string, string>): Map<string, string> {
  const [head = "", row = "", leaf] = name.split(".");
  const at = (one: string) => new Map(fields).set("meta.at", one);
  if (head === "line") {
    const where = (fields.get(`line.${row}.assembly`) ?? "").trim().toLowerCase();
    const found = [...fields].find(
      ([field, text]) => /^assembly\.[^.]+\.name$/.test(field) && text.trim().toLowerCase() === where,
    );
    return opened(at(where !== "" && found ? found[0].split(".")[1]! : "*"), `more.${row}`);
  }
  if (head === "cells") return at(row);
  if (/^(assembly|fasteners|hazards)$/.test(head)) return opened(at(row), "reach");
  if (head === "terms" || head === "scarcity" || (head === "meta" && row === "asOf")) return opened(fields, "terms");
  if (head === "unit" && row === "power") return opened(fields, "hazards");
  if (head === "owner" || head === "unit") return opened(fields, "intake");
  if (head === "boards") return opened(fields, "boards");
  return opened(fields, head === "caution" ? "hazards" : leaf === undefined ? "grid" : "map");
}

place.addEventListener("paste", (event) => {
  const text = event.clipboardData?.getData("text/plain") ?? "";
  if (!(event.target instanceof HTMLInputElement) || event.target.id !== "next.what" || !/[\r\n]/.test(text.trim())) return;
  event.preventDefault();
  perform("add lines", new Map(fieldsNow()).set("next.list", text));
});

place.addEventListener("keydown", (event) =>
  onKey(event, {
    save: () => form().requestSubmit(form().querySelector<HTMLButtonElement>("[data-save]")),
    perform,
  }),
);

window.addEventListener("beforeunload", (event) => {
  if (unsaved) event.preventDefault();
});

// Coming back to the page finds its button pressed.
window.addEventListener("pageshow", () => form().querySelector("[data-save]")?.removeAttribute("disabled"));

begin();
offerKept();
document.getElementById("summary")?.focus();
document.getElementById("conflict")?.focus();
// A browser may have kept what was typed before the page was left.
reprice();

/** What a crash left behind is offered, and put in place of nothing by itself. */
function offerKept(): void {
  const found = unsaved || document.getElementById("conflict") ? undefined : kept(fieldsNow());
  if (!found) return;
  const offer = document.createElement("p");
  offer.className = "undo";
  offer.id = "kept-here";
  const when = found.at.toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
  const button = (text: string, press: () => void) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", () => {
      offer.remove();
      press();
    });
    return made;
  };
  offer.append(
    `Typed here on ${when}, and not saved: `,
    button("Go on with it", () => {
      // Sent twice under one token, it is one job.
      for (const name of ["meta.token", "meta.draft", "meta.draftVersion"]) put(name, found.fields.get(name) ?? "");
      redraw(found.fields);
      touch();
    }),
    " ",
    button("Throw it away", () => {
      forget();
      shopKeeps.drop(found.fields);
    }),
  );
  place.before(offer);
  // The same one, as the shop has it.
  document.querySelector(`[data-begun="${CSS.escape(found.fields.get("meta.draft") || "none")}"]`)?.remove();
}

/**
 * Enter goes down a column and adds a row at the end; Shift and Enter, and the arrows, go up and down; Alt and the arrows move a line;
 * Delete in an empty box or with Ctrl removes it; Ctrl and Enter saves. Tab keeps its meaning everywhere.
 */
interface KeyActions {
  readonly save: () => void;
  readonly perform: (intent: string) => void;
}

function onKey(event: KeyboardEvent, { save, perform }: KeyActions): void {
  const at = event.target;
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    save();
    return;
  }
  if (!(at instanceof HTMLElement)) return;
  if (at instanceof HTMLInputElement && at.id === "next.what") {
    onNext(event, at, perform);
    return;
  }
  const line = at.closest<HTMLElement>(".line");
  if (line && onLine(event, at, line, perform)) return;
  if (!(at instanceof HTMLInputElement) || at.type === "checkbox" || event.altKey || event.ctrlKey || event.metaKey) return;
  const down = event.key === "Enter" ? !event.shiftKey : event.key === "ArrowDown" ? true : undefined;
  const up = event.key === "Enter" ? event.shiftKey : event.key === "ArrowUp" ? true : undefined;
  if (!down && !up) return;
  const row = at.closest<HTMLElement>("table.grid tbody tr, .line, table.boards tbody tr");
  // With a list of suggestions the arrows choose from it.
  if (!row || (event.key !== "Enter" && (at.hasAttribute("list") || at.dataset.list !== undefined))) return;
  event.preventDefault();
  const next = beside(at, row, down ? 1 : -1);
  // After the last assembly comes another; the arrow goes on to the whole unit.
  const isLast = event.key === "Enter" && next?.closest("tr.whole") && !row.matches(".whole");
  if (next && !isLast) next.select();
  else if (event.key === "Enter" && down && row.matches("table.grid tr")) perform("add assembly");
  else if (down && row.matches(".line")) document.getElementById("next.what")?.focus();
}

/** Enter in the box for the next line adds it; the arrow goes up to the lines. */
function onNext(event: KeyboardEvent, box: HTMLInputElement, perform: KeyActions["perform"]): void {
  if (event.key === "Enter") {
    event.preventDefault();
    if (box.value.trim() !== "") perform("add line");
  } else if (event.key === "ArrowUp") {
    const counts = document.querySelectorAll<HTMLInputElement>(
      `#${CSS.escape(box.closest(".place")!.id)} .line .slot.short input`,
    );
    counts[counts.length - 1]?.select();
  }
}

function onLine(event: KeyboardEvent, at: HTMLElement, line: HTMLElement, perform: KeyActions["perform"]): boolean {
  const { line: key, cell } = line.dataset;
  const intent =
    event.key === "Delete" && (event.ctrlKey || !(at instanceof HTMLInputElement) || at.value === "")
      ? key === undefined
        ? `remove cell:${cell}`
        : `remove line:${key}`
      : event.altKey && key !== undefined && event.key === "ArrowUp"
        ? `raise line:${key}`
        : event.altKey && key !== undefined && event.key === "ArrowDown"
          ? `lower line:${key}`
          : undefined;
  if (intent === undefined || at instanceof HTMLTextAreaElement) return false;
  event.preventDefault();
  perform(intent);
  return true;
}

/** The box in the same place of the next or previous row. */
function beside(at: HTMLInputElement, row: HTMLElement, step: 1 | -1): HTMLInputElement | undefined {
  const kind = row.matches(".line") ? ".line" : "tr";
  const slot = at.name.split(".").at(-1)!;
  const place = boxes(row).indexOf(at);
  const match = (other: Element) =>
    kind === ".line"
      ? boxes(other).find((box) => (at.closest(".short") ? box.closest(".short") : box.name.endsWith(`.${slot}`)))
      : [...other.children][[...row.children].indexOf(at.closest("th, td")!)]?.querySelector<HTMLInputElement>(
          "input:not([type=hidden])",
        );
  let other = step === 1 ? row.nextElementSibling : row.previousElementSibling;
  while (other && !(other.matches(kind) && (match(other) || (kind === "tr" && boxes(other)[place]))))
    other = step === 1 ? other.nextElementSibling : other.previousElementSibling;
  return other ? (match(other) ?? undefined) : undefined;
}

const boxes = (row: Element): HTMLInputElement[] => [...row.querySelectorAll<HTMLInputElement>("input:not([type=hidden])")];
