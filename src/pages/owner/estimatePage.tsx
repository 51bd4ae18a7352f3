/** One issued revision as its owner meets it: how much, what changed, what can be chosen, what it is made of, and the answer. */

import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import { Changes, MadeOf } from "./changes.js";
import { CheckPage } from "./checkPage.js";
import { IfFound, Options, Work, WorthDoing, YourAnswer } from "./choice.js";
import { type OwnerFrame, OwnerFramed } from "./ownerFrame.js";
import { Questions } from "./questions.js";
import { InShort, Standing } from "./standing.js";
import { type EstimateView, OWNER_PATHS, type OwnerFault, type OwnerPhoto } from "./view.js";

interface EstimatePageProps {
  readonly frame: OwnerFrame;
  readonly view: EstimateView;
}

export const EstimatePage = ({ frame, view }: EstimatePageProps) => {
  if (view.checking) return <CheckPage frame={frame} view={view} answer={view.checking} />;
  const { shop, paper, unit, owner, tongue, state, say, wrong, sheet } = view;
  const open = state.is === "open";
  return (
    <OwnerFramed
      frame={frame}
      shop={shop}
      title={`Estimate ${paper.number}, revision ${paper.revision}`}
      wrong={wrong.length > 0}
    >
      <h1>{`Estimate for your ${unit.maker} ${unit.model}`}</h1>
      <p class="soft">
        {`${paper.number}, revision ${paper.revision}, ${day(paper.date, tongue.locale)}`}
        {owner ? `. For ${owner}.` : "."}
      </p>
      <Faults wrong={wrong} />
      <p role="status" class={say ? "said" : "said empty-said"} id="said">
        {say ?? ""}
      </p>
      <Standing view={view} />
      {unit.reported ? (
        <p>
          You told us: <q>{unit.reported}</q>
        </p>
      ) : null}
      {unit.found ? <p class="as-typed">We found: {unit.found}</p> : null}
      {unit.serial ? <p class="hint">Serial number {unit.serial}</p> : null}
      <form method="post" action={OWNER_PATHS.check} id="answer" novalidate>
        {/* Enter in a field presses the first button: it must be a harmless one. */}
        {open ? (
          <button type="submit" formaction={OWNER_PATHS.price} class="unseen" tabindex={-1}>
            Work out the price
          </button>
        ) : null}
        <input type="hidden" name="hash" value={paper.contentHash} />
        <InShort view={view} />
        <p class="links screen">
          <a href={paper.pdf}>The whole estimate as PDF</a>
        </p>
        <Changes view={view} />
        <Work view={view} />
        <Options view={view} />
        <IfFound view={view} />
        <WorthDoing view={view} />
        <MadeOf view={view} />
        <Photos photos={view.photos} />
        <Notices notices={view.notices} />
        {open || state.is === "lapsed" ? <YourAnswer view={view} /> : null}
        <Questions view={view} />
        {open ? (
          <div class="till">
            <output class="till-total" id="total-now" data-follows for="chosen">
              <span class="till-name">Total</span> <strong>{money(sheet.totals.total, tongue)}</strong>
            </output>
            <p class="till-buttons">
              <button type="submit" formaction={OWNER_PATHS.price} class="quiet no-script" id="work-out">
                Work out the price
              </button>
              <a class="button primary" href="#your-answer">
                Answer
              </a>
            </p>
          </div>
        ) : null}
      </form>
    </OwnerFramed>
  );
};

const PLACE: Readonly<Record<OwnerFault["field"], string>> = {
  name: "name",
  answer: "your-answer",
  struck: "work",
  chosen: "chosen",
  text: "question",
  amount: "total",
};

const Faults = ({ wrong }: { wrong: readonly OwnerFault[] }) =>
  wrong.length === 0 ? null : (
    <section class="summary" id="summary" tabindex={-1} aria-labelledby="summary-name" autofocus>
      <div role="alert">
        <h2 id="summary-name">{wrong.length === 1 ? "There is a problem" : `There are ${counted(wrong.length, "problem")}`}</h2>
        <ul>
          {wrong.map(({ field, text }) => (
            <li>
              <a href={`#${PLACE[field]}`}>{text}</a>
            </li>
          ))}
        </ul>
      </div>
    </section>
  );

const Photos = ({ photos }: { photos: readonly OwnerPhoto[] }) =>
  photos.length === 0 ? null : (
    <section aria-labelledby="photos-name">
      <h2 id="photos-name">Photos</h2>
      <div class="photos">
        {photos.map(({ href, caption }, at) => (
          <figure class="photo">
            <a href={href}>
              <img src={href} alt={caption ?? `Photo ${at + 1}`} loading="lazy" />
            </a>
            {caption ? <figcaption>{caption}</figcaption> : null}
          </figure>
        ))}
      </div>
    </section>
  );

const Notices = ({ notices }: { notices: readonly string[] }) =>
  notices.length === 0 ? null : (
    <section>
      <h2>What you should know</h2>
      <ul>
        {notices.map((notice) => (
          <li>{notice}</li>
        ))}
      </ul>
    </section>
  );
