/** Draws again what reads otherwise, without losing the place: what was unfolded stays unfolded, focus stays where it was or goes where told. */
import { estimate } from "../../estimating/estimate.js";
import type { FormContext, KindsFound } from "../form/context.js";
import { type Fields, fieldsFrom } from "../form/fields.js";
import { REST, restOf, whole } from "../form/rest.js";
import { amountsOf } from "../intake/amounts.js";
import { formParts } from "../intake/intakeForm.js";
import { type Carriage, SheetPanel } from "../intake/intakePage.js";
import { marginOf } from "../intake/lineMore.js";
import { TotalNow } from "../intake/till.js";
import { type IntakeView, viewOf } from "../intake/view.js";
import { morph } from "./morph.js";

/** What the page brought along to price against. */
export const carriage = (page: Document = document): Carriage => JSON.parse(page.getElementById("context")?.textContent ?? "{}");
const { context, surroundings } = carriage();
const place = (id: string): HTMLElement => document.getElementById(id)!;

export const form = (): HTMLFormElement => place("intake") as HTMLFormElement;

export const fieldsNow = (of = form()): Map<string, string> =>
  whole(fieldsFrom([...new FormData(of)].filter((pair): pair is [string, string] => typeof pair[1] === "string")));

export const pricingContext = context;

/** Parts of the catalogue that were looked for are priced like those that the page came with. */
export function learn({ kinds, offers }: KindsFound): void {
  const known = new Set(context.kinds.map(({ id }) => id));
  Object.assign(context, {
    kinds: [...context.kinds, ...kinds.filter(({ id }) => !known.has(id))],
    offers: [...context.offers, ...offers.filter(({ kind }) => !known.has(kind))],
  });
}

/** What the shop has by now, saved in another tab or by somebody else; parts that were looked for stay known. */
export function renew(now: FormContext): void {
  const known = new Set(now.kinds.map(({ id }) => id));
  Object.assign(context, {
    ...now,
    kinds: [...now.kinds, ...context.kinds.filter(({ id }) => !known.has(id))],
    offers: [...now.offers, ...context.offers.filter(({ kind }) => !known.has(kind))],
  });
}

/** Problems stand beside their fields once the form was sent. */
const sent = document.getElementById("summary") !== null;
const viewNow = (fields: Fields, risk = true): IntakeView => viewOf(fields, context, surroundings, sent, risk);

let waiting: ReturnType<typeof setTimeout> | undefined;

/** Amounts and sheet at once; when typing pauses, the risk, which takes longest, and the spoken total. */
export function reprice(): void {
  const view = viewNow(fieldsNow(), false);
  drawSheet(view);
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    const outcome = estimate(view.read.input, { risk: true });
    const sheet = outcome.ok ? outcome.sheet : outcome.partial;
    drawSheet({ ...view, outcome, ...(sheet && { sheet }) });
    refill(place("total-now"), String(<TotalNow view={view} />));
  }, 250);
}

let risk: IntakeView["sheet"];

/** The risk as it was last worked out stands until it is worked out again. */
function drawSheet(view: IntakeView): void {
  if (view.sheet?.risk) risk = view.sheet;
  const sheet = view.sheet && risk?.risk && !view.sheet.risk ? { ...view.sheet, risk: risk.risk } : view.sheet;
  tellRighted(view);
  const at = place("sheet-place");
  const explained = new Set([...at.querySelectorAll("details[data-why][open]")].map(({ id }) => id));
  refill(at, String(<SheetPanel view={{ ...view, ...(sheet && { sheet }) }} explained={explained} />));
  const texts = amountsOf(view);
  for (const spot of form().querySelectorAll<HTMLElement>("[data-says]")) {
    const text = texts.get(spot.dataset.says!) ?? "";
    if (spot.textContent !== text) spot.textContent = text;
  }
  for (const margin of form().querySelectorAll<HTMLElement>(".margin")) {
    const text = marginOf(view, margin.id.slice("line.".length, -".margin".length));
    if (margin.textContent !== text) margin.textContent = text;
  }
}

/** Id of a part -> what was last drawn there. */
const drawn = new Map<string, string>();

/** What a part reads as drawn from these fields; the foot of the form changes with the total alone. */
const partsOf = (fields: Fields): readonly (readonly [string, string])[] =>
  [...formParts(viewNow(fields, false))].filter(([id]) => id !== "drawn-till");

/** What the server drew is what would be drawn here. */
export function begin(): void {
  for (const [id, html] of partsOf(fieldsNow())) drawn.set(id, html);
  if (sent) for (const { text } of viewNow(fieldsNow(), false).complaints) complained.add(text);
}

/** What the server refused and this page can judge for itself; of the rest only the server knows when it is put right. */
const complained = new Set<string>();

/** What was put right does not stand at the head of the page any longer. */
function tellRighted({ complaints }: IntakeView): void {
  const summary = document.getElementById("summary");
  const still = new Set(complaints.map(({ text }) => text));
  for (const line of summary?.querySelectorAll("li") ?? [])
    if (complained.has(line.textContent) && !still.has(line.textContent)) line.remove();
  if (summary?.querySelector("li") !== null) return;
  summary.remove();
  document.title = document.title.replace(/^Error: /, "");
  // What was said of the last save stands no longer.
  place("said").classList.add("empty-said");
}

export function redraw(fields: Fields, focus?: string, say?: string): void {
  const before = document.activeElement;
  const caret = isTyped(before) ? ([before.selectionStart, before.selectionEnd] as const) : undefined;
  for (const [id, html] of partsOf(fields)) {
    if (drawn.get(id) === html) continue;
    drawn.set(id, html);
    refill(place(id), html);
  }
  const names = new Set([...form().elements].map((box) => (box as HTMLInputElement).name));
  form().querySelector<HTMLInputElement>(`[name="${REST}"]`)!.value = restOf(fields, names);
  reprice();
  if (say) place("said").textContent = say;
  place("said").classList.toggle("empty-said", !say);
  if (focus === undefined && document.activeElement === before) return;
  const target = document.getElementById(focus ?? before?.id ?? "");
  const box = target?.matches("fieldset") ? target.querySelector<HTMLElement>("input, select, textarea") : target;
  for (let fold = box?.closest("details"); fold; fold = fold.parentElement?.closest("details")) fold.open = true;
  box?.focus();
  if (focus === undefined && caret && isTyped(box)) box.setSelectionRange(...caret);
}

const isTyped = (box: Element | null | undefined): box is HTMLInputElement | HTMLTextAreaElement =>
  box instanceof HTMLTextAreaElement || (box instanceof HTMLInputElement && box.selectionStart !== null);

/** A text put into its field, drawn or not. */
export function put(name: string, text: string): void {
  const box = form().elements.namedItem(name);
  if (box instanceof HTMLInputElement && box.type === "checkbox") box.checked = text !== "";
  else if (box instanceof HTMLInputElement || box instanceof HTMLTextAreaElement || box instanceof HTMLSelectElement)
    box.value = text;
  else {
    const names = new Set([...form().elements].map((one) => (one as HTMLInputElement).name));
    const rest = form().querySelector<HTMLInputElement>(`[name="${REST}"]`)!;
    rest.value = restOf(new Map(fieldsNow()).set(name, text), names);
  }
}

/** Only what differs is touched. */
function refill(at: HTMLElement, html: string): void {
  const wanted = at.cloneNode(false) as HTMLElement;
  wanted.innerHTML = html;
  morph(at, wanted);
}
