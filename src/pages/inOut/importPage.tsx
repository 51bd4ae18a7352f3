/** A file is read, shown row by row, and carried out only then. */

import type { Child } from "hono/jsx";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Field, FileBox, firstLineKept, Pick, Tick } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { ImportReport, type ReportView } from "./importReport.js";

interface ImportPageProps {
  readonly frame: Frame;
  /** Where the form is sent. */
  readonly action: string;
  readonly back: { readonly href: string; readonly name: string };
  /** The entry of the ways through the shop that it stands under. */
  readonly at?: "/" | "/settings";
  readonly title: string;
  /** Above the form. */
  readonly lead?: Child;
  /** It is only taken away. */
  readonly closed?: boolean;
  readonly text: string;
  readonly fields: ReadonlyMap<string, string>;
  readonly errors: ReadonlyMap<string, string>;
  readonly say?: string | undefined;
  readonly report?: ReportView | undefined;
  /** Of a parts list: models with their assemblies. */
  readonly models?: readonly {
    readonly id: string;
    readonly name: string;
    readonly assemblies: readonly (readonly [string, string])[];
  }[];
}

const HINT =
  "Up to 5 MiB and 5,000 rows, the first row with headings; columns in any order and under any name. Comma, semicolon or tab; " +
  "UTF-8, UTF-16 or Windows-1252.";

export const ImportPage = (props: ImportPageProps) => {
  const { frame, action, back, at = "/settings", title, text, errors, say, report, models } = props;
  return (
    <Page frame={frame} title={title} at={at} wrong={errors.size > 0}>
      <p>
        <a href={back.href}>{back.name}</a>
      </p>
      <h1>{title}</h1>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {props.lead}
      {props.closed ? null : (
        <form method="post" action={action} enctype="multipart/form-data" novalidate>
          <fieldset class="part">
            <legend>The file</legend>
            <FileBox name="file" label="CSV file" hint={HINT} accept=".csv,.tsv,.txt,text/csv" />
            <Field name="text" label={report ? "What was read; put it right here, or choose another file" : "Or paste it"}>
              <textarea id="text" name="text" rows={report ? 6 : 8} spellcheck={false} wrap="off">
                {firstLineKept(text)}
              </textarea>
            </Field>
            {models ? <Where {...props} models={models} /> : null}
          </fieldset>
          <p class="actions">
            <button type="submit" name="intent" value="read" {...(report?.ready ? {} : { class: "primary" })}>
              {report ? "Read again" : "Read it"}
            </button>
          </p>
          {report ? <ImportReport {...props} report={report} /> : null}
        </form>
      )}
    </Page>
  );
};

const Where = (props: ImportPageProps & { models: NonNullable<ImportPageProps["models"]> }) => (
  <>
    <Pick
      {...props}
      name="assembly"
      label="Assembly the list is of"
      options={[
        ["", "Choose"] as const,
        ...props.models.flatMap(({ id, name, assemblies }) =>
          assemblies.map(([assembly, called]) => [`${id} ${assembly}`, `${name}: ${called}`] as const),
        ),
      ]}
    />
    <Tick
      name="addKinds"
      label="Add the parts that the catalogue lacks as part kinds"
      checked={props.fields.get("addKinds") === "yes"}
    />
  </>
);
