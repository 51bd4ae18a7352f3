import { profileOf } from "../../estimating/agreement/profile.js";
import { profileNotices } from "../../wording/profile.js";
import type { Block } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** What the agreement profile has the owner told; the last one says that it is no legal advice. */
export function notices({ input, sheet, tongue, words }: Subject): Block[] {
  const texts = profileNotices(profileOf(input.policy?.profile), input, sheet, tongue);
  if (texts.length === 0) return [];
  return [{ is: "heading", text: words.paper.agreement.notices }, ...texts.map((text): Block => ({ is: "paragraph", text }))];
}
