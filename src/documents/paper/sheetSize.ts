/** Lengths in points, 1/72 inch. ISO 216 A4 and US Letter. */
export interface SheetSize {
  readonly width: number;
  readonly height: number;
  readonly side: number;
  readonly top: number;
  readonly bottom: number;
  /** Height of the running head, on every sheet but the first. */
  readonly head: number;
}

const MARGINS = { side: 46, top: 40, bottom: 52, head: 26 };

export const SHEETS: Readonly<Record<"A4" | "Letter", SheetSize>> = {
  A4: { width: 595.28, height: 841.89, ...MARGINS },
  Letter: { width: 612, height: 792, ...MARGINS },
};
