/** Tokens for programs: what each may, when it was used, and taking it back. */

import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Tick, Wrong } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { Table, unseen } from "../frame/table.js";
import { PeopleMenu, ShownOnce } from "./view.js";

export interface TokensPageProps extends AskedForm {
  readonly frame: Frame;
  readonly script: string;
  /** Newest first. */
  readonly tokens: readonly {
    readonly id: string;
    readonly name: string;
    readonly by: string;
    readonly scopes: readonly string[];
    readonly made: string;
    readonly used?: string;
    readonly revoked?: string;
  }[];
  /** A token as it is made, shown once. */
  readonly made?: { readonly name: string; readonly token: string } | undefined;
  /** What a new one may, as it stands in the form. */
  readonly ticked: readonly string[];
  readonly say?: string | undefined;
}

const MAY = [
  ["read", "read: look at everything, and work out prices"],
  ["write", "write: change what a technician may change"],
  ["admin", "admin: what only a manager may, such as settings, rates and exports; with write also change it"],
] as const;

export const TokensPage = (props: TokensPageProps) => {
  const { frame, script, made, ticked, errors, say } = props;
  return (
    <Page frame={frame} title="API tokens" wrong={errors.size > 0} script={script}>
      <h1>API tokens</h1>
      <PeopleMenu at="/tokens" all />
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {made ? (
        <ShownOnce name="token" title={`The token ${made.name}`} label="Token" value={made.token}>
          Shown this once. Send it as <code>Authorization: Bearer …</code> with each request.
        </ShownOnce>
      ) : null}
      <Tokens {...props} />
      <form method="post" action="/tokens" novalidate>
        <fieldset class="part">
          <legend>A new token</legend>
          <p>It acts in your name, never with more rights than yours, and ends with your account.</p>
          <Ask form={props} name="name" size="word" />
          <fieldset class="ticks" id="scopes">
            <legend>{props.says.get("scopes")!.label}</legend>
            <Wrong errors={errors} name="scopes" />
            {MAY.map(([scope, text]) => (
              <Tick id={`scope-${scope}`} name="scopes" value={scope} checked={ticked.includes(scope)} label={text} />
            ))}
          </fieldset>
          <p class="actions">
            <button type="submit" class="primary">
              Make the token
            </button>
          </p>
        </fieldset>
      </form>
    </Page>
  );
};

const Tokens = ({ tokens }: TokensPageProps) => (
  <Table
    class="list"
    caption="Tokens, newest first"
    empty="None yet. A program that uses the API needs one; people sign in instead."
    heads={["For", "Scopes", "Made", "Use", unseen("Revoke")]}
    rows={tokens.map(({ id, name, by, scopes, made, used, revoked }) => [
      name,
      `may ${scopes.join(", ")}`,
      `made ${made} by ${by}`,
      used ? `last used ${used}` : "never used",
      revoked ? (
        <span class="tag">revoked {revoked}</span>
      ) : (
        <form method="post" action={`/tokens/${id}/revocation`}>
          <button type="submit" class="quiet">
            Revoke<span class="unseen"> {name}</span>
          </button>
        </form>
      ),
    ])}
  />
);
