/** The people of the shop: add, change the role, close an account; and who came in when. */

import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { Table, unseen } from "../frame/table.js";
import { PeopleMenu, ShownOnce } from "./view.js";

type Role = "manager" | "technician";

export interface StaffPageProps extends AskedForm {
  readonly frame: Frame;
  readonly script: string;
  readonly people: readonly {
    readonly id: string;
    readonly name: string;
    readonly role: Role;
    readonly joined: boolean;
    readonly left?: string;
    /** Of someone who left: one whose time the log refused. */
    readonly timer?: { readonly jobId: string; readonly number: string } | undefined;
    readonly invitedUntil?: string;
  }[];
  /** Newest first. */
  readonly events: readonly {
    readonly at: string;
    readonly what: string;
    readonly name?: string;
    readonly by?: string;
    readonly how?: string;
    readonly caller?: string;
  }[];
  /** An invitation as it is made, shown once. */
  readonly link?:
    | {
        readonly name: string;
        readonly address: string;
        readonly days: number;
        /** Others reach the shop, but not at this address. */
        readonly here: boolean;
      }
    | undefined;
  readonly say?: string | undefined;
}

const ROLE_NAMES: readonly (readonly [Role, string])[] = [
  ["technician", "Technician: jobs, bench, estimates"],
  ["manager", "Manager: also settings, rates, staff, tokens, exports"],
];

export const StaffPage = (props: StaffPageProps) => {
  const { frame, script, link, errors, say } = props;
  return (
    <Page frame={frame} title="Staff" wrong={errors.size > 0} script={script}>
      <h1>Staff</h1>
      <PeopleMenu at="/staff" all />
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {link ? <Invitation {...link} /> : null}
      <People {...props} />
      <form method="post" action="/staff" novalidate>
        <fieldset class="part">
          <legend>Add someone</legend>
          <div class="columns">
            <Ask form={props} name="name" />
            <Ask form={props} name="role" options={ROLE_NAMES} />
          </div>
          <p class="actions">
            <button type="submit" class="primary">
              Make an invitation
            </button>
          </p>
        </fieldset>
      </form>
      <Events {...props} />
    </Page>
  );
};

const Invitation = ({ name, address, days, here }: NonNullable<StaffPageProps["link"]>) => (
  <ShownOnce name="address" title={`An invitation for ${name}`} label="Link" value={address}>
    Shown only now. It works once, within {days} days; whoever opens it first becomes {name}. A new one ends it.
    {here ? " Only this machine opens this address: put the one that others reach the shop at in its place, up to /sign-in." : ""}
  </ShownOnce>
);

const People = ({ people }: StaffPageProps) => (
  <Table
    class="list"
    caption="Staff, by name"
    heads={["Name", "Role", "Stands", unseen("Change")]}
    rows={people.map((person) => [
      person.name,
      person.left ? person.role : <RoleForm {...person} />,
      <>
        {standing(person)}
        {person.timer ? (
          <>
            ; a timer runs on <a href={`/jobs/${person.timer.jobId}/work-log`}>{person.timer.number}</a>
          </>
        ) : null}
      </>,
      <div class="beside">
        {person.left ? (
          <Act path={`/staff/${person.id}/opening`} text="Open again" name={person.name} />
        ) : (
          <>
            <Act path={`/staff/${person.id}/invitation`} text="New invitation" name={person.name} />
            <Act path={`/staff/${person.id}/closing`} text="Close the account" name={person.name} />
          </>
        )}
      </div>,
    ])}
  />
);

function standing({ joined, left, invitedUntil }: StaffPageProps["people"][number]): string {
  if (left) return `closed since ${left}`;
  const invited = invitedUntil ? `invited until ${invitedUntil}` : "";
  if (!joined) return invited || "no way in yet; make a new invitation";
  return ["can sign in", invited].filter(Boolean).join(", ");
}

const RoleForm = ({ id, name, role }: StaffPageProps["people"][number]) => (
  <form method="post" action={`/staff/${id}/role`} class="beside">
    <label class="unseen" for={`role-${id}`}>
      Role of {name}
    </label>
    <select id={`role-${id}`} name="role" class="size-word">
      {ROLE_NAMES.map(([value]) => (
        <option value={value} selected={value === role}>
          {value}
        </option>
      ))}
    </select>
    <button type="submit" class="quiet">
      Change<span class="unseen"> the role of {name}</span>
    </button>
  </form>
);

const Act = ({ path, text, name }: { path: string; text: string; name: string }) => (
  <form method="post" action={path}>
    <button type="submit" class="quiet">
      {text}
      <span class="unseen"> of {name}</span>
    </button>
  </form>
);

const Events = ({ events }: StaffPageProps) => (
  <section aria-labelledby="events-name">
    <h2 id="events-name">Sign-ins, and changes to who gets in</h2>
    <Table
      caption="Sign-ins, newest first"
      scroll
      heads={["When", "What", "Whose account", "How, or by whom", "From"]}
      rows={events.map(({ at, what, name, by, how, caller }) => [
        at,
        what,
        name,
        how ?? (by && `by ${by}`),
        caller && <code>{caller.slice(0, 8)}</code>,
      ])}
    />
    <p class="hint">The newest hundred. 'From' is the same for the same network address and does not tell it.</p>
  </section>
);
