/** An event of the trail as a sentence. What it is about beyond that stands in the record it names. */
import { capital } from "../../wording/list.js";

type Content = Readonly<Record<string, unknown>>;

const SAY: Readonly<Record<string, (content: Content) => string>> = {
  "draft begun": ({ revision }) => `Revision ${revision} was begun as a draft.`,
  issued: ({ revision, by }) => `Revision ${revision} was issued by ${by}.`,
  "link made": ({ by }) => `A link to the owner's page was made by ${by}.`,
  "link withdrawn": ({ by }) => `A link to the owner's page was withdrawn by ${by}.`,
  "question asked": () => "The owner asked a question.",
  "question answered": ({ by }) => `${by} replied to a question.`,
  answered: ({ revision, answer, by }) => `Revision ${revision}: ${answer} by ${by}.`,
  "answer corrected": ({ revision, answer, by }) => `The answer to revision ${revision} was corrected: ${answer} by ${by}.`,
  "work logged": ({ person }) => `Work of ${person} was logged.`,
  "entry withdrawn": ({ by }) => `An entry of the work log was withdrawn by ${by}.`,
  "ticked off": ({ person }) => `${person} ticked off work that is done.`,
  "reading taken": ({ person }) => `${person} took a reading.`,
  "closed out": ({ by }) => `${by} closed the job.`,
  "close-out corrected": ({ by }) => `${by} corrected the close-out.`,
  "photo added": ({ by }) => (by ? `${by} added a photo.` : "A photo was added."),
  "photo removed": ({ by }) => (by ? `${by} took a photo out.` : "A photo was taken out."),
  "personal data erased": ({ by }) => `${by} erased what told of the owner.`,
  "limit overridden": ({ by }) => `${by} let something pass what the owner agreed to.`,
};

/** A kind of event that is not known here is named as it stands. */
export const eventText = (is: string, content: unknown): string =>
  SAY[is]?.(typeof content === "object" && content !== null ? (content as Content) : {}) ?? `${capital(is)}.`;
