/** Results follow what is typed; the arrows go through them. What is found comes from the server as the page itself would show it. */
const byId = <T extends HTMLElement>(id: string): T | null => document.getElementById(id) as T | null;

const box = byId<HTMLInputElement>("q")!;
const WAIT = 150;
let waiting: ReturnType<typeof setTimeout> | undefined;
let running: AbortController | undefined;
let asked = box.value;

async function look(): Promise<void> {
  if (box.value === asked) return;
  running?.abort();
  const mine = new AbortController();
  running = mine;
  const typed = box.value;
  const address = `${location.pathname}?${new URLSearchParams({ q: typed })}`;
  try {
    const answer = await fetch(address, { signal: mine.signal, headers: { accept: "text/html" } });
    const found = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("found");
    // Signed out meanwhile, or something else went wrong: let the page itself say so.
    if (!answer.ok || !found) return location.assign(address);
    asked = typed;
    byId("found")!.replaceChildren(...found.childNodes);
    history.replaceState(null, "", address);
  } catch {
    if (!mine.signal.aborted) byId("found-said")!.textContent = "The shop cannot be reached just now; press Enter to try again.";
  }
}

box.addEventListener("input", () => {
  clearTimeout(waiting);
  waiting = setTimeout(look, WAIT);
});

document.addEventListener("keydown", (event) => {
  if ((event.key !== "ArrowDown" && event.key !== "ArrowUp") || event.altKey || event.ctrlKey || event.metaKey) return;
  const stops = [box, ...document.querySelectorAll<HTMLElement>("#found ol a, #found tbody th a")];
  const at = stops.indexOf(document.activeElement as HTMLElement);
  const next = stops[at + (event.key === "ArrowDown" ? 1 : -1)];
  if (at < 0 || !next) return;
  event.preventDefault();
  next.focus();
});

export {};
