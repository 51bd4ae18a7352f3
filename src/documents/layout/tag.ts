/** Standard structure types (ISO 32000-1, 14.8.4) that the documents use. */
export type Role = "Document" | "H1" | "H2" | "P" | "Sect" | "Table" | "TR" | "TH" | "TD" | "Figure";

/** What a text is, in reading order, for readers that do not look at the page. Content on a page refers to its tag. */
export class Tag {
  readonly kids: (Tag | { readonly page: number; readonly mark: number })[] = [];
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
