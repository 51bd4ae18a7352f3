/** Standard structure types (ISO 32000-1, 14.8.4) that the documents use. */
export type Role = "Document" | "H1" | "H2" | "P" | "Sect" | "Table" | "TR" | "TH" | "TD" | "Figure" | "Span" | "Link";

/** Marked content of a page, by number. */
export interface Marked {
  readonly page: number;
  readonly mark: number;
}

/** A link of a page, by number. */
export interface Linked {
  readonly page: number;
  readonly link: number;
}

/** What a text is, in reading order, for readers that do not look at the page. Content on a page refers to its tag. */
export class Tag {
  readonly kids: (Tag | Marked | Linked)[] = [];
  readonly role: Role;
  /** What a picture shows. */
  readonly alternative: string | undefined;

  constructor(role: Role, alternative?: string) {
    this.role = role;
    this.alternative = alternative;
  }

  add(role: Role, alternative?: string): Tag {
    const kid = new Tag(role, alternative);
    this.kids.push(kid);
    return kid;
  }
}
