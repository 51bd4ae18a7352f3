/** Standard structure types (ISO 32000-1, 14.8.4) that the documents use. */
type Role =
  | "Document"
  | "Sect"
  | "H1"
  | "H2"
  | "P"
  | "Span"
  | "Link"
  | "L"
  | "LI"
  | "Lbl"
  | "LBody"
  | "Table"
  | "TR"
  | "TH"
  | "TD"
  | "Figure";

/** Marked content of a page, by number. */
interface Marked {
  readonly page: number;
  readonly mark: number;
}

/** A link of a page, by number. */
interface Linked {
  readonly page: number;
  readonly link: number;
}

export interface TagFacts {
  /** What a picture shows. */
  readonly alternative?: string;
  /** What a head of a table is the head of. */
  readonly scope?: "Row" | "Column";
  /** How many columns a cell takes; 1 when absent. */
  readonly span?: number;
}

/** What a text is, in reading order, for readers that do not look at the page. Content on a page refers to its tag. */
export class Tag {
  readonly kids: (Tag | Marked | Linked)[] = [];
  readonly role: Role;
  readonly facts: TagFacts;
  /** Left, bottom, right and top of what a figure covers of its page, in points. */
  box: readonly [number, number, number, number] | undefined;

  constructor(role: Role, facts: TagFacts = {}) {
    this.role = role;
    this.facts = facts;
  }

  add(role: Role, facts?: TagFacts): Tag {
    const kid = new Tag(role, facts);
    this.kids.push(kid);
    return kid;
  }

  enclose(left: number, bottom: number, right: number, top: number): void {
    const [l, b, r, t] = this.box ?? [left, bottom, right, top];
    this.box = [Math.min(l, left), Math.min(b, bottom), Math.max(r, right), Math.max(t, top)];
  }
}
