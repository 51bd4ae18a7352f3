/** The demo shop with one job lived in, of this test's own. */
import { madeOnce } from "../../http/support/madeOnce.js";
import { demoFile, shop } from "../../http/support/shop.js";
import { livedIn } from "./livedIn.js";

export const livedInFile = madeOnce((db) => livedIn(db), demoFile);

export async function livedInShop(options: Parameters<typeof shop>[0] = {}) {
  const { path, made } = await livedInFile();
  return { ...(await shop(options, path)), story: made };
}
