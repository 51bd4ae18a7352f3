/**
 * A draft is issued: frozen with the paperwork it goes out with and the facts of unit and visit as they stand, printed, and the very bytes
 * kept. The address and the code on the paper are secrets, so they stand in the PDF only and not in the input that is kept.
 */
import { z } from "zod";
import type { Revision } from "../estimating/agreement/rowChanges.js";
import type { EstimateInput, Minor } from "../estimating/input.js";
import { profileOf } from "../estimating/law/profiles.js";
import { type Unready, unready } from "../estimating/law/unready.js";
import type { Sheet } from "../estimating/sheet.js";
import { type Estimate, estimates, priced } from "../records/estimates.js";
import { type Issue, issuesTable } from "../records/issues.js";
import { tellingOf } from "../records/keptOnce.js";
import { type LinkSecret, newLink } from "../records/newLink.js";
import { ownerLinksTable } from "../records/ownerLinks.js";
import { sha256 } from "../records/sha256.js";
import { unprintableText } from "../wording/letters.js";
import { unreadyText } from "../wording/profile.js";
import { day as dayText } from "../wording/time.js";
import { act, refused } from "./act.js";
import { heldAgainst } from "./compared.js";
import { engineFaults, type Fault } from "./fault.js";
import { line, maybe, note, tick, whole } from "./field.js";
import { handOf } from "./hand.js";
import type { JobAsItStands } from "./job.js";
import { partsFitted } from "./logWork.js";
import { depositSettled, owed } from "./owed.js";
import { paperworkOf } from "./paperwork.js";
import { heldBack, type OnRecord } from "./record.js";
import { LINK_DAYS } from "./settings.js";
import { keptEstimate } from "./shapes/resources.js";

export const ON_PAPER = "on paper";
const NAME = "Your name";

/** What this one is to take the place of, what was paid by then, whether work began on a deposit that was, and whose parts are fitted. */
export interface Before extends Revision {
  readonly paid: Minor;
  readonly begun: boolean;
  readonly fitted: readonly string[];
}

export function beforeOf(job: JobAsItStands, revision: number): Before | undefined {
  const replaced = heldAgainst(job, revision);
  return replaced && { ...replaced, paid: owed(job).paid, begun: depositSettled(job), fitted: partsFitted(job) };
}

/** How it is put on paper. */
export interface Press {
  /** The whole address of the owner's page, from what stands after its #; absent: owners cannot reach it, so no link is made. */
  readonly address?: (fragment: string) => string;
  readonly print: (
    sheet: Sheet,
    input: EstimateInput,
    before: Before | undefined,
    photos: JobAsItStands["photos"],
  ) => Promise<Printed | { readonly unfit: string }>;
}

export interface Printed {
  readonly bytes: Uint8Array;
  /** Texts in letters that the fonts lack, by JSON pointer into the input. */
  readonly unprintable?: readonly { readonly pointer: string; readonly text: string; readonly characters: readonly string[] }[];
}

export interface IssuedDraft {
  readonly record: Estimate;
  readonly issue: Issue;
  /** Absent: given on paper without a link. */
  readonly secret?: LinkSecret;
}

const fields = z
  .strictObject({
    by: maybe(line(NAME, { most: 200 })),
    deliveredTo: maybe(
      line("Where the link goes", { most: 200, hint: "An e-mail address or a telephone number; empty: on paper." }).meta({
        description: "Where the paper with its link goes; 'on paper' when absent",
      }),
    ),
    linkDays: maybe(
      whole("Days the link opens", LINK_DAYS).meta({ description: "Days the link lives; as the settings say when absent" }),
    ),
    why: maybe(z.array(z.strictObject({ item: line("Work", { most: 100 }), reason: maybe(line("Why")) })).max(500)).meta({
      description: "Why work was dropped or corrected, for the owner to read; as the draft says it when absent",
    }),
    spellings: maybe(z.array(z.strictObject({ text: note("As it stands"), latin: maybe(line("On the paper")) })).max(200)).meta({
      description: "How texts in letters that the fonts lack are spelled on paper; beside those the draft has",
    }),
    marks: maybe(tick("Issue it with a mark in place of each letter that cannot be printed")).meta({
      description: "Print a mark in place of each letter that the fonts lack; without it such a draft is refused",
    }),
  })
  .meta({ id: "Issue" });

