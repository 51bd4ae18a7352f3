import { PDFObject } from "pdf-lib";

/** A PDF object given as the text it is written as; for the many small objects that are never read back. ASCII only. */
export class Written extends PDFObject {
  readonly #text: string;

  constructor(text: string) {
    super();
    this.#text = text;
  }

  override clone(): Written {
    return this;
  }

  override toString(): string {
    return this.#text;
  }

  override sizeInBytes(): number {
    return this.#text.length;
  }

  override copyBytesInto(buffer: Uint8Array, offset: number): number {
    for (let at = 0; at < this.#text.length; at += 1) buffer[offset + at] = this.#text.charCodeAt(at);
    return this.#text.length;
  }
}
