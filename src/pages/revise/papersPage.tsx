/** What the owner of one job gets: the words first said, how much of the reckoning, in which language, on which paper. */

import type { PaperDetail } from "../../estimating/input.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Box, type Options, Pick } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

interface PapersPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly owner: string;
  readonly languages: Options;
  /** As the settings have them. */
  readonly usual: { readonly language: string; readonly paper: string; readonly detail: PaperDetail };
  /** The draft that may still be changed. */
  readonly draft?: string;
  /** Its options, by id. */
  readonly options: readonly { readonly id: string; readonly name: string }[];
  /** The shop's own names on the draft, where the owner reads another language. */
  readonly naming?: { readonly language: string; readonly texts: readonly string[] };
  /** What the owner has, as it was issued. */
  readonly issued?: { readonly revision: number; readonly language: string };
  /** As they stand, or as they were typed. */
  readonly packages: readonly { readonly name: string; readonly options: readonly string[] }[];
  readonly say?: string;
}

export const DETAILS = [
  ["letter", "A letter of one page: what is wrong, what you will do, and what it comes to"],
  ["by assembly", "What each assembly comes to"],
  ["every line", "Every line"],
] as const satisfies readonly (readonly [PaperDetail, string])[];

const detailName = (detail: PaperDetail): string => (detail === "letter" ? "a letter of one page" : detail);

const ROWS = [0, 1, 2];

/** Options side by side: each set is priced as a whole, and the owner picks one. */
const Packages = ({ options, packages, ...form }: PapersPageProps) => (
  <details id="packages" open={packages.length > 0}>
    <summary>Options side by side, such as minimal, advised and full</summary>
    <p class="hint">
      Two or three sets of your options, each with its price. The owner picks one; a set without a name is ignored.
    </p>
    <div class="columns">
      {ROWS.map((row) => (
        <fieldset class="part">
          <legend>Set {row + 1}</legend>
          <Ask form={form} name={`packages.${row}.name`} />
          {options.map(({ id, name }) => (
            <p class="field tick">
              <input
                type="checkbox"
                id={`packages.${row}.${id}`}
                name={`packages.${row}.options`}
                value={id}
                checked={packages[row]?.options.includes(id)}
              />
              <label for={`packages.${row}.${id}`}>{name}</label>
            </p>
          ))}
        </fieldset>
      ))}
    </div>
  </details>
);

/** What is typed here is kept for the next paper in that language. */
const Naming = ({ naming, ...form }: PapersPageProps) =>
  naming && naming.texts.length > 0 ? (
    <fieldset class="part" id="names">
      <legend>Your own names, in {naming.language}</legend>
      <p class="hint">
        The owner reads {naming.language}, and these are your own words. What you give here is used on this estimate and kept for
        the next. Left empty, a name is printed as it is.
      </p>
      {naming.texts.map((text, row) => (
        <>
          <input type="hidden" name={`names.${row}.text`} value={text} />
          <Box {...form} name={`names.${row}.said`} label={text} size="long" />
        </>
      ))}
      <Ask
        form={form}
        name="namesRight"
        hint={`Such as what you wrote in ${naming.language} yourself; it is not asked about again.`}
      />
    </fieldset>
  ) : null;

/** The field is called as what tells all errors is. */
const WORDS = "words";

export const PapersPage = (props: PapersPageProps) => {
  const { frame, job, owner, usual, errors, say, issued } = props;
  return (
    <JobFramed frame={frame} job={job} title="What the owner gets" wrong={errors.size > 0}>
      <ErrorSummary errors={new Map([...errors].map(([field, text]) => [field === "summary" ? WORDS : field, text]))} />
      <Said say={say} />
      <form method="post" action={`/jobs/${job.id}/papers`} novalidate>
        {["language", "locale", "summary", "detail", "paper"]
          .map((name) => `was.${name}`)
          .map((name) => (
            <input type="hidden" name={name} value={props.fields.get(name) ?? ""} />
          ))}
        {props.draft ? (
          <fieldset class="part">
            <legend>This estimate</legend>
            <Ask form={props} name="summary" id={WORDS} rows={4} />
            <div class="columns">
              <Ask form={props} name="detail" options={[["", `As usual: ${detailName(usual.detail)}`], ...DETAILS]} />
              <Pick
                {...props}
                name="paper"
                label="Paper"
                options={[
                  ["", `As the shop's: ${usual.paper}`],
                  ["A4", "A4"],
                  ["Letter", "Letter"],
                ]}
              />
            </div>
            {props.options.length > 0 ? <Packages {...props} /> : null}
            <p class="links">
              <a href={`/estimates/${props.draft}.pdf`}>See it as PDF</a>
            </p>
          </fieldset>
        ) : null}
        <Naming {...props} />
        <fieldset class="part">
          <legend>All that {owner} gets, on this job and every other</legend>
          <div class="columns">
            <Pick
              {...props}
              name="language"
              label="Language"
              hint={`${issued ? `Revision ${issued.revision} was issued in ${issued.language} and stays so, page and PDF; this is for what you issue next. ` : ""}Your own names and terms are asked for once the owner reads another language than English.`}
              options={[["", `As the shop's: ${usual.language}`], ...props.languages]}
            />
            <Box
              {...props}
              name="locale"
              label="Language tag for figures and dates"
              hint="Such as de-AT; empty: as the shop's, or as usual in the language chosen."
              code
            />
          </div>
        </fieldset>
        <p class="actions">
          <button type="submit" class="primary">
            Save
          </button>
        </p>
      </form>
    </JobFramed>
  );
};
