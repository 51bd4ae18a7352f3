/** Something was found while the unit is open: one small form, what it costs on top now, and what it would cost at another visit. */

import type { ExtraCost } from "../../estimating/agreement/extraFault.js";
import type { FaultsFound } from "../../estimating/agreement/faultsFound.js";
import type { EstimateInput } from "../../estimating/input.js";
import { FASTENER_KINDS, HAZARDS } from "../../estimating/lists.js";
import type { Companion } from "../../estimating/sheet.js";
import { signedMoney } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import { capital, listed } from "../../wording/list.js";
import { offered } from "../../wording/rateBookParts.js";
import { stateOptions } from "../../wording/risk.js";
import { duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { atHand, type FormContext } from "../form/context.js";
import { key } from "../form/fields.js";
import { partsOffered } from "../form/names.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Box, Tick, Ticks, Wrong } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { FaultsPart } from "./changesPage.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

interface ExtraFaultPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly context: FormContext;
  /** The newest revision, draft or issued: what it comes on top of. */
  readonly base: {
    /** As the form says what it was drawn on top of. */
    readonly seen: string;
    readonly revision: number;
    readonly draft: boolean;
    readonly input: EstimateInput;
    /** Ids of the assemblies the job opens anyway. */
    readonly opens: readonly string[];
  };
  /** Of earlier estimates: work and parts that were on no list. */
  readonly ownWords: { readonly works: readonly string[]; readonly parts: readonly string[] };
  /** Ids of operations that go with it. */
  readonly also: readonly string[];
  /** Ids of assemblies that stand open beyond those. */
  readonly open: readonly string[];
  /** Ids of assemblies that a new place is behind. */
  readonly behind: readonly string[];
  /** Ticked of work in own words. */
  readonly dangers: readonly string[];
  readonly cost?: Cost;
  /** Found since the last issued revision, and in the draft already. */
  readonly faults?: FaultsFound | undefined;
  readonly say?: string | undefined;
}

export interface Cost {
  readonly now: ExtraCost;
  readonly later: ExtraCost;
  readonly laterAtLeast: boolean;
  /** Of the whole revision with the work in it, and what that is more than what is agreed; absent where nothing is. */
  readonly total: number;
  readonly aboveAgreed?: number;
  /** This one and those in the draft already. */
  readonly faults?: FaultsFound;
  readonly companions?: readonly Companion[];
  /** What pieces that may prove bad add to a part in own words, as a sentence. */
  readonly margin?: string;
}

