/** The drawing follows what is typed: the server draws it, as behind the Redraw button. Without this script that button is used. */
const form = document.getElementById("map-form") as HTMLFormElement;
let running: AbortController | undefined;
let waiting: ReturnType<typeof setTimeout> | undefined;

async function redraw(): Promise<void> {
  running?.abort();
  const mine = new AbortController();
  running = mine;
  const fields = [...new FormData(form)].map(([name, value]): [string, string] => [name, String(value)]);
  try {
    const answer = await fetch(form.action, {
      method: "POST",
      body: new URLSearchParams([...fields, ["intent", "redraw"]]),
      headers: { accept: "text/html" },
      signal: mine.signal,
    });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const drawn = page.getElementById("graph-place");
    const place = document.getElementById("graph-place");
    const scrolled = place?.querySelector(".scroll")?.scrollLeft ?? 0;
    if (!drawn || !place) return;
    place.replaceChildren(...document.adoptNode(drawn).childNodes);
    const scroll = place.querySelector(".scroll");
    if (scroll) scroll.scrollLeft = scrolled;
  } catch {
    // Offline: the drawing stays as it was, and the button is there to try again.
  }
}

const DRAWN = /^(assembly\.[^.]+\.(name|behind|joined)|fit\.)/;

form.addEventListener("input", ({ target }) => {
  if (!(target instanceof HTMLInputElement) || !DRAWN.test(target.name)) return;
  clearTimeout(waiting);
  waiting = setTimeout(redraw, 600);
});

let leaving = false;
let changed = document.getElementById("undo") !== null || document.getElementById("summary") !== null;
form.addEventListener("input", () => {
  changed = true;
});
form.addEventListener("submit", () => {
  leaving = true;
});
form.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    form.requestSubmit(form.querySelector<HTMLButtonElement>("[data-save]"));
  }
});
window.addEventListener("beforeunload", (event) => {
  if (changed && !leaving) event.preventDefault();
});
(document.getElementById("conflict") ?? document.getElementById("summary"))?.focus();

export {};
