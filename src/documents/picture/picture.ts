/** A picture as documents carry it: checked, without transparency, and without anything but its pixels. */
export interface Picture {
  readonly kind: "png" | "jpeg";
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly bytes: Uint8Array;
}

/** A photo as it is kept. */
export interface PhotoRead {
  readonly mime: "image/jpeg" | "image/png" | "image/webp";
  /** Pixels as stored. */
  readonly width: number;
  readonly height: number;
  /** 1 to 8 as in Exif 2.32, tag Orientation. */
  readonly turn: number;
  /** The file without what was taken out. */
  readonly bytes: Uint8Array;
}

export const LARGEST_SIDE = 2000;

export type PictureFault =
  /** Neither PNG nor JPEG, by how it begins. */
  | { readonly is: "not a picture" }
  | { readonly is: "too many pixels"; readonly width: number; readonly height: number }
  /** A PNG drawn in passes: a PDF cannot carry it as it is. */
  | { readonly is: "interlaced" }
  /** JPEG of a kind that printers' software does not read. */
  | { readonly is: "unusual" }
  | { readonly is: "damaged" };

export const isFault = (read: Picture | PictureFault): read is PictureFault => "is" in read;

export const tooManyPixels = (width: number, height: number): PictureFault | undefined =>
  width > LARGEST_SIDE || height > LARGEST_SIDE ? { is: "too many pixels", width, height } : undefined;

/** The largest size, in points, that keeps the proportions within a box; never larger than one pixel a point. */
export function fitWithin(
  { width, height }: Pick<Picture, "width" | "height">,
  box: { readonly width: number; readonly height: number },
) {
  const scale = Math.min(1, box.width / width, box.height / height);
  return { width: width * scale, height: height * scale };
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
