import { profileOf } from "../../estimating/agreement/profile.js";
import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import { accountNotices, oldPartsText, warrantyText } from "../../wording/index.js";
import type { Subject } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";

/** Warranty, the parts that came out, and what the agreement profile has the bill say. */
export function stands({ tongue, input }: Subject, { warranty, oldParts }: FinalAccount): Block[] {
  const notices = accountNotices(profileOf(input.policy?.profile));
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: "Warranty and parts" },
        { is: "paragraph", text: warrantyText(warranty, tongue) },
        { is: "paragraph", text: oldPartsText(oldParts) },
        ...notices.map((text): Block => ({ is: "paragraph", small: true, text })),
        { is: "paragraph", small: true, text: "Your rights under local consumer law stand beside what is said here." },
      ],
    },
  ];
}
