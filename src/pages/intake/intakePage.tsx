/** Intake, new or again: one page from the owner's name to the total. */
import { atHand, type FormContext } from "../form/context.js";
import { isOpen } from "../form/open.js";
import { type Begun, BegunOffer } from "../frame/begun.js";
import { type Frame, Page } from "../frame/layout.js";
import type { Explained } from "../sheet/lineTable.js";
import { SheetView } from "../sheet/sheetView.js";
import { Conflict, type ConflictView } from "./conflict.js";
import { IntakeForm } from "./intakeForm.js";
import type { IntakeView, Surroundings } from "./view.js";

interface IntakePageProps {
  readonly frame: Frame;
  readonly script: string;
  readonly view: IntakeView;
  readonly heading: string;
  /** A second line under the heading. */
  readonly lead?: unknown;
  /** What just happened. */
  readonly say?: string | undefined;
  readonly conflict?: ConflictView | undefined;
  readonly begun?: readonly Begun[] | undefined;
}

export const IntakePage = ({ frame, script, view, heading, lead, say, conflict, begun = [] }: IntakePageProps) => (
  <Page
    frame={frame}
    title={heading}
    at={view.surroundings.saved ? "/" : "/estimates/new"}
    wrong={view.errors.size > 0 || conflict !== undefined}
    script={script}
    wide
  >
    <div class="heading">
      <h1>{heading}</h1>
      {lead}
    </div>
    <ErrorSummary view={view} />
    <BegunOffer begun={begun} />
    {conflict ? <Conflict conflict={conflict} view={view} /> : null}
    <p role="status" class={say ? "said" : "said empty-said"} id="said">
      {say ?? ""}
    </p>
    <div class="bench">
      <div id="form-place">
        <IntakeForm view={view} />
      </div>
      <aside class="card" aria-labelledby="sheet-name" id="sheet" tabindex={0}>
        <h2 class="unseen" id="sheet-name">
          The estimate as it stands
        </h2>
        <div id="sheet-place">
          <SheetPanel view={view} />
        </div>
      </aside>
    </div>
    <script type="application/json" id="context" dangerouslySetInnerHTML={{ __html: carried(view) }} />
  </Page>
);

/** What the browser prices against. */
export interface Carriage {
  readonly context: FormContext;
  readonly surroundings: Surroundings;
}

/** No `<` can end the script element early. */
const carried = ({ context, surroundings, read }: IntakeView): string =>
  JSON.stringify({ context: atHand(context, read.input), surroundings } satisfies Carriage).replaceAll("<", "\\u003c");

const ErrorSummary = ({ view }: { view: IntakeView }) =>
  view.errors.size === 0 && !(view.complaints.length > 0 && view.errors.size > 0) ? null : (
    <section class="summary" id="summary" tabindex={-1} aria-labelledby="summary-name" autofocus>
      <div role="alert">
        <h2 id="summary-name">Something is missing or cannot be right</h2>
        <ul>
          {view.complaints.slice(0, 30).map(({ field, text }) => (
            <li>{field ? <a href={`#${encodeURI(field)}`}>{text}</a> : text}</li>
          ))}
        </ul>
        {view.complaints.length > 30 ? <p>And {view.complaints.length - 30} more.</p> : null}
      </div>
    </section>
  );

/** Beside the form: what is still to put right, and the sheet of what could be priced. */
export const SheetPanel = ({ view, explained = "none" }: { view: IntakeView } & Explained) => {
  const { sheet, context, complaints } = view;
  return (
    <>
      {complaints.length > 0 ? (
        <section class="to-do" aria-labelledby="to-do-name">
          <h3 id="to-do-name">Please correct</h3>
          <ul>
            {complaints.slice(0, MOST).map(({ field, text }) => (
              <li>{field ? <a href={`#${encodeURI(field)}`}>{text}</a> : text}</li>
            ))}
          </ul>
          {complaints.length > MOST ? <p>And {complaints.length - MOST} more.</p> : null}
        </section>
      ) : null}
      {sheet ? (
        <SheetView
          {...{ sheet, input: view.read.input, tongue: context, ...view.surroundings.soFar, add: true }}
          {...(!isOpen(view.open, "why") && { explained })}
        />
      ) : (
        <p class="empty">Nothing can be priced until this is corrected.</p>
      )}
    </>
  );
};

const MOST = 20;
