/** Whichever page the view is of. */
import { EstimatePage } from "./estimatePage.js";
import { type OwnerFrame, OwnerFramed, textsOf } from "./ownerFrame.js";
import { type EntryView, type GoneView, OWNER_PATHS, type OwnerView, type WaitView } from "./view.js";

export const OwnerPage = ({ frame, view }: { frame: OwnerFrame; view: OwnerView }) => {
  switch (view.is) {
    case "entry":
      return <EntryPage frame={frame} view={view} />;
    case "gone":
      return <GonePage frame={frame} view={view} />;
    case "wait":
      return <WaitPage frame={frame} view={view} />;
    case "estimate":
      return <EstimatePage frame={frame} view={view} />;
  }
};

/** A link that opens nothing any more: why, what is current, and what to do. */
const GonePage = ({ frame, view }: { frame: OwnerFrame; view: GoneView }) => {
  const { shop, why, since, current } = view;
  const { gone, head } = textsOf(view);
  return (
    <OwnerFramed frame={frame} view={view} title={gone.title}>
      <h1>{gone.title}</h1>
      <p>
        {why === "expired" ? gone.expired(since) : gone.withdrawn(shop.name, since)} {gone.nothingLost}
      </p>
      <p>
        {gone.current} <strong class="whole">{head.ref(current.number, current.revision)}</strong>.
      </p>
      <p>
        <a href={OWNER_PATHS.home}>{gone.openIt}</a>
      </p>
    </OwnerFramed>
  );
};

/** The browser script shows the sentence beside the ticks instead. */
const WaitPage = ({ frame, view }: { frame: OwnerFrame; view: WaitView }) => {
  const { wait, again } = view;
  const texts = textsOf(view).wait;
  return (
    <OwnerFramed frame={frame} view={view} title={texts.title}>
      <h1>{texts.title}</h1>
      <p id="wait">{texts.tooOften(wait)}</p>
      <form method={again.method} action={again.path} class="narrow">
        {again.fields.map(([name, value]) => (
          <input type="hidden" name={name} value={value} />
        ))}
        <p class="actions">
          <button type="submit" class="primary">
            {texts.again}
          </button>
        </p>
      </form>
    </OwnerFramed>
  );
};

/** Where a link, or a number with its code, is exchanged for a look at the estimate. */
const EntryPage = ({ frame, view }: { frame: OwnerFrame; view: EntryView }) => {
  const { number, wrong } = view;
  const texts = textsOf(view).entry;
  // What was wrong may have been the link.
  const typed = wrong !== undefined && number !== undefined;
  const box = (name: "number" | "code", value?: string) => (
    <div class={typed ? "field field-wrong" : "field"}>
      <label for={name}>{texts[name]}</label>
      <input
        id={name}
        name={name}
        {...(value !== undefined && { value })}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        {...(typed && { "aria-invalid": "true" })}
        aria-describedby={typed ? `${name}-hint wrong` : `${name}-hint`}
      />
      <p class="hint" id={`${name}-hint`}>
        {texts[`${name}Hint`]}
      </p>
    </div>
  );
  return (
    <OwnerFramed frame={frame} view={view} title={texts.title} wrong={wrong !== undefined} here={OWNER_PATHS.home}>
      <h1>{texts.title}</h1>
      {/* Filled in and sent by the script when the address carries a link's secret behind its #. */}
      <form method="post" action={OWNER_PATHS.entry} id="by-link" hidden>
        <input type="hidden" name="link" />
      </form>
      <p role="status" id="opening" class="said empty-said" />
      <form method="post" action={OWNER_PATHS.entry} class="narrow" id="by-code" novalidate>
        <p>{texts.typeBoth}</p>
        {wrong ? (
          <p id="wrong" role="alert" class="wrong">
            {wrong}
          </p>
        ) : null}
        {box("number", number ?? "")}
        {box("code")}
        <p class="actions">
          <button type="submit" class="primary">
            {texts.open}
          </button>
        </p>
      </form>
    </OwnerFramed>
  );
};
