/** What another version of the rate book would do, told before it is saved. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { RateBookChanged } from "../../acts/changeRateBook.js";
import { changeFields, ROWS } from "../../acts/rateBookFields.js";
import type { Typed } from "../../acts/readForm.js";
import { writeForm } from "../../acts/writeForm.js";
import type { RateBook } from "../../estimating/input.js";
import { EffectPage } from "../../pages/shop/rateBookEffect.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { SAYS, type Standing } from "./rateBookStanding.js";

const NOT_CARRIED = new Set(["intent", "find", "token", "drafts", "carryOut"]);

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
    const [, row, list, at] = /^((?:.+\.)?(\w+)\.(\d+))\./.exec(name) ?? [];
    const called = row && (either(`${row}.name`) ?? either(`${row}.kind`) ?? either(`${row}.size`));
    const shown = (text = saying.kind === "tick" ? "no" : "nothing") =>
      saying.unit && text !== "nothing" ? `${text} ${saying.unit}` : text.replaceAll("\n", ", ");
    const of = list ? `${ROWS[list]} ${called ? `'${called}'` : Number(at) + 1}: ` : "";
    return [[of + saying.label, shown(was.get(name)), shown(becomes.get(name))]];
  });
}
