/** Signing in: by passkey, by name and passphrase, or by a recovery code. What someone sent when their sign-in had ended waits here. */
import { Bare } from "../frame/bare.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import { Box, type SmallForm } from "../frame/field.js";
import { PasskeyButton } from "./passkey.js";
import type { HeldForm, Look, PasskeyPlace } from "./view.js";

export interface SignInPageProps extends SmallForm {
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
          <Box {...props} name="name" label="Your name" autocomplete="username" />
          <Box {...props} name="passphrase" label="Passphrase" type="password" autocomplete="current-password" />
          <p class="actions">
            <button type="submit">Sign in</button>
          </p>
        </fieldset>
        <details class="part" open={errors.has("code")}>
          <summary>With a recovery code</summary>
          <Box {...props} name="code" label="Recovery code" hint="One of the ten you printed. Each is good once." code />
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
