/** In which language an owner's papers are written, and what the open draft says first, in how much detail, on which paper. What is issued already stays as it is. */
import { z } from "zod";
import { same } from "../estimating/agreement/canonical.js";
import type { Paperwork } from "../estimating/input.js";
import { PAPER_DETAILS } from "../estimating/lists.js";
import type { Kept } from "../records/columns.js";
import type { Keys } from "../records/noun.js";
import { owners } from "../records/owners.js";
import { type Settings, settings as shopRow } from "../records/settings.js";
import type { Write } from "../records/trail.js";
import { LANGUAGES, languageOf } from "../wording/tongue.js";
import { act, type Desk, refused } from "./act.js";
import { changedMeanwhile, reconciled, saysAny } from "./draft.js";
import { choice, line, maybe, note, saying, several, tick } from "./field.js";
import { withPaperwork } from "./paperwork.js";
import { language, locale, MOST_PACKAGES, summary } from "./shapes/estimateInput.js";

const papers = {
  language: maybe(saying(language, { label: "Language", kind: "choice", choices: LANGUAGES })),
  locale: maybe(saying(locale, { label: "Language tag for figures and dates", kind: "line" })),
  summary: maybe(
    saying(summary, {
      label: "What is wrong, and what you will do",
      kind: "note",
      hint: "Two sentences for the owner, in plain words. They stand first on the estimate and on the owner's page.",
    }),
  ),
  detail: maybe(choice("How much the estimate shows", PAPER_DETAILS)),
  paper: maybe(choice("Paper", ["A4", "Letter"])),
};
const packages = maybe(
  z.array(z.strictObject({ name: maybe(line("Name", { most: 60 })), options: maybe(several("Options")) })).max(MOST_PACKAGES),
);
const MOST_NAMES = 500;
/** The shop's own names, as they are called in the language that the owner's papers are in. */
const names = maybe(
  z
    .array(z.strictObject({ text: note("As it stands"), said: maybe(note("In the owner's language")) }))
    .max(MOST_NAMES)
    .meta({ description: "Kept for every later paper in that language; one without a text is forgotten" }),
);
const namesRight = maybe(tick("The names left empty are right as they stand"));
const OF_DRAFT = ["summary", "detail", "paper"] as const;
type Called = readonly { readonly text: string; readonly said?: string | undefined }[];
type OfDraft = { readonly [K in (typeof OF_DRAFT)[number]]?: string };

export const choosePapers = act({
  name: "choosePapers",
  title: "What the owner gets",
  /** `was`: as the sender's form was drawn. */
  fields: z.strictObject({ ...papers, packages, names, namesRight, was: maybe(z.strictObject(papers)) }),
  answer: z.strictObject({}),
  decide: async (
    desk,
    { was = {}, packages: sets = [], names: called = [], namesRight: right, ...value },
    { job: id }: { readonly job: string },
  ) => {
    const job = await desk.job(id);
    if (!job) return refused("not found", { detail: "There is no such job." });
    const { owner, draft, settings } = job;
    const tongue = pick(value);
    const said = reconciled<typeof tongue>(pick(owner), ["language", "locale"], tongue, was);
    const stands = onPaper(draft?.input.paperwork ?? {});
    const printed = reconciled<OfDraft>(stands, draft ? OF_DRAFT : [], onPaper(value), onPaper(was));
    const clashes = [
      ...said.clashes.map((key) => [key, owner[key]] as const),
      ...printed.clashes.map((key) => [key, stands[key]] as const),
    ];
    if (clashes.length > 0)
      return refused("version moved", { errors: clashes.map(([key, now]) => changedMeanwhile(`/${key}`, now)) });
    const named = sets.flatMap(({ name, options = [] }) => (name === undefined ? [] : [{ name, options }]));
    const changes = {
      ...(printed.keys as Pick<Paperwork, keyof OfDraft>),
      ...(draft && !same(named, draft.input.paperwork?.packages ?? []) && { packages: named.length > 0 ? named : undefined }),
    };
    return {
      answer: {},
      writes: [
        ...(saysAny(said.keys) ? [owners.changed(desk.db, owner, said.keys, desk.at).write] : []),
        ...callingWrites(
          desk,
          settings,
          languageOf(owner.language ?? settings.language),
          right ? called.map(asItStands) : called,
        ),
        ...(draft && saysAny(changes) ? [(await withPaperwork(desk, job, draft, changes)).write] : []),
      ],
    };
  },
});

const asItStands = ({ text, said }: Called[number]) => ({ text, said: said ?? text });

/** In the language the form was drawn in: one chosen beside them is another's. */
function callingWrites({ db, at }: Desk, settings: Settings & Kept, language: string, called: Called): readonly Write[] {
  const before = settings.names?.[language] ?? {};
  const after = Object.fromEntries(
    Object.entries({ ...before, ...Object.fromEntries(called.map(({ text, said }) => [text, said])) }).filter(([, said]) => said),
  );
  return same(before, after)
    ? []
    : [shopRow.changed(db, settings, { names: { ...settings.names, [language]: after } } as Keys<Settings>, at).write];
}

const onPaper = (paperwork: OfDraft): OfDraft =>
  Object.fromEntries(OF_DRAFT.flatMap((key) => (paperwork[key] === undefined ? [] : [[key, paperwork[key]]])));

const pick = ({ language, locale }: { readonly language?: string; readonly locale?: string }) => ({
  ...(language && { language }),
  ...(locale && { locale }),
});
