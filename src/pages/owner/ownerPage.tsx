/** Whichever page the view is of. */
import { EstimatePage } from "./estimatePage.js";
import { type OwnerFrame, OwnerFramed } from "./ownerFrame.js";
import { type EntryView, type GoneView, OWNER_PATHS, type OwnerView } from "./view.js";

export const OwnerPage = ({ frame, view }: { frame: OwnerFrame; view: OwnerView }) => {
  switch (view.is) {
    case "entry":
      return <EntryPage frame={frame} view={view} />;
    case "gone":
      return <GonePage frame={frame} view={view} />;
    case "estimate":
      return <EstimatePage frame={frame} view={view} />;
  }
};

/** A link that opens nothing any more: why, what is current, and what to do. */
const GonePage = ({ frame, view: { shop, why, since, current } }: { frame: OwnerFrame; view: GoneView }) => (
  <OwnerFramed frame={frame} shop={shop} title="This link has ended">
    <h1>This link has ended</h1>
    <p>
      {why === "expired" ? `It was good until ${since}.` : `${shop.name} withdrew it on ${since}.`} Nothing you answered before is
      lost.
    </p>
    <p>
      The current estimate is <strong>{`${current.number}, revision ${current.revision}`}</strong>. If you have a newer link to
      it, or the code on its paper, <a href={OWNER_PATHS.home}>open it with that</a>; otherwise ask us for one.
    </p>
  </OwnerFramed>
);

/** Where a link, or a number with its code, is exchanged for a look at the estimate. */
const EntryPage = ({ frame, view }: { frame: OwnerFrame; view: EntryView }) => {
  const { shop, number, wrong } = view;
  // What was wrong may have been the link.
  const typed = wrong !== undefined && number !== undefined;
  const invalid = typed ? { "aria-invalid": "true" } : {};
  return (
    <OwnerFramed frame={frame} shop={shop} title="Your estimate" wrong={wrong !== undefined}>
      <h1>Your estimate</h1>
      {/* Filled in and sent by the script when the address carries a link's secret behind its #. */}
      <form method="post" action={OWNER_PATHS.entry} id="by-link" hidden>
        <input type="hidden" name="link" />
      </form>
      <p role="status" id="opening" class="said empty-said" />
      <form method="post" action={OWNER_PATHS.entry} class="narrow" id="by-code" novalidate>
        <p>Type the two that stand at the end of the printed estimate, beside the square code.</p>
        {wrong ? (
          <p id="wrong" role="alert" class="wrong">
            {wrong}
          </p>
        ) : null}
        <div class={typed ? "field field-wrong" : "field"}>
          <label for="number">Estimate number</label>
          <p class="hint" id="number-hint">
            Such as J-2026-0001.
          </p>
          <input
            id="number"
            name="number"
            value={number ?? ""}
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            {...invalid}
            aria-describedby={typed ? "number-hint wrong" : "number-hint"}
          />
        </div>
        <div class={typed ? "field field-wrong" : "field"}>
          <label for="code">Code</label>
          <p class="hint" id="code-hint">
            Ten letters and figures. Capitals, spaces and dashes do not matter.
          </p>
          <input
            id="code"
            name="code"
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            {...invalid}
            aria-describedby={typed ? "code-hint wrong" : "code-hint"}
          />
        </div>
        <p class="actions">
          <button type="submit" class="primary">
            Open the estimate
          </button>
        </p>
      </form>
    </OwnerFramed>
  );
};
