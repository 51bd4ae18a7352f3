import fc from "fast-check";
import { jsx as honos } from "hono/jsx/jsx-runtime";
import { describe, expect, it } from "vitest";
import { Fragment, jsx } from "../../src/pages/frame/jsx-runtime.js";

/** A page as data: made of text, numbers, what shows nothing, lists, and elements with attributes. */
type Tree = string | number | boolean | null | undefined | readonly Tree[] | { readonly tag: string; readonly props: Props };
type Props = { readonly [name: string]: unknown; readonly children?: Tree };

const text = fc.string({ unit: fc.constantFrom("a", "Ω", "<", ">", "&", '"', "'", " ", "/", "\u0000", "\ud800", "😀") });
const value = fc.oneof(text, fc.integer(), fc.double(), fc.boolean(), fc.constantFrom(null, undefined));
const name = fc.constantFrom("class", "id", "href", "hidden", "checked", "aria-current", "tabindex", "data-x", "value", "open");
const { tree } = fc.letrec<{ tree: Tree }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    value as fc.Arbitrary<Tree>,
    fc.array(tie("tree"), { maxLength: 4 }),
    fc
      .tuple(fc.constantFrom("p", "td", "input", "br", "section", "button"), fc.dictionary(name, value), tie("tree"))
      .map(([tag, props, children]) => ({ tag, props: tag === "input" || tag === "br" ? props : { ...props, children } })),
  ),
}));

const made = (one: Tree, by: (tag: string, props: never) => unknown): unknown => {
  if (Array.isArray(one)) return one.map((each: Tree) => made(each, by));
  if (typeof one !== "object" || one === null) return one;
  const { tag, props } = one as { readonly tag: string; readonly props: Props };
  return by(tag, ("children" in props ? { ...props, children: made(props.children, by) } : props) as never);
};

describe("JSX as text", () => {
  it("is what hono/jsx makes of it", () => {
    const by = (maker: unknown) => (one: Tree) => String(made({ tag: "main", props: { children: one } }, maker as never));
    const [ours, theirs] = [by(jsx), by(honos)];
    fc.assert(
      fc.property(tree, (one) => {
        expect(ours(one)).toBe(theirs(one));
      }),
    );
  });

  it("hands a component what stands in it, once, and shows nothing for nothing", () => {
    const Twice = ({ children, say }: { readonly children?: unknown; readonly say: string }) => (
      <>
        <b title={say}>{children as string}</b>
        {say}
      </>
    );
    const Nothing = () => null;
    expect(String(<Twice say={'"<'}>&lt;{1}</Twice>)).toBe('<b title="&quot;&lt;">&lt;1</b>&quot;&lt;');
    expect(String(<Nothing />)).toBe("");
    expect(String(Fragment({ children: ["<", <i>x</i>] }))).toBe("&lt;<i>x</i>");
    expect(String(<div dangerouslySetInnerHTML={{ __html: "<p>as it is</p>" }} />)).toBe("<div><p>as it is</p></div>");
  });

  it("refuses what is no part of a page, and does not take text for markup because it says so", () => {
    for (const other of [Promise.resolve("x"), { isEscaped: true, html: "<b>" }, () => "x"])
      expect(() => jsx("p", { children: other as never })).toThrow(TypeError);
  });
});
