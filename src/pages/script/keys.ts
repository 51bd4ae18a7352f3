/**
 * Enter goes down a column and adds a row at the end; Shift and Enter, and the arrows, go up and down; Ctrl and Enter saves.
 * Tab keeps its meaning everywhere.
 */
interface KeyActions {
  readonly save: () => void;
  readonly addAssembly: () => void;
  readonly addLine: () => void;
}

export function onKey(event: KeyboardEvent, actions: KeyActions): void {
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
  if (!row || (event.key !== "Enter" && at.hasAttribute("list"))) return;
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
