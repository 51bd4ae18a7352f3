/** What another version of the rate book would do, told before it is saved. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { RateBookChanged } from "../../acts/changeRateBook.js";
import { changeFields, ROWS } from "../../acts/rateBookFields.js";
import type { Typed } from "../../acts/readForm.js";
import { writeForm } from "../../acts/writeForm.js";
import type { RateBook } from "../../estimating/input.js";
import { EffectPage } from "../../pages/shop/rateBookEffect.js";
import { BOOK_CHOICES } from "../../wording/rateBookParts.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { SAYS, type Standing } from "./rateBookStanding.js";

const NOT_CARRIED = new Set(["intent", "find", "token", "drafts", "carryOut"]);

/** Fields that hold the id of a row of another list; a person reads its name. */
const REFERS: Readonly<Record<string, "operations" | "partTypes" | "labourClasses">> = {
  ...{ operation: "operations", type: "partTypes", replacedBy: "operations" },
  ...{ labourClass: "labourClasses", accessClass: "labourClasses" },
};

interface Named {
  readonly id: string;
  readonly name: string;
}

/** A version shown beside the one it would follow; what was typed goes along. */
export function preview(
  c: Context<AppEnv>,
  { settings, day }: Standing,
  { record, before, effect }: RateBookChanged,
  typed: Typed,
) {
  const tongue = { locale: settings.locale, currency: record.book.currency };
  return pageAnswer(
    c,
    <EffectPage
      frame={frameFor(c, settings.name)}
      tongue={tongue}
      next={record.book}
      now={record.book.inForceFrom <= day}
      changes={differences(before, record.book, tongue)}
      drafts={effect.drafts}
      issued={effect.issued}
      to={c.req.path}
      carried={typed.names
        .filter((name) => !NOT_CARRIED.has(name))
        .flatMap((name) => typed.all(name).map((each) => [name, each] as const))}
      token={uuidv7()}
    />,
  );
}

/** Figure by figure, each called by its row and its label. */
function differences(before: RateBook, after: RateBook, tongue: { readonly locale: string; readonly currency: string }) {
  const [was, becomes] = [writeForm(changeFields, before, tongue), writeForm(changeFields, after, tongue)];
  const either = (name: string) => becomes.get(name) ?? was.get(name);
  return [...new Set([...was.keys(), ...becomes.keys()])].flatMap((name): (readonly [string, string, string])[] => {
    const saying = SAYS.get(name.replaceAll(/\.\d+(?=\.)/g, ".*"));
    // Where a figure of the shop's own comes from is said by itself.
    if (!saying?.empties || was.get(name) === becomes.get(name) || /\.source\.(basis|note)$/.test(name)) return [];
    // The innermost row that has a name of its own: work behind a service is told by the service.
    const rows = [...name.matchAll(/(\w+)\.(\d+)(?=\.)/g)].filter(([, list = ""]) => ROWS[list]);
    const last = rows.at(-1);
    const [path = "", list, at] = last ?? [];
    const row = last && name.slice(0, last.index + path.length);
    const called = row && (either(`${row}.name`) ?? either(`${row}.kind`) ?? either(`${row}.size`));
    const { [/\w+$/.exec(name)?.[0] ?? ""]: refers } = REFERS;
    const entitled = (id: string) =>
      [after, before].flatMap((book): readonly Named[] => (refers ? book[refers] : [])).find((one) => one.id === id)?.name;
    const worded = (choice: string) => BOOK_CHOICES[name]?.find(([value]) => value === choice)?.[1];
    const shown = (text = saying.kind === "tick" ? "no" : "nothing") =>
      saying.unit && text !== "nothing"
        ? `${text} ${saying.unit}`
        : (worded(text) ?? entitled(text) ?? text).replaceAll("\n", ", ");
    const of = list ? `${ROWS[list]} ${called ? `'${called}'` : Number(at) + 1}: ` : "";
    return [[of + saying.label, shown(was.get(name)), shown(becomes.get(name))]];
  });
}
