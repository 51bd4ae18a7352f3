/** One's own account: passkeys, passphrase, recovery codes, and where one is signed in. */

import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { Table, unseen } from "../frame/table.js";
import { PasskeyButton } from "./newWay.js";
import { type PasskeyPlace, PeopleMenu } from "./view.js";

interface AccountPageProps extends AskedForm {
  readonly frame: Frame;
  readonly script: string;
  readonly place: PasskeyPlace;
  readonly person: { readonly name: string; readonly role: "manager" | "technician" };
  readonly passkeys: readonly {
    readonly id: string;
    readonly name: string;
    readonly site: string;
    readonly made: string;
    readonly used?: string;
  }[];
  readonly passphraseSet?: string;
  readonly codesLeft: number;
  readonly sessions: readonly {
    readonly id: string;
    readonly how: string;
    readonly agent: string;
    readonly begun: string;
    readonly seen: string;
    /** The one this page is seen with. */
    readonly here: boolean;
  }[];
  readonly say?: string | undefined;
}

export const AccountPage = (props: AccountPageProps) => {
  const { frame, script, person, errors, say } = props;
  return (
    <Page frame={frame} title="Your account" wrong={errors.size > 0} script={script}>
      <h1>{person.name}</h1>
      <PeopleMenu at="/account" all={person.role === "manager"} />
      <ErrorSummary errors={errors} />
      <Said say={say} />
      <Passkeys {...props} />
      <Passphrase {...props} />
      <Codes {...props} />
      <Sessions {...props} />
    </Page>
  );
};

const Passkeys = ({ passkeys, place }: AccountPageProps) => (
  <section aria-labelledby="passkey">
    <h2 id="passkey" tabindex={-1}>
      Passkeys
    </h2>
    {passkeys.length === 0 ? (
      <p class="empty">None yet. A passkey cannot be forgotten, guessed or asked for by another site.</p>
    ) : (
      <ul class="ways">
        {passkeys.map(({ id, name, site, made, used }) => (
          <li>
            <form method="post" action={`/account/passkeys/${encodeURIComponent(id)}/name`} class="beside">
              <div class="field">
                <label for={`name-${id}`}>Name</label>
                <input id={`name-${id}`} name="passkeyName" value={name} class="size-word" maxlength={60} autocomplete="off" />
              </div>
              <button type="submit" class="quiet">
                Rename
              </button>
            </form>
            <p class="hint">
              For {site}, made {made}, {used ? `last used ${used}` : "not used yet"}.
            </p>
            <form method="post" action={`/account/passkeys/${encodeURIComponent(id)}/removal`}>
              <button type="submit" class="quiet">
                Remove<span class="unseen"> {name}</span>
              </button>
            </form>
          </li>
        ))}
      </ul>
    )}
    <form method="post" action="/account/passkeys">
      <PasskeyButton place={place} act="create" text="Make a passkey" />
    </form>
  </section>
);

const Passphrase = (props: AccountPageProps) => {
  const { passphraseSet, person } = props;
  return (
    <section aria-labelledby="passphrase-name">
      <h2 id="passphrase-name">Passphrase</h2>
      <p>{passphraseSet ? `Set ${passphraseSet}. A new one signs you out everywhere else.` : "None is set."}</p>
      <form method="post" action="/account/passphrase" class="narrow" novalidate>
        <input type="hidden" name="name" value={person.name} autocomplete="username" />
        {passphraseSet ? <Ask form={props} name="current" autocomplete="current-password" /> : null}
        <Ask form={props} name="passphrase" autocomplete="new-password" />
        <p class="actions">
          <button type="submit">Set the passphrase</button>
        </p>
      </form>
      {passphraseSet ? (
        <form method="post" action="/account/passphrase/removal">
          <button type="submit" class="quiet">
            Remove the passphrase
          </button>
        </form>
      ) : null}
    </section>
  );
};

const Codes = ({ codesLeft }: AccountPageProps) => (
  <section aria-labelledby="codes-name">
    <h2 id="codes-name">Recovery codes</h2>
    <p>
      {codesLeft === 0
        ? "None is left. Make ten and print them: they open your account when everything else is lost."
        : `${codesLeft} of 10 are left. Making new ones ends these.`}
    </p>
    <form method="post" action="/account/codes">
      <button type="submit">Make ten recovery codes</button>
    </form>
  </section>
);

const Sessions = ({ sessions }: AccountPageProps) => (
  <section aria-labelledby="sessions-name">
    <h2 id="sessions-name">Where you are signed in</h2>
    <Table
      class="list"
      caption="Sessions, last used first"
      heads={["Browser", "Signed in", "Use", unseen("Sign out")]}
      rows={sessions.map(({ id, how, agent, begun, seen, here }) => [
        <>
          {agent || "a browser that did not say"} {here ? <span class="tag">this one</span> : null}
        </>,
        `since ${begun}, by ${how}`,
        `last used ${seen}`,
        here ? null : (
          <form method="post" action={`/account/sessions/${id}/end`}>
            <button type="submit" class="quiet">
              Sign out<span class="unseen"> {agent}</span>
            </button>
          </form>
        ),
      ])}
    />
    {sessions.length > 1 ? (
      <form method="post" action="/account/sessions/end-others">
        <button type="submit">Sign out everywhere else</button>
      </form>
    ) : null}
  </section>
);
