/** How a draft is put on paper: the owner's address on it, its photos and the shop's logo in it. */
import type { Context } from "hono";
import type { Before, Press } from "../../acts/issue.js";
import type { Earlier } from "../../documents/estimate/earlier.js";
import { unprintable } from "../../documents/estimate/spelling.js";
import { estimatePdf } from "../../documents/estimatePdf.js";
import type { AppEnv } from "../bindings.js";
import { logoOf } from "../doors/logo.js";
import { photosOnPaper } from "../photos/onPaper.js";

export const press = (c: Context<AppEnv>): Press => ({
  ...(c.var.publicOrigin && { address: (fragment) => ownerAddress(c, fragment) }),
  print: async (sheet, input, before, photos) => {
    const { paperwork = {} } = input;
    const shown = await photosOnPaper(c, photos, paperwork.photos);
    if (!shown.ok) return { unfit: shown.faults.map(({ text }) => text).join(" ") };
    const options = { earlier: before && earlierOf(before), logo: await logoOf(c.var.db, paperwork), photos: shown.pictures };
    const { bytes, warnings } = await estimatePdf(sheet, input, options);
    return { bytes, unprintable: unprintable(input, warnings) };
  },
});

/** With what its paper calls it. */
export function earlierOf(before: Before): Earlier {
  const { number, revision, date } = before.input.paperwork ?? {};
  return { ...before, number, revision, date };
}

/** The secret stands after the #, so that no server, log or referrer is ever told it. Only where a link can be made. */
export const ownerAddress = (c: Context<AppEnv>, fragment: string): string => `${c.var.publicOrigin}/o#${fragment}`;
