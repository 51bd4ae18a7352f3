/** A picture as documents carry it: checked, without transparency, and without anything but its pixels. */
export interface Picture {
  readonly kind: "png" | "jpeg";
  /** Pixels. */
  readonly width: number;
  readonly height: number;
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

export const tooManyPixels = (width: number, height: number): PictureFault | undefined =>
  width > LARGEST_SIDE || height > LARGEST_SIDE ? { is: "too many pixels", width, height } : undefined;

export const isFault = (read: Picture | PictureFault): read is PictureFault => "is" in read;

/** The largest size, in points, that keeps the proportions within a box; never larger than one pixel a point. */
export function fitWithin(
  { width, height }: Pick<Picture, "width" | "height">,
  box: { readonly width: number; readonly height: number },
) {
  const scale = Math.min(1, box.width / width, box.height / height);
  return { width: width * scale, height: height * scale };
}