export const ExtraFaultPage = (props: ExtraFaultPageProps) => {
  const { frame, job, base, context, errors, say, cost } = props;
  const next = base.draft ? base.revision : base.revision + 1;
  return (
    <JobFramed frame={frame} job={job} title="Extra fault" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {props.faults && !cost?.faults ? (
        <section class="card" id="faults" aria-labelledby="faults-name">
          <h2 id="faults-name">In the draft of revision {base.revision} already</h2>
          <FaultsPart faults={props.faults} tongue={props.tongue} />
          <p class="links">
            <a href={`/jobs/${job.id}/issue`}>Issue revision {base.revision} as it stands</a>
            <a href={`/estimates/${base.seen.replace(/:.*/, "")}`}>Change the draft</a>
          </p>
        </section>
      ) : null}
      <form method="post" action={`/jobs/${job.id}/extra-fault`} novalidate>
        {/* Enter in a field presses the first button: it must be a harmless one. */}
        <button type="submit" name="intent" value="price" class="unseen" tabindex={-1}>
          See what it costs
        </button>
        <input type="hidden" name="base" value={base.seen} />
        <fieldset class="part">
          <legend>What was found</legend>
          <Box {...props} name="reason" label={props.says.get("reason")!.label} size="long" />
          <div class="columns">
            <Ask form={props} name="part" list="parts" code />
            <Ask form={props} name="count" />
            <Ask form={props} name="work" list="operations" />
            <Ask form={props} name="where" list="assemblies" />
            <Ask
              form={props}
              name="certainty"
              options={[
                ["planned", "needed: agree or not"],
                ["optional", "an option to take or leave"],
                ["if found", "may prove necessary"],
              ]}
            />
            <div class="only-if-found">
              <Ask form={props} name="chance" />
            </div>
          </div>
          <NewPlace {...props} />
          <InOwnWords {...props} />
          <StandsOpen {...props} />
        </fieldset>
        {cost ? <CostNow {...props} cost={cost} /> : null}
        <GoesWith {...props} />
        <p class="actions">
          <button type="submit" name="intent" value="price" class={cost ? "" : "primary"}>
            See what it costs
          </button>
          <button type="submit" name="intent" value="issue" class={cost ? "primary" : ""}>
            Add it and go on to issue revision {next}
          </button>
          <button type="submit" name="intent" value="add">
            Add it to {base.draft ? `the draft of revision ${next}` : `a draft of revision ${next}`}
          </button>
          <button type="submit" name="intent" value="another">
            Add it, then another fault
          </button>
        </p>
        <p class="hint">
          Prices are read as of today. What is agreed to goes on up to its limit; only what is added here waits for the owner's
          answer.
        </p>
      </form>
      <datalist id="operations">
        {[...offered(context.rateBook.operations), ...offered(context.rateBook.services ?? [])].map(({ name }) => (
          <option value={name} />
        ))}
      </datalist>
      <datalist id="parts" data-find="/parts/kinds">
        {partsOffered(atHand(context, base.input)).map(({ name }) => (
          <option value={name} />
        ))}
      </datalist>
      {(["works", "parts"] as const).map((key) => (
        <datalist id={`own-${key}`}>
          {props.ownWords[key].map((name) => (
            <option value={name} />
          ))}
        </datalist>
      ))}
      <datalist id="assemblies">
        {(base.input.map?.assemblies ?? []).map(({ name }) => (
          <option value={name} />
        ))}
      </datalist>
    </JobFramed>
  );
};

/** A place that nobody had looked at: what it is, and how it is reached. */
const NewPlace = (props: ExtraFaultPageProps) => {
  const { base, behind, fields, errors } = props;
  const said = [...fields].some(([name, text]) => name.startsWith("place") && text !== "");
  return (
    <details
      class="fold"
      id="new-place"
      open={said || errors.has("where") || [...errors.keys()].some((name) => name.startsWith("place"))}
    >
      <summary>Is the place not on this unit's map? Say how it is reached</summary>
      <p class="hint">
        Name it under Where. It comes onto the map of this job; its opening is then priced and stands on the bench sheet.
      </p>
      <div class="columns">
        <Ask form={props} name="placeSort" />
      </div>
      {base.input.map?.assemblies.length ? (
        <fieldset class="ticks">
          <legend>{props.says.get("placeBehind")!.label}: what must be off to reach it</legend>
          <Wrong errors={errors} name="placeBehind" />
          {base.input.map.assemblies.map(({ id, name }) => (
            <Tick id={`placeBehind.${key(id)}`} name="placeBehind" value={id} checked={behind.includes(id)} label={name} />
          ))}
        </fieldset>
      ) : null}
      <fieldset class="fasteners">
        <legend>Fasteners and connections that hold it</legend>
        <Wrong errors={errors} name="placeFasteners" />
        {FASTENER_KINDS.map((kind) => (
          <Ask form={props} name={`placeFasteners.${key(kind)}`} label={capital(kind)} />
        ))}
      </fieldset>
      <div class="columns">
        <Ask form={props} name="placeSize" />
        <Ask form={props} name="placeMounting" />
      </div>
      <Ask form={props} name="placeOpen" />
    </details>
  );
};

