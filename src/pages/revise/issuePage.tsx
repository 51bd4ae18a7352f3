/** The last look before a draft is issued: what goes out, to whom, and what is still missing. */
import type { ChangeList } from "../../estimating/agreement/changeList.js";
import { sinceText } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Box } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { ChangesPart } from "./changesPage.js";
import { JobFramed, type JobHead } from "./jobFrame.js";
import { LinkOnce, type LinkOnceProps, OutOfReach, SendTick } from "./linkOnce.js";
import { type ChangedWork, ReasonBoxes } from "./reasonBoxes.js";

interface IssuePageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly draft: { readonly id: string; readonly revision: number; readonly version: number };
  /** Absent: the draft has entries to put right. */
  readonly figures?: {
    readonly total: number;
    readonly ceiling: number;
    readonly validUntil: string;
    readonly days: number;
    /** Said where it is above what the owner had allowed. */
    readonly above?: string | undefined;
    /** Said where it leaves out agreed work that is done. */
    readonly leftOut?: string | undefined;
    /** Said where it is less than what declining costs. */
    readonly below?: string | undefined;
    /** Said of parts that are sold for less than they cost. */
    readonly belowCost?: string | undefined;
    /** Said of parts whose days of delivery nobody knows. */
    readonly unknownDelivery?: string | undefined;
  };
  readonly profile: { readonly name: string; readonly source: string };
  /** What keeps it from being issued, and where to put it right. */
  readonly lacks: readonly { readonly text: string; readonly href: string }[];
  readonly changes?: ChangeList;
  /** What can be given a reason. */
  readonly work: readonly ChangedWork[];
  /** Texts in letters that the papers' typeface lacks. */
  readonly letters: readonly { readonly text: string; readonly place: string; readonly said: string }[];
  /** The shop's own names that the owner's language has no other for. */
  readonly unnamed?: { readonly language: string; readonly texts: readonly string[] };
  /** The technician's words stand on it. */
  readonly inWords: boolean;
  readonly say?: string;
  /** Owners reach the shop's address; otherwise it is given on paper. */
  readonly reachable: boolean;
  /** The shop has a send hook. */
  readonly canSend: boolean;
}

export const IssuePage = (props: IssuePageProps) => {
  const { frame, job, draft, figures, lacks, tongue, changes, errors, say } = props;
  const ready = figures !== undefined && lacks.length === 0;
  return (
    <JobFramed frame={frame} job={job} title={`Issue revision ${draft.revision}`} wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {figures ? (
        <dl class="facts">
          <Fact name="Total">
            <strong>{money(figures.total, tongue)}</strong>
          </Fact>
          <Fact name="Ceiling">{money(figures.ceiling, tongue)}</Fact>
          <Fact name="Good until">{day(figures.validUntil, tongue.locale)}</Fact>
          {figures.days === 0 ? (
            <Fact name="Ready">the same day</Fact>
          ) : (
            <Fact name="Ready in about">{counted(figures.days, "day")}</Fact>
          )}
          <Fact name="Written for">
            {props.profile.name}
            <div class="hint">{props.profile.source}</div>
          </Fact>
        </dl>
      ) : null}
      <p class="links">
        <a href={`/estimates/${draft.id}`}>Change the estimate</a>
        {figures ? <a href={`/estimates/${draft.id}.pdf`}>See it as PDF</a> : null}
        <a href={`/jobs/${job.id}/papers`}>What the owner gets</a>
      </p>
      {figures?.above ? (
        <p class="warning" id="above-ceiling">
          {figures.above}
        </p>
      ) : null}
      {figures?.leftOut ? (
        <p class="warning" id="done-left-out">
          {figures.leftOut}
        </p>
      ) : null}
      {figures?.below ? (
        <p class="warning" id="below-declining">
          {figures.below}
        </p>
      ) : null}
      {figures?.belowCost ? (
        <p class="warning" id="below-cost">
          {figures.belowCost}
        </p>
      ) : null}
      {figures?.unknownDelivery ? (
        <p class="warning" id="unknown-delivery">
          {figures.unknownDelivery}
        </p>
      ) : null}
      {props.inWords ? null : (
        <p class="hint">
          The estimate has no words of yours yet:{" "}
          <a href={`/jobs/${job.id}/papers#words`}>say in two sentences what is wrong and what you will do</a>. The owner reads
          them first.
        </p>
      )}
      {props.unnamed ? (
        <p class="hint">
          {props.unnamed.texts.length === 1 ? "One name" : `${props.unnamed.texts.length} names`} of your own will be printed as
          written, though the owner reads {props.unnamed.language}:{" "}
          <a href={`/jobs/${job.id}/papers#names`}>say what they are called there</a>. The first: {props.unnamed.texts[0]}.
        </p>
      ) : null}
      {changes ? (
        <section aria-labelledby="changes-name">
          <h2 id="changes-name">What changes since {sinceText(changes)}</h2>
          <ChangesPart changes={changes} tongue={tongue} />
        </section>
      ) : null}
      {ready ? (
        <IssueForm {...props} />
      ) : (
        <section class="to-do" aria-labelledby="lacks-name">
          <h2 id="lacks-name">Before it can be issued</h2>
          <ul>
            {figures ? null : (
              <li>
                <a href={`/estimates/${draft.id}`}>Some entries of the estimate need correcting.</a>
              </li>
            )}
            {lacks.map(({ text, href }) => (
              <li>
                <a href={href}>{text}</a>
              </li>
            ))}
          </ul>
        </section>
      )}
    </JobFramed>
  );
};

