import { profileOf } from "../../estimating/agreement/profile.js";
import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import { accountNotices, oldPartsText, warrantyText } from "../../wording/account.js";
import type { Subject } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";

/** Warranty, the parts that came out, and what the agreement profile has the bill say. */
export function stands({ tongue, input, words }: Subject, { warranty, oldParts }: FinalAccount): Block[] {
  const notices = accountNotices(profileOf(input.policy?.profile), tongue);
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: words.account.paper.warrantyAndParts },
        { is: "paragraph", text: warrantyText(warranty, tongue) },
        { is: "paragraph", text: oldPartsText(oldParts, tongue) },
        ...notices.map((text): Block => ({ is: "paragraph", small: true, text })),
        { is: "paragraph", small: true, text: words.account.paper.yourRights },
      ],
    },
  ];
}
