/** Recording an answer: what the total is of follows the ticks, worked out by the shop. Without this script its button does. */
const form = document.getElementById("record") as HTMLFormElement | null;
const total = document.getElementById("for-ticked");
let running: AbortController | undefined;

async function follow(): Promise<void> {
  running?.abort();
  const mine = new AbortController();
  running = mine;
  if (total) total.textContent = "Working out the price of what is ticked …";
  const body = new URLSearchParams([...new FormData(form!)].map(([name, value]) => [name, String(value)]));
  body.set("intent", "price");
  try {
    const answer = await fetch(form!.action, { method: "POST", body, headers: { accept: "text/html" }, signal: mine.signal });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const now = page.getElementById("for-ticked");
    if (!answer.ok || !now) throw new Error("No price.");
    total?.replaceChildren(...document.adoptNode(now).childNodes);
    const of = page.getElementById("of-work");
    if (of) document.getElementById("of-work")?.replaceChildren(...document.adoptNode(of).childNodes);
  } catch {
    if (total && !mine.signal.aborted) total.textContent = "The price is not worked out for what is ticked now.";
  }
}

form?.addEventListener("change", ({ target }) => {
  if (target instanceof HTMLInputElement && target.type === "checkbox" && /^(chosen|work)$/.test(target.name)) void follow();
});
// Come back to by the browser's Back, the ticks are as they were left and the price is as it was first sent.
window.addEventListener("pageshow", () => {
  const ticks = form?.querySelectorAll<HTMLInputElement>("input[type=checkbox]") ?? [];
  if ([...ticks].some(({ checked, defaultChecked }) => checked !== defaultChecked)) void follow();
});

export {};
