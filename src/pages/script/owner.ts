/**
 * Owner's pages: what stands behind the # of a link is exchanged for a look at the estimate, and the price follows the ticks. Every
 * figure and text comes from the server; nothing is computed here. Without this script every button still works.
 */
import { staysWithoutNetwork } from "./online.js";

const byId = <T extends HTMLElement>(id: string): T | null => document.getElementById(id) as T | null;

document.documentElement.classList.add("scripted");

function followLink(): void {
  const form = byId<HTMLFormElement>("by-link");
  const secret = location.hash.slice(1);
  if (!form || secret === "") return;
  // Neither the address bar nor the history keeps it.
  history.replaceState(null, "", location.pathname);
  form.querySelector("input")!.value = secret;
  const opening = byId("opening");
  if (opening) {
    opening.textContent = "Opening your estimate…";
    opening.classList.remove("empty-said");
  }
  form.submit();
}

const TICKS = 'input[name="chosen"], input[name="work"][type="checkbox"]';
const form = byId<HTMLFormElement>("answer");
let running: AbortController | undefined;

/** `picked`: a package, whose options are ticked by what comes back. */
async function follow(work: HTMLButtonElement, picked?: HTMLButtonElement): Promise<void> {
  running?.abort();
  const mine = new AbortController();
  running = mine;
  byId("total-now")?.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(work.formAction, {
      method: "POST",
      body: new URLSearchParams([...new FormData(form!, picked)].map(([name, value]) => [name, String(value)])),
      headers: { accept: "text/html" },
      signal: mine.signal,
    });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const wait = page.getElementById("wait");
    if (wait) return later(work, wait.textContent);
    // Another page, such as that of a link that ended meanwhile, or of another estimate.
    if (!answer.ok || answer.redirected || !page.getElementById("total-now")) return work.click();
    if (picked) for (const tick of page.querySelectorAll<HTMLInputElement>(TICKS)) tickAs(tick);
    for (const part of page.querySelectorAll<HTMLElement>("[data-follows]")) replace(part);
    work.classList.add("no-script");
  } catch {
    if (mine.signal.aborted) return;
    later(work, "The price could not be worked out just now. Try again by the button below.");
  } finally {
    if (running === mine) byId("total-now")?.removeAttribute("aria-busy");
  }
}

function tickAs({ id, checked }: HTMLInputElement): void {
  const ours = byId<HTMLInputElement>(id);
  if (ours) ours.checked = checked;
}

/** The price shown is of another set, so say so and leave the button to try again. */
function later(work: HTMLButtonElement, why: string): void {
  work.classList.remove("no-script");
  const said = byId("said");
  if (!said) return;
  said.textContent = why;
  said.classList.remove("empty-said");
}

/** What was unfolded stays unfolded. */
function replace(part: HTMLElement): void {
  const old = byId(part.id);
  if (!old) return;
  for (const fold of part.querySelectorAll("details")) fold.open = byId<HTMLDetailsElement>(fold.id)?.open ?? fold.open;
  // The contents only, so that a live region stays the same one and is read out.
  old.replaceChildren(...document.adoptNode(part).childNodes);
}

// A page that answers a form cannot be gone back to: it stands in the history under the address that shows it.
const here = byId("main")?.dataset.here;
if (here !== undefined && location.pathname !== new URL(here, location.href).pathname) history.replaceState(null, "", here);

followLink();
window.addEventListener("hashchange", followLink);
form?.addEventListener("change", ({ target }) => {
  const work = byId<HTMLButtonElement>("work-out");
  if (work && target instanceof HTMLInputElement && target.matches(TICKS)) void follow(work);
});
form?.addEventListener("submit", (event) => {
  const { submitter } = event;
  const work = byId<HTMLButtonElement>("work-out");
  if (!work || !(submitter instanceof HTMLButtonElement) || submitter.name !== "package") return;
  // The hand stays where it is.
  event.preventDefault();
  void follow(work, submitter).then(() =>
    byId("packages")?.querySelector<HTMLElement>(".chosen")?.focus({ preventScroll: true }),
  );
});
// Come back to by the browser's Back, the ticks are as they were left and the price is as it was first sent.
window.addEventListener("pageshow", () => {
  const work = byId<HTMLButtonElement>("work-out");
  const moved = [...(form?.querySelectorAll<HTMLInputElement>(TICKS) ?? [])].some((tick) => tick.checked !== tick.defaultChecked);
  if (work && moved) void follow(work);
});
byId("summary")?.focus();
staysWithoutNetwork();
