/** Before anyone has an account: the shop's secret lets in. */
import { Bare } from "../frame/bare.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import { Box, type SmallForm } from "../frame/field.js";
import type { HeldForm, Look } from "./view.js";

export interface SecretPageProps extends SmallForm {
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
      <Box
        {...props}
        name="secret"
        label="The shop's secret"
        hint="OHMWRIGHT_SECRET, as it was set when the shop was put up. It is wanted until the first account is made."
        type="password"
        autocomplete="current-password"
      />
      <p class="actions">
        <button type="submit" class="primary">
          Sign in
        </button>
      </p>
    </form>
  </Bare>
);
