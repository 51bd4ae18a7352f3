/** Draws parts of the page again without losing the place: what was unfolded stays unfolded, focus stays where it was or goes where told. */
import type { KindsFound } from "../form/context.js";
import { type Fields, fieldsFrom } from "../form/fields.js";
import { IntakeForm } from "../intake/intakeForm.js";
import { type Carriage, SheetPanel } from "../intake/intakePage.js";
import { marginOf } from "../intake/lineMore.js";
import { TotalNow } from "../intake/till.js";
import { type IntakeView, viewOf } from "../intake/view.js";

/** What the page brought along to price against. */
export const carriage = (): Carriage => JSON.parse(document.getElementById("context")?.textContent ?? "{}");
const { context, surroundings } = carriage();
const place = (id: string): HTMLElement => document.getElementById(id)!;

export const form = (): HTMLFormElement => place("intake") as HTMLFormElement;

export const fieldsNow = (): Fields =>
  fieldsFrom([...new FormData(form())].filter((pair): pair is [string, string] => typeof pair[1] === "string"));

export const pricingContext = context;

/** Parts of the catalogue that were looked for are priced like those that the page came with. */
export function learn({ kinds, offers }: KindsFound): void {
  const known = new Set(context.kinds.map(({ id }) => id));
  Object.assign(context, {
    kinds: [...context.kinds, ...kinds.filter(({ id }) => !known.has(id))],
    offers: [...context.offers, ...offers.filter(({ kind }) => !known.has(kind))],
  });
}

/** Problems stand beside their fields once the form was sent. */
const sent = document.getElementById("summary") !== null;
const viewNow = (fields: Fields): IntakeView => viewOf(fields, context, surroundings, sent);

let waiting: ReturnType<typeof setTimeout> | undefined;

/** The sheet at once, the spoken total when typing pauses. */
export function reprice(): void {
  const view = viewNow(fieldsNow());
  refill(place("sheet-place"), String(<SheetPanel view={view} />));
  for (const row of Object.keys(view.read.draft.line)) {
    const margin = document.getElementById(`line.${row}.margin`);
    if (margin && margin.textContent !== marginOf(view, row)) margin.textContent = marginOf(view, row);
  }
  clearTimeout(waiting);
  waiting = setTimeout(() => refill(place("total-now"), String(<TotalNow view={view} />)), 250);
}

export function redraw(fields: Fields, focus?: string, say?: string): void {
  const before = document.activeElement?.id;
  const view = viewNow(fields);
  refill(place("form-place"), String(<IntakeForm view={view} />));
  refill(place("sheet-place"), String(<SheetPanel view={view} />));
  if (say) place("said").textContent = say;
  place("said").classList.toggle("empty-said", !say);
  const target = document.getElementById(focus ?? before ?? "");
  for (let fold = target?.closest("details"); fold; fold = fold.parentElement?.closest("details")) fold.open = true;
  target?.focus();
}

function refill(at: HTMLElement, html: string): void {
  const open = new Map([...at.querySelectorAll("details")].map(({ id, open }) => [id, open]));
  at.innerHTML = html;
  for (const fold of at.querySelectorAll("details")) fold.open = open.get(fold.id) ?? fold.open;
}
