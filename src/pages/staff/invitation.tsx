/** An invitation, opened by the one it is for. */
import { Bare } from "../frame/bare.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { SmallForm } from "../frame/field.js";
import { NewWay } from "./newWay.js";
import type { Look, PasskeyPlace } from "./view.js";

export interface InvitationPageProps extends SmallForm {
  readonly look: Look;
  readonly place: PasskeyPlace;
  readonly name: string;
  /** They had a way in before. */
  readonly joined: boolean;
  readonly secret: string;
  readonly shortest: number;
}

export const InvitationPage = (props: InvitationPageProps) => (
  <Bare {...props.look} title="Your way in" wrong={props.errors.size > 0}>
    <h1>Welcome, {props.name}</h1>
    <ErrorSummary errors={props.errors} />
    <p>
      {props.joined
        ? "Choose a new way to sign in. What you had before goes on working; take it away under your name if it is lost."
        : "Choose how you sign in from now on. This link works once."}
    </p>
    <form method="post" action="/sign-in/invitation" novalidate>
      <input type="hidden" name="invitation" value={props.secret} />
      <input type="hidden" name="name" value={props.name} autocomplete="username" />
      <NewWay {...props} send="Use this passphrase" />
    </form>
  </Bare>
);
