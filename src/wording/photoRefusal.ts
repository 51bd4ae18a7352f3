/** Why a photo is not taken, or not printed: what is wrong and what to do. */

export const PHOTO_LIMITS = {
  /** Bytes of one photo. */
  bytes: 8 * 1024 * 1024,
  /** Width times height: what a browser can show without trouble. */
  pixels: 40_000_000,
  /** Bytes of one photo, and of all, in one PDF that is kept in the database and sent to owners. */
  onPaper: 3 * 1024 * 1024,
  onPaperTogether: 6 * 1024 * 1024,
  /** Pixels a side of one photo in a PDF. */
  paperSide: 2000,
  onPaperCount: 12,
  /** Nobody looks through more, and each is stored. */
  ofJob: 200,
} as const;

export type PhotoRefusal =
  | { readonly is: "photo missing" }
  | { readonly is: "photo unreadable" }
  | { readonly is: "photo cut short" }
  | { readonly is: "photo too large"; readonly bytes: number }
  | { readonly is: "photo has too many pixels"; readonly width: number; readonly height: number }
  | { readonly is: "too many photos"; readonly most: number }
  | { readonly is: "photo too large for paper"; readonly bytes: number }
  | { readonly is: "photo too wide for paper"; readonly width: number; readonly height: number }
  | { readonly is: "photo of no kind for paper" }
  | { readonly is: "photos too large together"; readonly bytes: number }
  | { readonly is: "photo lost" };

const megabytes = (bytes: number): string => `${Math.ceil((bytes / (1024 * 1024)) * 10) / 10} MB`;

type Say = { readonly [N in PhotoRefusal["is"]]: (refusal: Extract<PhotoRefusal, { is: N }>) => string };

const SAY: Say = {
  "photo missing": () => "no photo was chosen; choose one or more files.",
  "photo unreadable": () => "this is no JPEG, PNG or WebP picture, whatever its name says; save it as JPEG and choose it again.",
  "photo cut short": () =>
    "the file ends before the picture does; it was cut short on its way. Copy it again and choose it once more.",
  "photo too large": ({ bytes }) =>
    `it has ${megabytes(bytes)}, and ${megabytes(PHOTO_LIMITS.bytes)} is the most; make it smaller, or choose it where scripts may run: the page then does it.`,
  "photo has too many pixels": ({ width, height }) =>
    `it is ${width} by ${height} pixels, and ${PHOTO_LIMITS.pixels / 1_000_000} million is the most; make it smaller.`,
  "too many photos": ({ most }) => `${most} is the most; take some out first.`,
  "photo too large for paper": ({ bytes }) =>
    `it has ${megabytes(bytes)}, and ${megabytes(PHOTO_LIMITS.onPaper)} is the most in a PDF; add it again where scripts may run: the page makes it smaller.`,
  "photo too wide for paper": ({ width, height }) =>
    `it is ${width} by ${height} pixels, and ${PHOTO_LIMITS.paperSide} a side is the most in a PDF; add it again where scripts may run: the page makes it smaller.`,
  "photo of no kind for paper": () => "a PDF cannot carry a picture of this kind; save it as an ordinary JPEG and add it again.",
  "photos too large together": ({ bytes }) =>
    `together they have ${megabytes(bytes)}, and ${megabytes(PHOTO_LIMITS.onPaperTogether)} is the most in a PDF; choose fewer.`,
  "photo lost": () => "its file is not where photos are kept; untick it, or put the folder or bucket back.",
};

/** `name`: the file, or what the photo shows. */
export const photoRefusalText = (refusal: PhotoRefusal, name: string): string =>
  `${name}: ${(SAY[refusal.is] as (refusal: PhotoRefusal) => string)(refusal)}`;
