/** The owner's answer, given on the page that a link opens. */
import { z } from "zod";
import { ANSWERS_GIVEN } from "../records/agreements.js";
import type { OwnerLink } from "../records/ownerLinks.js";
import { act, refused, wrongField } from "./act.js";
import { answered, isBegun } from "./answered.js";
import { choice, line, maybe, several, whole } from "./field.js";
import { keptAgreement } from "./shapes/agreements.js";

const MOST = 1_000_000_000_000;

/** Where an owner is: the link they came by, the revision they look at, and what is told of their browser. */
export interface Visiting {
  readonly link: OwnerLink;
  readonly estimate: string;
  readonly address?: string | undefined;
  readonly agent?: string | undefined;
}

export const answerByLink = act({
  name: "answerByLink",
  title: "Answer",
  fields: z.strictObject({
    answer: choice("Your answer", ANSWERS_GIVEN),
    name: line("Your full name", { most: 200, hint: "It stands for your signature." }),
    /** Minor units, as the page carries them. */
    amount: maybe(whole("The price shown", { least: -MOST, most: MOST })),
    chosen: maybe(several("Options taken", { most: 2000 })),
    struck: maybe(several("Work left out", { most: 2000 })),
    hash: line("What was shown", { most: 100 }),
    /** Whether work had begun as the page was shown: the words of a refusal go by it. */
    begun: maybe(choice("Begun", ["no", "yes"])),
  }),
  answer: keptAgreement,
  decide: async (
    desk,
    { answer, name, amount, chosen = [], struck = [], hash, begun },
    { link, estimate, ...about }: Visiting,
  ) => {
    const job = await desk.job(link.jobId);
    if (!job) return refused("not found", { detail: "This link opens no such revision." });
    if (answer !== "declined" && amount === undefined)
      return wrongField("/amount", "key missing", "The page did not say which price it showed; look at it again, then answer.");
    if (answer === "declined" && begun !== undefined && (begun === "yes") !== isBegun(job)) return refused("content differs");
    const shown = answer === "declined" ? undefined : amount;
    const given = { answer, by: name, shown, chosen, struck, contentHash: hash, estimateId: estimate };
    const decided = await answered(desk, job, { ...given, channel: "page", link, ...about });
    if (!("refused" in decided)) return decided;
    // The record that stands in the way holds what is the shop's.
    const { current: _, ...told } = decided.refused;
    return { refused: told };
  },
});