/** What is on no list, and what a part costs this time. */
const InOwnWords = (props: ExtraFaultPageProps) => (
  <details
    class="fold"
    id="own-words"
    open={
      ["part", "work"].some((name) => props.errors.has(name)) ||
      OWN.some((name) => props.fields.get(name) || props.errors.has(name))
    }
  >
    <summary>Not on a list, or at another price? Say it in your own words</summary>
    <div class="columns">
      {OWN_WORK.map((name) => (
        <Ask form={props} name={name} list={name === "own" ? "own-works" : undefined} />
      ))}
    </div>
    <Ticks
      {...props}
      name="hazards"
      legend="Dangers of work in your own words"
      hint="Each brings its usual caution."
      values={HAZARDS}
      ticked={props.dangers}
    />
    <div class="columns">
      {OWN_PART.map((name) => (
        <Ask
          form={props}
          name={name}
          list={name === "ownPart" ? "own-parts" : undefined}
          {...(name === "partCost" && props.cost?.margin && { hint: props.cost.margin })}
          {...(name === "partState" && {
            options: [["", "not said: new"], ...stateOptions(props.context.rateBook.scarcity, props.context.locale)],
          })}
        />
      ))}
    </div>
  </details>
);

const OF_THE_PART = ["partState", "partPack", "partMinimum", "partGood"] as const;
const OWN_WORK = ["own", "minutes", "minutesLow", "minutesHigh", "price"] as const;
const OWN_PART = ["ownPart", "partCost", "partReason", "partSource", "partDays", ...OF_THE_PART, "partBrought"] as const;
const OWN = ["hazards", ...OWN_WORK, ...OWN_PART];

/** Those the job opens anyway need no tick. */
const StandsOpen = ({ base, open }: ExtraFaultPageProps) => {
  const others = (base.input.map?.assemblies ?? []).filter(({ id }) => !base.opens.includes(id));
  return others.length === 0 ? null : (
    <details class="fold" id="stands-open" open={open.length > 0}>
      <summary>Is more open now than this job needs?</summary>
      <fieldset class="ticks">
        <legend class="unseen">Open now</legend>
        {others.map(({ id, name }) => (
          <Tick id={`open.${key(id)}`} name="open" value={id} checked={open.includes(id)} label={name} />
        ))}
      </fieldset>
      <p class="hint">Opening is not charged for what is open already.</p>
    </details>
  );
};

/** Offered, and taken in by a tick: the rate book's usual companions of the work. */
const GoesWith = ({ also, cost, context: { rateBook } }: ExtraFaultPageProps) => {
  const offers = [
    ...also.flatMap((id) => rateBook.operations.find((operation) => operation.id === id) ?? []),
    ...(cost?.companions ?? []).map(({ operation }) => operation),
  ];
  const reason = (id: string) => rateBook.companions?.find(({ operation }) => operation === id)?.reason;
  return offers.length === 0 ? null : (
    <fieldset class="part ticks" id="goes-with">
      <legend>Usually goes with it</legend>
      {offers.map(({ id, name }) => (
        <Tick id={`also.${key(id)}`} name="also" value={id} checked={also.includes(id)} label={name} hint={reason(id)} />
      ))}
    </fieldset>
  );
};

const CostNow = ({
  cost: { now, later, laterAtLeast, total, aboveAgreed, margin, faults },
  tongue,
  base,
}: ExtraFaultPageProps & { cost: Cost }) => (
  <section class="card" id="cost" aria-labelledby="cost-name">
    <h2 id="cost-name">What it costs</h2>
    <Table
      class="lines"
      caption="Now and at a later visit, tax included"
      heads={["When", "Opens", ...figures("Time", "Price")]}
      rows={[
        [
          `Now, on top of revision ${base.revision}`,
          listed(now.opens) || "nothing more",
          duration(now.minutes, tongue.locale),
          <strong>{signedMoney(now.price, tongue)}</strong>,
        ],
        [
          "At a later visit",
          listed(later.opens) || "nothing",
          duration(later.minutes, tongue.locale),
          `${laterAtLeast ? "from " : ""}${money(later.price, tongue)}`,
        ],
      ]}
    />
    {faults && faults.each.length > 1 ? <FaultsPart faults={faults} tongue={tongue} /> : null}
    <p>
      {margin ? `${margin} ` : ""}The whole estimate then comes to <strong>{money(total, tongue)}</strong>
      {aboveAgreed === undefined ? "" : `, ${signedMoney(aboveAgreed, tongue)} on what is agreed`}.
    </p>
  </section>
);