export const issueEstimate = act({
  name: "issueEstimate",
  title: "Issue a draft: it then never changes, and its PDF is kept",
  fields,
  answer: keptEstimate,
  decide: async (desk, said, { id, seen, address, print }: OnRecord & Press) => {
    const { db, at, now } = desk;
    const job = await desk.job({ estimate: id });
    const draft = job?.revision(id);
    if (draft?.issuedAt) return refused("estimate issued", { ...issuedAlready(draft), headers: { etag: `"${draft.version}"` } });
    // It was decided once before: an answer that came meanwhile is read first, and the draft may have taken it.
    const before = await desk.before?.({ estimate: id });
    if (before && job && before.answers.length !== job.answers.length) return refused("owner answered");
    const held = heldBack("estimate", draft, seen);
    if (held || !job || !draft) return { refused: held! };
    const { deliveredTo = ON_PAPER, linkDays = job.settings.linkDays } = said;
    if (!address && (deliveredTo !== ON_PAPER || said.linkDays !== undefined)) return refused("no public address");
    if (job.closedOn)
      return refused("job closed", {
        detail: `The job was closed on ${dayText(job.closedOn, job.tongue.locale)}; a new fault of this unit is a new job.`,
      });
    const hand = handOf(desk, said.by, NAME);
    if ("refused" in hand) return hand;
    const { by } = hand;

    const input = { ...job.inputOf(draft), paperwork: paperworkWith(job, draft, now, said) };
    const { sheet, contentHash, problems } = await priced(input);
    if (!sheet) return refused("estimate unready", { errors: engineFaults(problems, "/input") });
    const lacks = unready(input, sheet);
    if (lacks.length > 0) return refused("profile unmet", { errors: profileFaults(lacks, input, "/input") });

    const ending = { by, deliveredTo, expiresAt: linkEnd(now, linkDays) };
    const link = address && (await newLink({ estimateId: id, jobId: job.id }, ending, at));
    const onPaper = link && { link: address(link.secret.fragment), code: link.secret.code };
    const printed = await print(
      sheet,
      { ...input, paperwork: { ...input.paperwork, ...onPaper } },
      beforeOf(job, draft.revision),
      job.photos,
    );
    if ("unfit" in printed) return refused("estimate unready", { detail: printed.unfit });
    const { bytes: pdf, unprintable = [] } = printed;
    if (unprintable.length > 0 && !said.marks)
      return refused("letters missing", {
        errors: unprintable.map(({ pointer, text, characters }) => ({
          pointer: `/input${pointer}`,
          name: "letter unprintable",
          detail: unprintableText(pointer, text, characters),
        })),
      });
    const { revision } = draft;
    const issue: Issue = {
      ...{ id, jobId: job.id, at, revision, by, contentHash, pdfHash: await sha256(pdf) },
      ...{ headNumber: job.head.number, headHash: job.head.hash },
    };
    const { rateBook: _, ...bare } = input;
    const frozen = estimates.changed(db, draft, { input: bare, sheet, contentHash, issuedAt: at, issuedBy: by }, at);
    return {
      answer: { record: frozen.record, issue, ...(link && { secret: link.secret }) } as IssuedDraft,
      writes: [
        frozen.write,
        db.insert(issuesTable).values({ ...issue, pdf }),
        ...(link ? [db.insert(ownerLinksTable).values(link.row)] : []),
      ],
      trail: {
        ...{ job: job.id, head: job.head },
        events: [
          { is: "issued", content: { revision, by, record: await tellingOf("issues", issue) } },
          ...(link ? [{ is: "link made" as const, content: { by, record: await tellingOf("owner_links", link.row) } }] : []),
        ],
      },
    };
  },
});

function paperworkWith(
  job: JobAsItStands,
  draft: Estimate,
  now: Date,
  { why, spellings = [] }: Pick<z.output<typeof fields>, "why" | "spellings">,
) {
  const { link: _, code: __, ...kept } = paperworkOf(job, draft, now);
  const latin = spellings.flatMap(({ text, latin }) => (latin ? [[text, latin] as const] : []));
  const paperwork = latin.length === 0 ? kept : { ...kept, spellings: { ...kept.spellings, ...Object.fromEntries(latin) } };
  if (!why) return paperwork;
  const { whyChanged: ___, ...rest } = paperwork;
  const said = why.flatMap(({ item, reason }) => (reason === undefined ? [] : [[item, reason] as const]));
  return { ...rest, ...(said.length > 0 && { whyChanged: Object.fromEntries(said) }) };
}

const issuedAlready = ({ revision, jobId }: Estimate) => ({
  detail:
    `Revision ${revision} is issued already; the button may have been pressed twice. Its PDF carries the owner's link where one could be made, ` +
    `and others are at /jobs/${jobId}/links.`,
});

/** What an agreement profile asks for, as faults a person can act on; `under` is where the input stands. */
export function profileFaults(lacks: readonly Unready[], { policy, paperwork }: EstimateInput, under: string): Fault[] {
  const { name } = profileOf(policy?.profile);
  const locale = paperwork?.locale ?? "en-GB";
  return lacks.map((lack) => ({
    pointer: "pointer" in lack ? under + lack.pointer : under,
    name: lack.is,
    detail: unreadyText(lack, name, locale),
  }));
}

export const linkEnd = (now: Date, days: number): string => new Date(now.getTime() + days * 24 * 3_600_000).toISOString();
