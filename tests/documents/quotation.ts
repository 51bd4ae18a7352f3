/** Reads a quotation back with a parser, every element under its bare name, every text as it stands. */
import { XMLParser } from "fast-xml-parser";

const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: "@",
  removeNSPrefix: true,
  parseTagValue: false,
  parseAttributeValue: false,
  trimValues: false,
  alwaysCreateTextNode: true,
  isArray: (_name, _path, _leaf, attribute) => !attribute,
});

type Tree = { readonly [name: string]: readonly Tree[] | string };

/** An element; a path is element names with '/' between them, each taking the first of its name. */
export class Element {
  readonly #tree: Tree;

  constructor(tree: Tree) {
    this.#tree = tree;
  }

  all(path: string): Element[] {
    const [name = "", ...rest] = path.split("/");
    const found = (this.#tree[name] ?? []) as readonly Tree[];
    return rest.length === 0 ? found.map((tree) => new Element(tree)) : (this.one(name)?.all(rest.join("/")) ?? []);
  }

  one(path: string): Element | undefined {
    return this.all(path)[0];
  }

  has(path: string): boolean {
    return this.one(path) !== undefined;
  }

  /** '' where there is no such element. */
  text(path?: string): string {
    const element = path === undefined ? this : this.one(path);
    return element ? String(element.#tree["#text"] ?? "") : "";
  }
}

export const read = (xml: string): Element => new Element(parser.parse(xml) as Tree).one("Quotation")!;
