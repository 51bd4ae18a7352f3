/** What the API says of issued revisions: links, answers, questions, the work log, and the trail of events. */
import { z } from "zod";
import { isoDate, label, line, maybe, prose } from "./primitives.js";

const whole = z.int();
const instant = z.string().meta({ format: "date-time" });
const hash = z.string().meta({ description: "SHA-256, hex" });
const keptOnce = { id: z.string(), jobId: z.string(), at: instant };

export const keptIssue = z
  .strictObject({
    ...keptOnce,
    revision: whole,
    by: z.string(),
    contentHash: hash,
    pdfHash: hash,
    headNumber: whole,
    headHash: hash,
    superseded: z.boolean(),
  })
  .meta({ id: "IssueRecord" });

const withdrawalKeys = { by: label, reason: maybe(line) };
const linkKeys = {
  ...keptOnce,
  estimateId: z.string(),
  by: z.string(),
  deliveredTo: z.string(),
  expiresAt: instant,
  withdrawal: maybe(z.strictObject({ ...keptOnce, linkId: z.string(), ...withdrawalKeys })),
};
export const keptOwnerLink = z.strictObject(linkKeys).meta({ id: "OwnerLinkRecord" });
export const madeOwnerLink = z
  .strictObject({
    ...linkKeys,
    address: maybe(z.string()).meta({ description: "Told once: it is kept as SHA-256 only" }),
    code: maybe(z.string()).meta({ description: "Typed with the job's number at /o; told once" }),
  })
  .meta({ id: "OwnerLinkMade" });

const answer = z.enum(["agreed", "part agreed", "declined"]);
const channel = z.enum(["page", "in person", "telephone", "e-mail"]);

/** All keys may be absent: what is missing is named by the rule that wants it. */
const spoken = z
  .strictObject({
    date: maybe(isoDate),
    time: maybe(line),
    authoriser: maybe(line),
    numberCalled: maybe(line),
    receiver: maybe(line),
    conditions: maybe(line),
    extraPartsAndLabour: maybe(prose),
    additionalCost: maybe(z.int()),
  })
  .meta({
    id: "SpokenAgreement",
    description: "When it was said, and by whom to whom; the rest where the law profile asks for it, as 16 CCR 2722(a) does",
  });

/** What is shown before an answer, and stands on record after it. */
const answerTold = {
  ...{ estimateId: z.string(), revision: whole, contentHash: hash, answer },
  wording: z.string(),
  currency: z.string(),
  chosen: z.array(z.string()),
  struck: z.array(z.string()),
  amount: maybe(whole),
  ceiling: maybe(whole),
  deposit: maybe(whole).meta({ description: "Of the set answered, not of the revision as issued" }),
};

export const agreementPreview = z.strictObject(answerTold).meta({
  id: "AgreementPreview",
  description:
    "The words that would stand on record, and what is agreed to by them in minor units; a refusal has no amount, and a ceiling where work done as agreed is owed beside the looking",
});

export const keptAgreement = z
  .strictObject({
    ...keptOnce,
    ...answerTold,
    zone: z.string(),
    pdfHash: hash,
    by: z.string(),
    channel,
    linkId: maybe(z.string()),
    deliveredTo: maybe(z.string()),
    address: maybe(z.string()),
    agent: maybe(z.string()),
    recordedBy: maybe(z.string()),
    spoken: maybe(spoken),
    writing: maybe(z.string()),
    corrects: maybe(z.string()),
    reason: maybe(z.string()),
  })
  .meta({ id: "AgreementRecord" });

export const keptQuestion = z
  .strictObject({
    ...keptOnce,
    estimateId: z.string(),
    linkId: z.string(),
    text: z.string(),
    replies: z.array(z.strictObject({ ...keptOnce, questionId: z.string(), by: z.string(), text: z.string() })),
  })
  .meta({ id: "Question" });

export const event = z
  .strictObject({
    job: z.string(),
    number: whole,
    at: instant,
    is: z.string(),
    content: z.unknown().meta({ description: "Who and what, and the hash of the record it tells of" }),
    hash,
  })
  .meta({ id: "Event" });

export const standing = z
  .strictObject({
    draft: maybe(
      z.strictObject({
        ...{ id: z.string(), revision: whole, version: whole },
        leftOut: maybe(z.string()).meta({
          description: "Agreed work that is done and that the draft does not charge, in a sentence",
        }),
      }),
    ),
    current: maybe(keptIssue),
    agreed: maybe(
      z.strictObject({
        agreementId: z.string(),
        revision: whole,
        limit: z.strictObject({ agreed: whole, upTo: whole, withTax: z.boolean(), by: z.string() }),
        spent: z.strictObject({ total: whole, withoutTax: whole }).meta({
          description:
            "What was logged so far: time as it was taken, parts and fixed prices as they are charged. It may pass what is billed as agreed",
        }),
        asAgreed: z.boolean().meta({
          description:
            "Billed as agreed, whatever it takes, so that no time logged on it is refused; else time and parts stop at the limit",
        }),
      }),
    ),
    owed: z.strictObject({ total: maybe(whole), found: maybe(whole), paid: whole, due: maybe(whole), deposit: whole }).meta({
      description:
        "Total as billed, as agreed with what was found of it (`found`, as far as it is logged or ticked off), or as a declined job comes to now; refunds are taken off what was paid; `deposit`: still to come of what was promised for what is agreed",
    }),
    unagreed: z.array(z.strictObject({ id: z.string(), why: z.string() })),
  })
  .meta({ id: "Standing" });
