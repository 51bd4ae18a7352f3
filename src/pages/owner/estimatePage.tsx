/** One issued revision as its owner meets it, the letter first: what is wrong and what will be done, the price, what may be found, and the answer; then how it adds up. */

import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import { Changes, MadeOf } from "./changes.js";
import { CheckPage } from "./checkPage.js";
import { IfFound, Options, Packages, Work, WorthDoing, YourAnswer } from "./choice.js";
import { type OwnerFrame, OwnerFramed, textsOf } from "./ownerFrame.js";
import { Questions } from "./questions.js";
import { InShort, Standing } from "./standing.js";
import { type EstimateView, OWNER_PATHS, type OwnerFault, type OwnerPhoto } from "./view.js";

interface EstimatePageProps {
  readonly frame: OwnerFrame;
  readonly view: EstimateView;
}

export const EstimatePage = ({ frame, view }: EstimatePageProps) => {
  if (view.checking) return <CheckPage frame={frame} view={view} answer={view.checking} here={hereOf(view)} />;
  const { paper, unit, owner, tongue, state, say, wrong, sheet } = view;
  const { head, said } = textsOf(view);
  const open = state.is === "open";
  // Nothing of it is still to be had: the account is made, or it was declined.
  const over = view.account !== undefined || view.answer?.answer === "declined";
  const [photo, ...photos] = view.photos;
  return (
    <OwnerFramed
      frame={frame}
      view={view}
      title={head.title(paper.number, paper.revision)}
      wrong={wrong.length > 0}
      here={hereOf(view)}
    >
      <h1>{head.estimateFor(`${unit.maker} ${unit.model}`)}</h1>
      <p class="soft">
        <span class="whole">{head.ref(paper.number, paper.revision)}</span>
        {`, ${day(paper.date, tongue.locale)}. ${owner ? head.forOwner(owner) : ""}`}
      </p>
      <Faults view={view} />
      <p role="status" class={say ? "said" : "said empty-said"} id="said">
        {say ? said[say] : ""}
      </p>
      {open ? null : <Standing view={view} />}
      <div class="in-words">
        <div>
          {view.summary ? <p class="summary-words as-typed">{view.summary}</p> : null}
          {unit.reported ? (
            <p>
              {head.youTold}: <q>{unit.reported}</q>
            </p>
          ) : null}
          {unit.found ? <p class="as-typed">{head.weFound(unit.found)}</p> : null}
          {unit.serial ? <p class="hint">{head.serial(unit.serial)}</p> : null}
        </div>
        {photo ? <Photo photo={photo} at={0} view={view} /> : null}
      </div>
      {open ? <Standing view={view} /> : null}
      <form method="post" action={OWNER_PATHS.check} id="answer" novalidate>
        {/* Enter in a field presses the first button: it must be a harmless one. */}
        {open ? (
          <button type="submit" formaction={OWNER_PATHS.price} class="unseen" tabindex={-1}>
            {head.workOut}
          </button>
        ) : null}
        <input type="hidden" name="hash" value={paper.contentHash} />
        <InShort view={view} />
        <Changes view={view} />
        {over ? null : (
          <>
            <IfFound view={view} />
            <Packages view={view} />
            <Options view={view} />
            <Work view={view} />
          </>
        )}
        {mayAnswer(view) ? <YourAnswer view={view} /> : null}
        <Questions view={view} />
        <h2 id="reckoning">{over ? head.reckoningOffered : head.reckoning}</h2>
        <p class="links screen">
          <a href={paper.pdf} download>
            {head.pdf}
          </a>
        </p>
        <MadeOf view={view} />
        {over ? null : <WorthDoing view={view} />}
        <Photos photos={photos} view={view} />
        <Caution view={view} />
        <Terms view={view} />
        <Notices view={view} />
        {open ? (
          <div class="till">
            <output class="till-total" id="total-now" data-follows for="chosen">
              <span class="till-name">{head.total}</span> <strong>{money(sheet.totals.total, tongue)}</strong>
            </output>
            <p class="till-buttons">
              <button type="submit" formaction={OWNER_PATHS.price} class="quiet no-script" id="work-out">
                {head.workOut}
              </button>
              <a class="button" href="#your-answer">
                {head.toAnswer}
              </a>
            </p>
          </div>
        ) : null}
      </form>
    </OwnerFramed>
  );
};

/** Where the browser finds the page again: the answer to a form has no address to go back to. */
const hereOf = ({ paper }: EstimateView): string => `${OWNER_PATHS.estimate}?revision=${paper.revision}`;

const PLACE: Readonly<Record<OwnerFault["field"], string>> = {
  name: "name",
  answer: "your-answer",
  struck: "work",
  chosen: "chosen",
  text: "question",
  amount: "total",
};

/** Elsewhere its box is not there. */
const mayAnswer = ({ state }: EstimateView): boolean => state.is === "open" || state.is === "lapsed";

const Faults = ({ view }: { view: EstimateView }) => {
  const { frame } = textsOf(view);
  // Nothing can be put right: no answer is taken any more.
  const refused = !mayAnswer(view) && view.wrong.some(({ field }) => field !== "text");
  return view.wrong.length === 0 ? null : (
    <section class="summary" id="summary" tabindex={-1} aria-labelledby="summary-name" autofocus>
      <div role="alert">
        <h2 id="summary-name">{refused ? frame.notTaken : frame.problems(view.wrong.length)}</h2>
        <ul>
          {view.wrong.map(({ field, text }) => (
            <li>{field === "answer" && !mayAnswer(view) ? text : <a href={`#${PLACE[field]}`}>{text}</a>}</li>
          ))}
        </ul>
      </div>
    </section>
  );
};

/** As large as the page has room for, so that nobody has to open it elsewhere. */
const Photo = ({ photo: { href, caption }, at, view }: { photo: OwnerPhoto; at: number; view: EstimateView }) => (
  <figure class="photo">
    <img src={href} alt={caption ?? textsOf(view).head.photo(at + 1)} loading={at === 0 ? "eager" : "lazy"} />
    {caption ? <figcaption>{caption}</figcaption> : null}
  </figure>
);

/** Those beyond the first. */
const Photos = ({ photos, view }: { photos: readonly OwnerPhoto[]; view: EstimateView }) =>
  photos.length === 0 ? null : (
    <section aria-labelledby="photos-name">
      <h2 id="photos-name">{textsOf(view).head.photos}</h2>
      {photos.map((photo, at) => (
        <Photo photo={photo} at={at + 1} view={view} />
      ))}
    </section>
  );

const Caution = ({ view }: { view: EstimateView }) =>
  view.caution === undefined ? null : (
    <section>
      <h2>{textsOf(view).head.caution}</h2>
      <p>{view.caution}</p>
    </section>
  );

const Terms = ({ view: { terms } }: { view: EstimateView }) =>
  terms === undefined ? null : (
    <section id="terms">
      <h2>{terms.heading}</h2>
      {terms.terms.length === 0 ? null : (
        <ol>
          {terms.terms.map((text) => (
            <li>{text}</li>
          ))}
        </ol>
      )}
      <p class="hint">{terms.beside}</p>
    </section>
  );

const Notices = ({ view }: { view: EstimateView }) =>
  view.notices.length === 0 ? null : (
    <section>
      <h2>{textsOf(view).head.notices}</h2>
      <ul>
        {view.notices.map((notice) => (
          <li>{notice}</li>
        ))}
      </ul>
    </section>
  );
