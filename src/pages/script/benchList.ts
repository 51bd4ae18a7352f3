/** The entries on this tablet, as a list: what waits, and what was refused with the ways out of it. */
import type { Waiting } from "./benchQueue.js";

export interface WaysOut {
  readonly correct: (entry: Waiting) => void;
  readonly drop: (entry: Waiting) => void;
  readonly override: (entry: Waiting, typed: readonly (readonly [string, string])[]) => void;
}

export function made<K extends keyof HTMLElementTagNameMap>(tag: K, text = "", name = ""): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  element.textContent = text;
  if (name) element.className = name;
  return element;
}

function button(text: string, act: () => void): HTMLButtonElement {
  const element = made("button", text);
  element.type = "button";
  element.addEventListener("click", act);
  return element;
}

export function rowOf(entry: Waiting, ways: WaysOut): HTMLLIElement {
  const row = made("li");
  row.append(made("strong", entry.title));
  if (entry.problem === undefined) {
    row.append(made("span", " waiting", "hint"));
    return row;
  }
  row.append(made("span", entry.problem, "wrong"));
  if (entry.overridable) row.append(overrideFor(entry, ways));
  row.append(
    button("Correct it", () => ways.correct(entry)),
    button("Drop it", () => ways.drop(entry)),
  );
  return row;
}

function overrideFor(entry: Waiting, { override }: WaysOut): HTMLFormElement {
  const form = made("form", "", "columns");
  for (const [name, text] of [
    ["override.by", "Who decides"],
    ["override.reason", "Why"],
  ] as const) {
    const label = made("label", text);
    const input = made("input");
    input.name = name;
    input.required = true;
    label.append(input);
    form.append(label);
  }
  form.append(made("button", "Log it by override"));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    override(
      entry,
      [...new FormData(form)].map(([name, value]): [string, string] => [name, String(value)]),
    );
  });
  return form;
}
