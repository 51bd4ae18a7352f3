import { Choice, Note, Text } from "./field.js";
import type { IntakeView } from "./view.js";

export const OwnerPart = ({ view }: { view: IntakeView }) => (
  <fieldset class="part" id="part-owner">
    <legend>Owner</legend>
    {view.surroundings.owners.length > 0 ? (
      <div class="beside">
        <Choice
          view={view}
          name="owner.id"
          hint="For someone who was here before; what you change below changes the record."
          options={[["", "A new owner"], ...view.surroundings.owners.map(({ id, label }) => [id, label] as const)]}
        />
        <button type="submit" name="intent" value="take owner" class="quiet">
          Fill in from the record
        </button>
      </div>
    ) : null}
    <div class="columns">
      <Text view={view} name="owner.name" autocomplete="off" />
      <Text view={view} name="owner.phone" type="tel" size="word" />
      <Text view={view} name="owner.email" type="text" code />
      <Note view={view} name="owner.address" rows={3} />
    </div>
  </fieldset>
);
