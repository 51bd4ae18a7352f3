/** Signing in: by passkey, by name and passphrase, or by a recovery code. What someone sent when their sign-in had ended waits here. */

import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import { Bare } from "../frame/layout.js";
import { PasskeyButton } from "./newWay.js";
import type { HeldForm, Look, PasskeyPlace } from "./view.js";

interface SignInPageProps extends AskedForm {
  readonly look: Look;
  readonly place: PasskeyPlace;
  /** Where to go afterwards: a path of this site. */
  readonly to: string;
  readonly held?: HeldForm | undefined;
  /** The shop's secret makes a new manager's account here. */
  readonly secretHelps: boolean;
}

export const SignInPage = (props: SignInPageProps) => {
  const { look, place, to, held, errors, secretHelps } = props;
  return (
    <Bare {...look} title="Sign in" wrong={errors.size > 0}>
      <h1>Sign in</h1>
      <ErrorSummary errors={errors} />
      {held ? (
        <p class="said">
          Your sign-in had ended, so nothing was changed yet. What you typed is kept here: sign in, then look at it and send it.
        </p>
      ) : null}
      <form method="post" action="/sign-in" class="narrow" novalidate>
        <input type="hidden" name="to" value={to} />
        {held ? <input type="hidden" name="held" value={JSON.stringify(held)} /> : null}
        <PasskeyButton place={place} act="get" text="Sign in with a passkey" />
        <fieldset class="part">
          <legend>With a passphrase</legend>
          <Ask form={props} name="name" autocomplete="username" />
          <Ask form={props} name="passphrase" autocomplete="current-password" />
          <p class="actions">
            <button type="submit">Sign in</button>
          </p>
        </fieldset>
        <details class="part" open={errors.has("code")}>
          <summary>With a recovery code</summary>
          <Ask form={props} name="code" code />
          <p class="actions">
            <button type="submit">Sign in</button>
          </p>
        </details>
      </form>
      <p class="hint">
        No way in left? A manager of the shop can make you a new invitation.
        {secretHelps ? (
          <>
            {" "}
            If no manager gets in: <a href="/sign-in/secret">use the shop's secret</a>.
          </>
        ) : null}
      </p>
    </Bare>
  );
};

/** Before anyone has an account: the shop's secret lets in. */
interface SecretPageProps extends AskedForm {
  readonly look: Look;
  readonly to: string;
  readonly held?: HeldForm | undefined;
}

export const SecretPage = (props: SecretPageProps) => (
  <Bare {...props.look} title="Sign in" wrong={props.errors.size > 0}>
    <h1>Sign in</h1>
    <ErrorSummary errors={props.errors} />
    {props.held ? <p class="said">Your sign-in had ended, so nothing was changed yet. What you typed is kept here.</p> : null}
    <form method="post" action="/sign-in" class="narrow" novalidate>
      <input type="hidden" name="to" value={props.to} />
      {props.held ? <input type="hidden" name="held" value={JSON.stringify(props.held)} /> : null}
      <Ask form={props} name="secret" autocomplete="current-password" />
      <p class="actions">
        <button type="submit" class="primary">
          Sign in
        </button>
      </p>
    </form>
  </Bare>
);

/** Signed in again: what was typed before, to be looked at and sent by whoever it is now. */
interface SendAgainProps {
  readonly look: Look;
  readonly held: HeldForm;
  /** Who is signed in now. */
  readonly name: string | undefined;
  /** The form can be shown again with everything in it. */
  readonly reopens: boolean;
}

/** Fields of the form's own, that nobody typed. */
const typed = ([name, value]: readonly [string, string]): boolean =>
  value.trim() !== "" && !/^(meta\.|version$|intent$|token$)/.test(name);

export const SendAgain = ({ look, held, name, reopens }: SendAgainProps) => (
  <Bare {...look} title="Send what you typed">
    <h1>Send what you typed</h1>
    <p>
      You are signed in{name ? ` as ${name}` : ""}. Nothing has been changed yet: the form you sent before waits below, as you
      typed it.
    </p>
    <form method="post" action={held.path} {...(held.kind === "multipart" ? { enctype: "multipart/form-data" } : {})}>
      {held.fields
        .filter(([field]) => !reopens || field !== "intent")
        .map(([field, value]) => (
          <input type="hidden" name={field} value={value} />
        ))}
      {held.files.map((field, at) => (
        <p class="field">
          <label for={`file-${at}`}>Please choose the file again</label>
          <input type="file" id={`file-${at}`} name={field} />
        </p>
      ))}
      <p class="actions">
        {reopens ? (
          <button type="submit" class="primary" name="intent" value="recalculate">
            Go on with the form
          </button>
        ) : (
          <button type="submit" class="primary">
            Send it now
          </button>
        )}
        <a class="button" href={held.path}>
          Cancel and open the page again
        </a>
      </p>
    </form>
    <details class="part">
      <summary>What you typed</summary>
      <dl class="plain">
        {held.fields.filter(typed).map(([field, value]) => (
          <div>
            <dt>{field}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </details>
  </Bare>
);