const IssueForm = (props: IssuePageProps) => (
  <form method="post" action={`/jobs/${props.job.id}/issue`} novalidate>
    <input type="hidden" name="estimate" value={props.draft.id} />
    <input type="hidden" name="version" value={String(props.draft.version)} />
    <ReasonBoxes fields={props.fields} errors={props.errors} work={props.work} />
    <Letters {...props} />
    <fieldset class="part">
      <legend>Issue</legend>
      <p>
        An issued revision never changes. The PDF is kept as it goes out
        {props.reachable ? ", and the owner gets a link to read and answer it" : ", to be given to the owner on paper"}; earlier
        revisions can then no longer be agreed to.
      </p>
      {props.reachable ? null : <OutOfReach />}
      <div class="columns">
        <Ask form={props} name="by" autocomplete="name" size="word" />
        {props.reachable ? (
          <>
            <Ask form={props} name="deliveredTo" code />
            <Ask form={props} name="linkDays" />
          </>
        ) : null}
      </div>
      {props.canSend && props.reachable ? <SendTick fields={props.fields} /> : null}
      <p class="actions">
        <button type="submit" class="primary">
          Issue revision {props.draft.revision}
        </button>
      </p>
    </fieldset>
  </form>
);

/** Said before it is frozen: otherwise the paper has marks in their place. */
const Letters = ({ letters, ...form }: IssuePageProps) =>
  letters.length === 0 ? null : (
    <fieldset class="part" id="letters">
      <legend>Letters that the paper cannot print</legend>
      <p class="hint">The owner's page shows them as they are. Spelled here, they are printed so on this estimate's papers.</p>
      {letters.map(({ text, place, said }, row) => (
        <>
          <input type="hidden" name={`spellings.${row}.text`} value={text} />
          <Box {...form} name={`spellings.${row}.latin`} label={`${place}, as printed`} hint={said} size="long" />
        </>
      ))}
      <Ask form={form} name="marks" />
    </fieldset>
  );

const Fact = ({ name, children }: { name: string; children?: unknown }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);

interface IssuedPageProps {
  readonly frame: Frame;
  readonly script: string;
  readonly job: JobHead;
  readonly estimate: { readonly id: string; readonly revision: number };
  /** Of the PDF, hex. */
  readonly pdfHash: string;
  /** Absent: given on paper. */
  readonly link?: LinkOnceProps;
}

export const IssuedPage = ({ frame, script, job, estimate: { id, revision }, pdfHash, link }: IssuedPageProps) => (
  <JobFramed frame={frame} job={job} title={`Revision ${revision} is issued`} script={script}>
    {link ? (
      <LinkOnce {...link} />
    ) : (
      <section class="card" aria-labelledby="paper-name">
        <h2 id="paper-name">Give it to the owner</h2>
        <p>Print the PDF, or send it as a file. The owner answers on it, by telephone or in person; then record the answer.</p>
        <p class="actions">
          <a class="button primary" href={`/estimates/${id}.pdf`}>
            The PDF as it was issued
          </a>
          <a class="button" href={`/jobs/${job.id}/answers`}>
            Record an answer
          </a>
        </p>
      </section>
    )}
    <p class="links">
      {link ? <a href={`/estimates/${id}.pdf`}>The PDF as it was issued</a> : null}
      <a href={`/estimates/${id}/bench-sheet.pdf`}>Bench sheet PDF</a>
      <a href={`/jobs/${job.id}`}>Back to the job</a>
    </p>
    <p class="hint">
      SHA-256 of the PDF: <code>{pdfHash}</code>
    </p>
  </JobFramed>
);
