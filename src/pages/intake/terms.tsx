import { PROFILES } from "../../estimating/law/profiles.js";
import { SCARCITIES } from "../../estimating/lists.js";
import { capital, counted } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { labelOf } from "../form/label.js";
import type { Options } from "../frame/field.js";
import { Choice, Text, Tick } from "./field.js";
import { Fold } from "./fold.js";
import type { IntakeView } from "./view.js";

export const TermsPart = ({ view }: { view: IntakeView }) => (
  <Fold view={view} name="terms" title="Terms of this estimate" says={unusual(view)} holds={/^(terms|scarcity)\.|^meta\.asOf/}>
    {() => <TermFields view={view} />}
  </Fold>
);

/** What differs from usual, in one line. */
function unusual({ fields, read, context }: IntakeView): string {
  const said = (name: string) => fields.get(`terms.${name}`)?.trim() ?? "";
  const named = (name: string) =>
    said(name) ? `${labelOf(`terms.${name}`, read.draft, context).toLowerCase()} ${said(name)}` : "";
  const scarce = Object.values(read.draft.scarcity).filter(Boolean).length;
  const told = [
    said("pricing") && PRICINGS.find(([value]) => value === said("pricing"))?.[1].toLowerCase(),
    said("discount") && `discount ${said("discount")} ${said("discountBy") === "amount" ? context.currency : "percent"}`,
    said("rush") && "rush",
    ...["prepaid", "diagnosisLimit", "ceiling", "storageDays"].map(named),
    said("profile") && PROFILES.find(({ id }) => id === said("profile"))?.name,
    context.rateBook.fees.diagnosis.amount > 0 && !said("diagnosis") && "no diagnosis fee",
    scarce > 0 && `${counted(scarce, "part type")} hard to get`,
  ].filter(Boolean);
  return told.length > 0 ? told.join("; ") : "as usual";
}

const TermFields = ({ view }: { view: IntakeView }) => {
  const { currency } = view.context;
  return (
    <>
      <div class="columns">
        <Text view={view} name="meta.asOf" label="Prices as of" size="word" type="date" />
        <Text view={view} name="terms.queue" size="figure" />
        <Text view={view} name="terms.prepaid" label={`Paid already, ${currency}`} size="money" />
        <Text
          view={view}
          name="terms.diagnosisLimit"
          label={`Most owed if declined, ${currency}`}
          hint="Agreed with the owner, tax included."
          size="money"
        />
        <Text
          view={view}
          name="terms.ceiling"
          label={`Ceiling set by the owner, ${currency}`}
          hint="Otherwise the rate book's."
          size="money"
        />
        <Text view={view} name="terms.storageDays" size="figure" />
      </div>
      <PricingPart view={view} />
      <div class="columns">
        <Text view={view} name="terms.discount" size="money" />
        <Choice
          view={view}
          name="terms.discountBy"
          label="Discount in"
          options={[
            ["percent", "percent"],
            ["amount", currency],
          ]}
        />
        <Text view={view} name="terms.discountReason" hint="The owner reads it." />
      </div>
      <div class="columns">
        <Tick view={view} name="terms.rush" label="Rush: ahead of the queue" />
        <Tick view={view} name="terms.diagnosis" />
        <Choice
          view={view}
          name="terms.profile"
          hint="Check your local law."
          options={[["", "The shop's usual"], ...PROFILES.map(({ id, name }) => [id, name] as const)]}
        />
      </div>
      <ScarcityFold view={view} />
      {view.surroundings.saved && !view.fields.get("meta.fresh") ? (
        <p class="actions">
          <button type="submit" name="intent" value="fresh prices" class="quiet">
            Use today's rate book and offers
          </button>
          <span class="hint">
            This draft is priced by {view.context.rateBook.name}, version {view.context.rateBook.version}, and the offers it was
            written with.
          </span>
        </p>
      ) : null}
    </>
  );
};

/** Part types counted in the grid can be said to be hard to get, where no offer says so. */
const ScarcityFold = ({ view }: { view: IntakeView }) => {
  const counted = new Set(view.read.input.items.flatMap(({ part }) => (part && "type" in part ? [part.type] : [])));
  const types = view.context.rateBook.partTypes.filter(({ id }) => counted.has(id) || view.fields.get(`scarcity.${key(id)}`));
  if (types.length === 0) return null;
  return (
    <details class="fold" id="scarcity-by-type">
      <summary>Parts that are hard to get</summary>
      <p class="hint">For part types counted in the grid. Parts of the catalogue go by their offers.</p>
      <div class="columns">
        {types.map(({ id, name }) => (
          <Choice
            view={view}
            name={`scarcity.${key(id)}`}
            label={name}
            options={[["", "Usual"], ...SCARCITIES.map((one) => [one, capital(one)] as const)]}
          />
        ))}
      </div>
    </details>
  );
};

/** The figures that the chosen pricing does not use are hidden by the style sheet, where the browser can. */
const PRICINGS: Options = [
  ["", "As counted, nothing found"],
  ["fixed price", "Fixed price that covers most such jobs"],
  ["time and parts with ceiling", "Time and parts, with a ceiling that covers most such jobs"],
  ["expected cost plus", "Fixed price: expected cost plus a margin"],
];

const PricingPart = ({ view }: { view: IntakeView }) => (
  <div class="columns pricing">
    <Choice view={view} name="terms.pricing" options={PRICINGS} />
    <div class="pricing-confidence">
      <Text view={view} name="terms.confidence" hint="80: a price that covers 8 jobs in 10." size="money" />
    </div>
    <div class="pricing-margin">
      <Text view={view} name="terms.margin" size="money" />
    </div>
    <div class="pricing-least">
      <Text
        view={view}
        name="terms.leastMargin"
        hint="What the price must leave over the expected cost. Empty: no minimum."
        size="money"
      />
    </div>
  </div>
);
