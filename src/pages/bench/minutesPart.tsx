/** Minutes, where no timer ran. */
import { Box, Pick } from "../frame/field.js";
import { BenchForm } from "./benchForm.js";
import { type BenchView, workValue } from "./view.js";

export const Minutes = (view: BenchView) => {
  const { groups, after, input } = view;
  const works = [
    ...groups.flatMap(({ name, works }) => works.map(({ id, title, blocked }) => [id, `${name}: ${title}`, blocked] as const)),
    ...after.map(({ id, title, blocked }) => [id, title, blocked] as const),
  ];
  return (
    <BenchForm view={view} act="minutes" title="Minutes" id="minutes-form">
      <fieldset class="part">
        <legend>Enter minutes</legend>
        <div class="columns">
          <Pick
            {...view}
            name="work"
            label="Work"
            options={[
              ["access", "Opening and refitting"],
              ...works.map(
                ([id, title, blocked]) => [workValue({ item: id }), blocked ? `${title} – not agreed` : title] as const,
              ),
              ...(input.map?.assemblies ?? []).map(
                ({ id, name }) => [workValue({ assembly: id }), `${name}: opening and refitting`] as const,
              ),
              ...(input.offers ?? [])
                .filter(({ pullMinutes }) => pullMinutes !== undefined)
                .map(({ id, source }) => [workValue({ offer: id }), `Pull parts: ${source}`] as const),
            ]}
          />
          <Box {...view} name="minutes" label="Minutes" size="money" />
          <Box {...view} name="note" label="Note" size="long" />
        </div>
        <button type="submit" class="primary big">
          Log the minutes
        </button>
      </fieldset>
    </BenchForm>
  );
};
