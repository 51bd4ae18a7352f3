/** Lines as one types or pastes them become lines of the form. What can be read in two ways stays where it was typed. */
import type { Hazard } from "../../../estimating/input.js";
import { nameFor } from "../../../wording/named.js";
import type { FormContext } from "../context.js";
import { draftFrom, WHOLE_UNIT } from "../draft.js";
import { type Fields, key } from "../fields.js";
import { partNames, workNames } from "../names.js";
import { opened } from "../open.js";
import { placeAt, placesIn } from "../places.js";
import { type Meant, nextLine, nextList } from "../typedLine.js";
import { type Acted, freeKey, withFields } from "./rows.js";

/** `own`: the line that is in one's own words, which wants to say more. */
type Added = Acted & { readonly own?: string; readonly isMains?: boolean };

/** Own words that may touch the mains: common practice, no source. Their danger asks for the safety test, and can be taken out. */
const MAINS =
  /\bmains\b|\bpower[ -]?(?:cord|lead|cable)s?\b|\bline cords?\b|\biec inlets?\b|netz(?:teil|kabel|schalter|trafo|stecker|sicherung|anschlu(?:ss|ß)|anschlüsse|leitung|buchse|spannung)|stromkabel|kaltgeräte(?:stecker|buchse|kabel)/i;
const DANGER: Hazard = "mains and stored charge";

/** One line more on the row `at`: a count of the grid where that says it all, else a line. What is on no list is work in one's own words. */
function addTyped(fields: Fields, { count, what, known, own }: Meant, at: string, context: FormContext): Added {
  const column = known && columnOf(known, context);
  const cell = column && `cells.${at}.${key(column)}`;
  const isMains = !known && MAINS.test(what);
  const took = `Added: ${count} ${known?.name ?? what}.${isMains ? ` Its danger: ${DANGER}.` : ""}`;
  if (cell && !fields.get(cell)?.trim()) return { fields: withFields(fields, [[cell, count]]), focus: "next.what", say: took };
  const row = freeKey(fields, "line", "l");
  const place = at === WHOLE_UNIT ? "" : (fields.get(`assembly.${at}.name`) ?? "").trim();
  const names = known?.is === "part" ? partNames(context) : workNames(context);
  const line = withFields(fields, [
    [`line.${row}.${known?.is ?? "operation"}`, known ? nameFor(known.id, names) : (own?.what ?? what)],
    ...(own ? [[`line.${row}.${own.field}`, own.figure] as const] : []),
    ...(isMains ? [[`line.${row}.ownHazards`, DANGER] as const] : []),
    [`line.${row}.count`, count],
    [`line.${row}.certainty`, "planned"],
    ...(place === "" ? [] : [[`line.${row}.assembly`, place] as const]),
  ]);
  return { fields: line, focus: "next.what", say: took, isMains, ...(!known && !own && { own: row }) };
}

function columnOf({ id, is }: Meant["known"] & {}, { rateBook }: FormContext): string | undefined {
  if (is === "part") return id.startsWith("type:") ? `p:${id.slice("type:".length)}` : undefined;
  return rateBook.operations.some((one) => one.id === id && one.sort === "cleaning") ? `o:${id}` : undefined;
}

/** What stands in the box for the next line becomes a line. */
export function addNext(fields: Fields, context: FormContext): Acted {
  const next = nextLine(fields, context);
  if (next === undefined) return { fields: new Map(fields) };
  if ("wrong" in next) return { fields: new Map(fields), focus: "next.what", say: `Not added: ${next.wrong}` };
  const { own, isMains: _, ...added } = addTyped(fields, next, rowAt(fields), context);
  const emptied = added.fields.set("next.what", "");
  if (own === undefined) return { ...added, fields: emptied };
  const say = `${added.say} It is on no list: give its minutes or a price.`;
  return { fields: opened(emptied, `more.${own}`), focus: `line.${own}.likely`, say };
}

export const rowAt = (fields: Fields): string => placeAt(fields, placesIn(draftFrom(fields), fields.get("meta.at"))).row;

export function addList(fields: Fields, context: FormContext): Acted {
  const list = nextList(fields, context);
  if (list.length === 0) return { fields: new Map(fields), say: "There is no line in the list yet." };
  const typed = list.flatMap(([, read]) => ("wrong" in read ? [] : [read]));
  const unclear = list.flatMap(([line, read]) => ("wrong" in read ? [line] : []));
  const at = rowAt(fields);
  let now = new Map(fields);
  const own: string[] = [];
  let mains = 0;
  for (const one of typed) {
    const added = addTyped(now, one, at, context);
    now = added.fields;
    if (added.own !== undefined) own.push(added.own);
    if (added.isMains) mains++;
  }
  now.set("next.list", unclear.join("\n"));
  const said = `${typed.length} ${typed.length === 1 ? "line was" : "lines were"} added.`;
  const danger = mains === 0 ? "" : ` ${mains} ${mains === 1 ? "has its danger" : "have their danger"}: ${DANGER}.`;
  const left = own.length === 0 ? "" : ` ${own.length} ${own.length === 1 ? "is" : "are"} on no list: give minutes or a price.`;
  const stays =
    unclear.length === 0
      ? ""
      : ` ${unclear.length} ${unclear.length === 1 ? "is not clear and stays" : "are not clear and stay"} in the list.`;
  const [first] = own;
  const unfolded = first === undefined ? now : opened(now, `more.${first}`);
  return {
    fields: opened(unfolded, "list", unclear.length > 0),
    focus: unclear.length > 0 ? "next.list" : first === undefined ? "next.what" : `line.${first}.likely`,
    say: said + danger + left + stays,
  };
}
