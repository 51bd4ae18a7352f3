/** Every form of the pages that links lead to, as a browser sends it, changed, and as files. */
import { formsOn } from "../http/support/noScript.js";
import { kindOf, pagesFrom } from "../http/support/walk.js";
import { type Answering, asked, type Dice, type Fuzzed, TEXTS } from "./fuzz.js";

export interface PageForm {
  readonly page: string;
  readonly action: string;
  readonly fields: readonly (readonly [string, string])[];
}

/** What ends the walk of whoever is signed in. */
const ENDS_IT = /^\/sign-out$/;

export async function formsFrom(app: Answering, most: number, starts?: readonly string[]): Promise<PageForm[]> {
  const found: PageForm[] = [];
  for await (const { path: page, html } of pagesFrom(app, most, starts))
    for (const { action, fields, buttons } of formsOn(html))
      for (const button of buttons.slice(0, 4))
        found.push({
          page,
          action: button.action ?? action ?? page,
          fields: [...fields, ...(button.name ? [[button.name, button.value] as const] : [])],
        });
  return found.filter(({ action }) => !ENDS_IT.test(action));
}

export async function fuzzForm(app: Answering, { action, fields }: PageForm, of: Dice, into: Fuzzed) {
  const pairs = fields.map(([name, value]) => [name, value] as [string, string]);
  for (let times = of.below(4); times > 0 && pairs.length > 0; times -= 1) {
    const at = of.below(pairs.length);
    const [name] = pairs[at]!;
    const how = of.next();
    if (how < 0.15) pairs.splice(at, 1);
    else if (how < 0.3) pairs.push([name, of.one(TEXTS)]);
    else if (how < 0.4) pairs[at] = [of.one([`${name}.0`, `${name}.__proto__`, "", `${name}\0`]), of.one(TEXTS)];
    else pairs[at] = [name, of.one(TEXTS)];
  }
  const route = `FORM ${kindOf(action).replace(/\?.*/, "")}`;
  const headers = { "sec-fetch-site": "same-origin", accept: "text/html" };
  const body =
    of.next() < 0.1
      ? multipart(pairs, of)
      : { body: new URLSearchParams(pairs).toString(), type: "application/x-www-form-urlencoded" };
  await asked(app, route, action, { method: "POST", headers: { ...headers, "content-type": body.type }, body: body.body }, into);
}

/** Whole, or cut off. */
function multipart(pairs: readonly (readonly [string, string])[], of: Dice) {
  const part = ([name, value]: readonly [string, string]) =>
    `--edge\r\ncontent-disposition: form-data; name="${name.replaceAll(/["\r\n\0]/g, "")}"${of.next() < 0.2 ? '; filename="a\0b.csv"' : ""}\r\n\r\n${value}\r\n`;
  const whole = `${pairs.map(part).join("")}--edge--\r\n`;
  return { body: of.next() < 0.5 ? whole.slice(0, of.below(whole.length)) : whole, type: "multipart/form-data; boundary=edge" };
}
