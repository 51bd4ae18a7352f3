/** One visit of one unit: what is known about it, and every revision of its estimate. */
import type { ChangeList } from "../../estimating/agreement/changeList.js";
import type { EstimateInput, Party, Unit } from "../../estimating/input.js";
import type { Problem } from "../../estimating/problems.js";
import type { Sheet } from "../../estimating/sheet.js";
import { sinceText } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import { problemIn } from "../../wording/problem.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Said } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { ChangesPart } from "../revise/changesPage.js";
import { StandingCard, type StandingProps } from "../revise/standingCard.js";
import { SheetView, type SoFar } from "../sheet/sheetView.js";

export interface Revision {
  readonly id: string;
  readonly revision: number;
  readonly issuedAt?: string;
  readonly issuedBy?: string;
  readonly input: EstimateInput;
  readonly sheet?: Sheet;
  readonly problems: readonly Problem[];
  /** Input and sheet are of what was agreed to, which is not all that was offered. */
  readonly answered?: true;
  readonly soFar: SoFar;
}

interface JobPageProps {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly number: string;
  readonly arrivedOn: string;
  readonly owner: Party;
  readonly unit: Pick<Unit, "maker" | "model" | "serial" | "declaredValue">;
  readonly modelHref?: string;
  readonly reported?: string;
  readonly condition?: string;
  readonly accessories: readonly string[];
  /** Newest first. */
  readonly revisions: readonly Revision[];
  readonly newRevision: string;
  /** Where the unit is handed back, or was: of a job without an estimate. */
  readonly handBack: { readonly href: string; readonly closedOn?: string };
  /** Absent: there is no estimate yet. */
  readonly standing?: StandingProps;
  /** What the latest revision changes. */
  readonly changed?: ChangeList;
  readonly say?: string | undefined;
  readonly photos: { readonly href: string; readonly count: number };
}

export const JobPage = (props: JobPageProps) => {
  const { frame, number, unit, revisions, tongue, handBack } = props;
  const [latest, ...older] = revisions;
  return (
    <Page frame={frame} title={`${number}, ${unit.maker} ${unit.model}`} at="/">
      <div class="heading">
        <h1>
          {number} <span class="soft">{`${unit.maker} ${unit.model}`}</span>
        </h1>
        {latest || handBack.closedOn ? null : (
          <form method="post" action={props.newRevision} class="screen">
            <button type="submit" class="primary">
              Start an estimate
            </button>
          </form>
        )}
      </div>
      <Said say={props.say} />
      {props.standing ? <StandingCard {...props.standing} /> : null}
      <Facts {...props} />
      {props.changed ? (
        <details class="fold" id="changed">
          <summary>What changed since {sinceText(props.changed)}</summary>
          <ChangesPart changes={props.changed} tongue={tongue} />
        </details>
      ) : null}
      {latest ? (
        <RevisionPart revision={latest} tongue={tongue} />
      ) : (
        <p class="empty">
          {handBack.closedOn ? (
            <>
              Closed on {day(handBack.closedOn, tongue.locale)} without an estimate: <a href={handBack.href}>the account</a>.
            </>
          ) : (
            <>
              No estimate yet. Start one to price the work, or <a href={handBack.href}>close and hand the unit back</a>.
            </>
          )}
        </p>
      )}
      {older.length > 0 ? (
        <section>
          <h2>Earlier revisions</h2>
          <ul>
            {older.map((revision) => (
              <li id={`revision-${revision.revision}`}>
                Revision {revision.revision}
                {revision.sheet ? `, ${money(revision.sheet.totals.total, tongue)}` : ""}:{" "}
                <a href={`/estimates/${revision.id}.pdf`}>estimate PDF</a>,{" "}
                <a href={`/estimates/${revision.id}/bench-sheet.pdf`}>bench sheet</a>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </Page>
  );
};

const Facts = ({ photos, tongue, arrivedOn, owner, unit, modelHref, reported, condition, accessories }: JobPageProps) => (
  <dl class="facts">
    <Fact name="Owner">
      {owner.name || "Not named yet: wanted before an estimate is issued."}
      {[...(owner.address ?? []), owner.phone, owner.email].filter(Boolean).map((text) => (
        <div class="hint">{text}</div>
      ))}
    </Fact>
    <Fact name="Unit">
      {modelHref ? <a href={modelHref}>{`${unit.maker} ${unit.model}`}</a> : `${unit.maker} ${unit.model}`}
      {unit.serial ? <div class="hint">Serial {unit.serial}</div> : null}
      {unit.declaredValue === undefined ? null : <div class="hint">Declared value {money(unit.declaredValue, tongue)}</div>}
    </Fact>
    <Fact name="Came in">{day(arrivedOn, tongue.locale)}</Fact>
    {reported ? <Fact name="Reported">{reported}</Fact> : null}
    {condition ? (
      <Fact name="Condition on arrival">
        {condition
          .split(/\r\n|\r|\n/)
          .filter(Boolean)
          .join(", ")}
      </Fact>
    ) : null}
    {photos.count === 0 ? (
      <Fact name="Photos">
        <a href={photos.href}>Add photos</a>
      </Fact>
    ) : null}
    {accessories.length > 0 ? <Fact name="Brought along">{accessories.join(", ")}</Fact> : null}
  </dl>
);

const Fact = ({ name, children }: { name: string; children?: unknown }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);

const RevisionPart = ({ revision, tongue }: { revision: Revision; tongue: Tongue }) => (
  <section class="card" id={`revision-${revision.revision}`} aria-labelledby="revision-name">
    <h2 id="revision-name">
      Estimate, revision {revision.revision}{" "}
      <span class="tag">{revision.issuedAt ? `issued by ${revision.issuedBy ?? "the shop"}` : "draft"}</span>
    </h2>
    {revision.answered ? <p class="hint">Figures are of what was agreed; the PDFs have all that was offered.</p> : null}
    <p class="links screen">
      {revision.sheet ? (
        <>
          <a href={`/estimates/${revision.id}.pdf`}>Estimate PDF</a>
          <a href={`/estimates/${revision.id}/bench-sheet.pdf`}>Bench sheet PDF</a>
          <a href={`/estimates/${revision.id}/shop-copy.pdf`}>Shop's copy PDF</a>
        </>
      ) : null}
      <a href={`/estimates/${revision.id}/intake-receipt.pdf`}>Intake receipt and tag</a>
      <a href={`/estimates/${revision.id}/lines`}>Lines as CSV</a>
    </p>
    {revision.sheet ? (
      <SheetView sheet={revision.sheet} input={revision.input} tongue={tongue} {...revision.soFar} open />
    ) : (
      <div class="to-do">
        <h3>Please correct</h3>
        <ul>
          {revision.problems.map((problem) => (
            <li>{problemIn(problem, tongue)}</li>
          ))}
        </ul>
      </div>
    )}
  </section>
);
