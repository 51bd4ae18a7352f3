/** Owners, to find the one whose data is asked for. */
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Box, type SmallForm, Tick } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { Table } from "../frame/table.js";

interface OwnersPageProps {
  readonly frame: Frame;
  readonly name: string;
  readonly rows: readonly { readonly id: string; readonly name: string; readonly contact?: string | undefined }[];
  readonly more: boolean;
}

export const OwnersPage = ({ frame, name, rows, more }: OwnersPageProps) => (
  <Page frame={frame} title="One owner's data" at="/settings">
    <h1>One owner's data</h1>
    <form method="get" action="/data/owners" class="inline">
      <Box name="name" label="Name begins with" fields={new Map([["name", name]])} errors={new Map()} size="line" />
      <button type="submit">Look</button>
    </form>
    {rows.length === 0 ? (
      <p>No owner of that name is on record.</p>
    ) : (
      <Table
        class="list"
        caption="Owners"
        heads={["Name", "Reached by"]}
        rows={rows.map((row) => [<a href={`/data/owners/${encodeURIComponent(row.id)}`}>{row.name}</a>, row.contact])}
      />
    )}
    {more ? <p>There are more; type more of the name.</p> : null}
  </Page>
);

/** What is held about one owner, and the question before it is erased. */
interface OwnerPageProps extends SmallForm {
  readonly frame: Frame;
  readonly id: string;
  readonly name: string;
  readonly erased: boolean;
  readonly units: number;
  readonly jobs: number;
  readonly photos: number;
  readonly say?: string | undefined;
  /** Who is signed in; otherwise a name is asked for. */
  readonly staff?: string | undefined;
}

export const OwnerPage = (props: OwnerPageProps) => {
  const { frame, id, name, erased, units, jobs, photos, say, errors } = props;
  return (
    <Page frame={frame} title={`Data of ${name}`} at="/settings" wrong={errors.size > 0}>
      <h1>{`Data of ${name}`}</h1>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      <p>{`On record: ${counted(units, "unit")}, ${counted(jobs, "job")}, ${counted(photos, "photo")}.`}</p>
      <p>
        <a class="button" href={`/api/owners/${encodeURIComponent(id)}/file`} download="owner.json">
          Download everything as JSON
        </a>
      </p>
      {erased ? <p>Everything that identified the owner was erased.</p> : <Erase {...props} />}
    </Page>
  );
};

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? "" : "s"}`;

const Erase = (props: OwnerPageProps) => (
  <form method="post" action={`/data/owners/${encodeURIComponent(props.id)}/erasure`} novalidate>
    <fieldset class="part">
      <legend>Erase this owner</legend>
      <p>
        <strong>This cannot be undone.</strong> The law may ask you to keep accounts for years; check your local law first.
      </p>
      <h2>What is lost</h2>
      <ul>
        <li>name, address, telephone, e-mail, tax number, registration and notes of the owner</li>
        <li>serial numbers and notes of the units; what was reported, the condition, accessories and notes of the jobs</li>
        <li>the PDFs that were issued, and the photos</li>
        <li>
          who answered and from where, the words of the answers, questions and replies, where links went; the links open nothing
        </li>
        <li>
          the owner's name, telephone, e-mail, the lines of the address with a number, and serial numbers wherever they stand in
          other notes
        </li>
      </ul>
      <h2>What is kept</h2>
      <ul>
        <li>
          numbers and dates of jobs, maker and model, the work, parts, amounts and totals of every revision, and the work log
        </li>
        <li>the hash of each PDF and of each content as it was issued, and the chain of events: they can still be checked</li>
        <li>who of the shop did what, and that this was erased, when and by whom</li>
      </ul>
      <p>
        Backups made before today still hold it all. Notes may mention the owner in ways a search cannot find: please read them
        through. A database file on this machine is rewritten without it; a hosted one may hold some of it in its free space,
        where no page or export reads it.
      </p>
      {props.staff === undefined ? <Box {...props} name="by" label="Your name" size="line" autocomplete="name" /> : null}
      <Tick name="sure" label={`Erase ${props.name} for good`} errors={props.errors} checked={false} />
      <p class="actions">
        <button type="submit" class="danger">
          Erase
        </button>
      </p>
    </fieldset>
  </form>
);
