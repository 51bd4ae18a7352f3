/** In which language an owner's papers are written, and on which paper the open draft is printed. What is issued already stays as it is. */
import { z } from "zod";
import { owners } from "../records/owners.js";
import { LANGUAGES } from "../wording/tongue.js";
import { act, refused } from "./act.js";
import { changedMeanwhile, reconciled, saysAny } from "./draft.js";
import { choice, maybe, saying } from "./field.js";
import { withPaperwork } from "./paperwork.js";
import { language, locale } from "./shapes/estimateInput.js";

const papers = {
  language: maybe(saying(language, { label: "Language", kind: "choice", choices: LANGUAGES })),
  locale: maybe(saying(locale, { label: "Language tag for figures and dates", kind: "line" })),
  paper: maybe(choice("Paper", ["A4", "Letter"])),
};

export const choosePapers = act({
  name: "choosePapers",
  title: "Language and paper",
  /** `was`: as the sender's form was drawn. */
  fields: z.strictObject({ ...papers, was: maybe(z.strictObject(papers)) }),
  answer: z.strictObject({}),
  decide: async (desk, { was = {}, paper, ...tongue }, { job: id }: { readonly job: string }) => {
    const job = await desk.job(id);
    if (!job) return refused("not found", { detail: "There is no such job." });
    const { owner, draft } = job;
    const said = reconciled<typeof tongue>(pick(owner), ["language", "locale"], tongue, was);
    const onPaper = draft?.input.paperwork?.paper;
    const printed = reconciled<{ paper?: string }>(
      { ...(onPaper && { paper: onPaper }) },
      draft ? ["paper"] : [],
      { ...(paper && { paper }) },
      { paper: was.paper },
    );
    const clashes = [...said.clashes.map((key) => [key, owner[key]]), ...printed.clashes.map((key) => [key, onPaper])];
    if (clashes.length > 0)
      return refused("version moved", { errors: clashes.map(([key, stands]) => changedMeanwhile(`/${key}`, stands)) });
    return {
      answer: {},
      writes: [
        ...(saysAny(said.keys) ? [owners.changed(desk.db, owner, said.keys, desk.at).write] : []),
        ...(draft && saysAny(printed.keys) ? [(await withPaperwork(desk, job, draft, { paper })).write] : []),
      ],
    };
  },
});

const pick = ({ language, locale }: { readonly language?: string; readonly locale?: string }) => ({
  ...(language && { language }),
  ...(locale && { locale }),
});
