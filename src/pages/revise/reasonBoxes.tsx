/** Why work was dropped or corrected, in the shop's words: the owner reads it beside the row. */
import { causesOf } from "../../estimating/agreement/causes.js";
import { difference } from "../../estimating/agreement/difference.js";
import type { EstimateInput, Paperwork, WorkItem } from "../../estimating/input.js";
import { workTitle } from "../../wording/line.js";
import { Box, type SmallForm } from "../frame/field.js";

export interface ChangedWork {
  /** Of the work item. */
  readonly id: string;
  readonly title: string;
  readonly was: "dropped" | "corrected" | "found";
  /** As said so far. */
  readonly reason?: string;
}

/** What stands in both revisions and differs, then what is gone; work that is new has its own reason, and what the owner took or left has the owner's. */
export function changedWork(before: EstimateInput, after: EstimateInput): ChangedWork[] {
  const { changed: differing, dropped } = difference(before, after);
  const changed = differing.filter((pair) => !isOwners(pair));
  const why = after.paperwork?.whyChanged ?? {};
  const reasonOf = (id: string) => (why[id] === undefined ? {} : { reason: why[id] });
  return [
    ...changed.map(({ before: earlier, after: { id, ...rest } }) => ({
      id,
      title: workTitle(earlier, before),
      was: causesOf(earlier, { id, ...rest }).every((cause) => cause === "found") ? ("found" as const) : ("corrected" as const),
      ...reasonOf(id),
    })),
    ...dropped.map((item) => ({ id: item.id, title: workTitle(item, before), was: "dropped" as const, ...reasonOf(item.id) })),
  ];
}

const isOwners = ({ before, after }: { readonly before: WorkItem; readonly after: WorkItem }): boolean =>
  after.certainty.is === "optional" &&
  (after.certainty.refused !== undefined || before.certainty.is === "optional") &&
  causesOf(before, after).every((cause) => cause === "choice");

/** As the form of issuing holds them: one row a piece of work. */
export const reasonFields = (work: readonly ChangedWork[]): [string, string][] =>
  work.flatMap(({ id, reason = "" }, row): [string, string][] => [
    [`why.${row}.item`, id],
    [`why.${row}.reason`, reason],
  ]);

/** The other way: what is printed of them once it is issued. */
export function reasonsTyped(fields: ReadonlyMap<string, string>): Pick<Paperwork, "whyChanged"> {
  const said = [...fields].flatMap(([name, text]) => {
    const row = /^why\.(\d+)\.reason$/.exec(name)?.[1];
    return row && text.trim() ? [[fields.get(`why.${row}.item`) ?? "", text.trim()] as const] : [];
  });
  return said.length > 0 ? { whyChanged: Object.fromEntries(said) } : {};
}

export const ReasonBoxes = ({ work, ...form }: SmallForm & { work: readonly ChangedWork[] }) =>
  work.length === 0 ? null : (
    <fieldset class="part">
      <legend>Why, for the owner to read</legend>
      {work.map(({ id, title, was }, row) => (
        <>
          <input type="hidden" name={`why.${row}.item`} value={id} />
          <Box {...form} name={`why.${row}.reason`} label={`${title}: ${was}`} size="long" />
        </>
      ))}
    </fieldset>
  );
