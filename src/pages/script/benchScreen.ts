/** The page as the shop has it now, without losing what is being typed, what is unfolded and where the hand is. */
export async function refreshed(address: string): Promise<void> {
  const answer = await fetch(address, { headers: { accept: "text/html" } });
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
