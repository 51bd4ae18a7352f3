/**
 * What JSX becomes: text at once, the inner before the outer, with no tree of nodes kept. All that is no markup is escaped. Our pages are
 * plain HTML: no contexts, no promises, no styles as objects, and attributes are named as HTML and SVG name them.
 */
import type { Child } from "hono/jsx";
import type { HtmlEscapedString } from "hono/utils/html";

export type { JSX } from "hono/jsx/jsx-runtime";

type Props = { readonly children?: Child; readonly [name: string]: unknown };
type Component = (props: Props) => unknown;

class Markup {
  readonly isEscaped = true;
  constructor(readonly html: string) {}
  toString(): string {
    return this.html;
  }
}

/** HTML, void elements. */
const EMPTY = new Set("area base br col embed hr img input link meta source track wbr".split(" "));
/** HTML, boolean attributes: there or not. Others say "true" or "false". */
const THERE_OR_NOT = new Set(
  "allowfullscreen async autofocus autoplay checked controls default defer disabled download formnovalidate hidden inert ismap itemscope loop multiple muted nomodule novalidate open playsinline readonly required reversed selected".split(
    " ",
  ),
);

const UNSAFE = /[&<>'"]/;
const SAFE: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", "'": "&#39;", '"': "&quot;" };
const escaped = (text: string): string => (UNSAFE.test(text) ? text.replaceAll(/[&<>'"]/g, (letter) => SAFE[letter]!) : text);

function textOf(child: unknown): string {
  if (typeof child === "string") return escaped(child);
  if (child instanceof Markup) return child.html;
  if (child === null || child === undefined || typeof child === "boolean") return "";
  if (typeof child === "number") return String(child);
  if (!Array.isArray(child)) throw new TypeError("This is no part of a page.");
  let text = "";
  for (const each of child) text += textOf(each);
  return text;
}

export function jsx(tag: string | Component, props: Props): HtmlEscapedString {
  if (typeof tag === "function") return markup(textOf(tag(props)));
  let html = `<${tag}`;
  let inner = props.children;
  for (const name in props) {
    const value = props[name];
    if (name === "children" || value === null || value === undefined) continue;
    if (name === "dangerouslySetInnerHTML") inner = markup((value as { readonly __html: string }).__html) as Child;
    else if (typeof value === "boolean" && THERE_OR_NOT.has(name)) html += value ? ` ${name}=""` : "";
    else html += ` ${name}="${escaped(String(value))}"`;
  }
  return markup(EMPTY.has(tag) ? `${html}/>` : `${html}>${textOf(inner)}</${tag}>`);
}

const markup = (html: string) => new Markup(html) as unknown as HtmlEscapedString;

export const jsxs = jsx;
export const Fragment = ({ children }: Props): HtmlEscapedString => markup(textOf(children));
/** What tests are compiled to. */
export const jsxDEV = jsx;
