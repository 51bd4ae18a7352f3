/** An answer given elsewhere than on the owner's page, put on record by the shop; or a correction of one that is. */
import { z } from "zod";
import { ANSWERS_GIVEN } from "../records/agreements.js";
import { spokenFieldText } from "../wording/agreement.js";
import { act, refused } from "./act.js";
import { answered, previewed } from "./answered.js";
import { choice, hand, line, maybe, money, note, several, tick } from "./field.js";
import { handOf } from "./hand.js";
import { agreementPreview, keptAgreement } from "./shapes/agreements.js";

const YOUR_NAME = "Your name";

/** All may be absent: what is missing is named by the rule that wants it. */
const spoken = z.strictObject({
  date: maybe(line(spokenFieldText("date"), { most: 40 })),
  time: maybe(line(spokenFieldText("time"), { hint: "Such as 14:30, where the shop is" })),
  authoriser: maybe(line(spokenFieldText("authoriser"))),
  numberCalled: maybe(line(spokenFieldText("numberCalled"), { hint: "Or how they were reached" })),
  receiver: maybe(line(spokenFieldText("receiver"), { hint: "Who at the shop heard it" })),
  conditions: maybe(line(spokenFieldText("conditions"))),
  extraPartsAndLabour: maybe(note(spokenFieldText("extraPartsAndLabour"))),
  additionalCost: maybe(money(spokenFieldText("additionalCost"))),
});

const asked = {
  answer: choice("Answer", ANSWERS_GIVEN),
  chosen: maybe(several("Options taken", { most: 2000 })),
  struck: maybe(several("Work left out", { most: 2000 })),
  contentHash: maybe(line("Content hash of the revision that was seen", { most: 100 })),
};

const fields = z
  .strictObject({
    ...asked,
    by: line("Who answered", { most: 200 }),
    channel: choice("How it was given", ["in person", "telephone", "e-mail"]),
    recordedBy: hand(YOUR_NAME),
    amount: maybe(
      money("Total the owner agreed to", { hint: "As it was told, tax included; it is held against what is ticked." }),
    ),
    spoken: maybe(
      spoken.meta({
        id: "SpokenAgreement",
        description: "When it was said, and by whom to whom; the rest where the law profile asks for it, as 16 CCR 2722(a) does",
      }),
    ),
    writing: maybe(
      line("Which writing it rests on", { hint: "Such as: the estimate, signed at the counter; e-mail of 25 November, 10:12" }),
    ),
    afterEnd: maybe(tick("Keep the shop's word, though the offer had ended")).meta({
      description:
        "Without it an agreement given after the last day of the offer is refused; a correction that agrees to the same and tells no day has the day of the record it corrects",
    }),
    corrects: maybe(line("The record it corrects", { most: 100 })),
    reason: maybe(line("Why the record is corrected")),
  })
  .meta({ id: "Agreement" });

export const recordAnswer = act({
  name: "addAgreement",
  title: "Record an answer",
  fields,
  answer: keptAgreement,
  decide: async (
    desk,
    { recordedBy, chosen = [], struck = [], amount, ...value },
    { estimate }: { readonly estimate: string },
  ) => {
    const who = handOf(desk, recordedBy, YOUR_NAME, "/recordedBy");
    if ("refused" in who) return who;
    const job = await desk.job({ estimate });
    if (!job) return NO_ESTIMATE;
    const heard = spokenOf(value, who.by);
    const given = { ...value, estimateId: estimate, chosen, struck, shown: amount, recordedBy: who.by, spoken: heard };
    return answered(desk, job, given);
  },
});

/** Writes nothing. */
export const previewAnswer = act({
  name: "previewAgreement",
  title: "What an answer would agree to, and in which words, before it is given",
  fields: z.strictObject(asked),
  answer: agreementPreview,
  decide: async (desk, { chosen = [], struck = [], ...value }, { estimate }: { readonly estimate: string }) => {
    const job = await desk.job({ estimate });
    return job ? previewed(job, { ...value, estimateId: estimate, chosen, struck }) : NO_ESTIMATE;
  },
});

const NO_ESTIMATE = refused("not found", { detail: "There is no such estimate." });

/** Who agreed and who heard it are who answered and who records it, unless others are named; a signed paper stands for itself. */
function spokenOf(
  { by, channel, writing, answer, spoken: said }: Omit<z.output<typeof fields>, "chosen" | "struck">,
  receiver: string,
) {
  const heard = channel === "telephone" || (channel === "in person" && !writing);
  // A refusal needs no particulars; those that were given are kept.
  const told = answer !== "declined" || said?.date !== undefined || said?.time !== undefined;
  return heard && told ? { authoriser: by, receiver, ...said } : undefined;
}
