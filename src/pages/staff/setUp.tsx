/** The first account with the shop's basic settings; or a manager's account by the shop's secret, when no manager gets in. */
import { ErrorSummary } from "../frame/errorSummary.js";
import { Box, Pick, type SmallForm } from "../frame/field.js";
import { Bare } from "../frame/layout.js";
import { NewWay } from "./newWay.js";
import type { Look, PasskeyPlace } from "./view.js";

interface SetUpPageProps extends SmallForm {
  readonly look: Look;
  readonly place: PasskeyPlace;
  readonly when: "first" | "again";
  readonly shortest: number;
  readonly currencies: readonly string[];
  /** On this machine alone an account may wait. */
  readonly mayGoOn: boolean;
}

export const SetUpPage = (props: SetUpPageProps) => {
  const { look, when, errors, mayGoOn } = props;
  const title = when === "first" ? "Set up the shop" : "A manager's account by the shop's secret";
  return (
    <Bare {...look} title={title} wrong={errors.size > 0}>
      <h1>{title}</h1>
      <ErrorSummary errors={errors} />
      {when === "first" ? (
        <p>
          Once there is an account, everyone signs in, on this machine too. You become a manager of the shop and can invite
          others.
        </p>
      ) : (
        <p>This adds one more manager and changes no other account. It stands in the list of sign-ins for everyone to see.</p>
      )}
      <form method="post" action={when === "first" ? "/set-up" : "/sign-in/secret"} novalidate>
        {when === "first" ? (
          <ShopPart {...props} />
        ) : (
          <Box {...props} name="secret" label="The shop's secret" hint="OHMWRIGHT_SECRET." type="password" />
        )}
        <fieldset class="part">
          <legend>You</legend>
          <Box {...props} name="name" label="Your name" hint="As it stands on what you sign." autocomplete="name" size="word" />
        </fieldset>
        <NewWay {...props} send={when === "first" ? "Set up with this passphrase" : "Add the account with this passphrase"} />
      </form>
      {when === "first" && mayGoOn ? (
        <form method="post" action="/set-up/later" class="part">
          <p>Alone at this machine, and nobody else reaches it? Then the account can wait; the shop works without.</p>
          <p>
            <button type="submit" class="quiet">
              Go on without an account
            </button>
          </p>
        </form>
      ) : null}
    </Bare>
  );
};

const ShopPart = (props: SetUpPageProps) => (
  <fieldset class="part">
    <legend>The shop</legend>
    <div class="columns">
      <Box {...props} name="shopName" label="Name of the shop" autocomplete="organization" />
      <Pick
        {...props}
        name="currency"
        label="Currency"
        hint="The example rates keep their figures: put in your own."
        options={props.currencies.map((code) => [code, code] as const)}
      />
      <Box {...props} name="locale" label="Language tag for figures and dates" hint="Such as en-GB or de-DE." />
      <Box {...props} name="timeZone" label="Time zone" hint="Such as Europe/London." />
      <Pick
        {...props}
        name="paper"
        label="Paper"
        options={[
          ["A4", "A4"],
          ["Letter", "Letter"],
        ]}
      />
    </div>
  </fieldset>
);

/** An invitation, opened by the one it is for. */
interface InvitationPageProps extends SmallForm {
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

/** Recovery codes, shown once; the page prints as a slip to put away. */
interface CodesPageProps {
  readonly look: Look;
  /** Whose they are. */
  readonly name: string;
  readonly codes: readonly string[];
  readonly next: string;
}

export const CodesPage = ({ look, name, codes, next }: CodesPageProps) => (
  <Bare {...look} title="Recovery codes">
    <h1>Recovery codes of {name}</h1>
    <p>
      Each opens your account once, when your passkey or passphrase is lost. They are shown only now: print this page and put it
      where you keep papers that matter, not beside the computer. New codes end these.
    </p>
    <ol class="codes">
      {codes.map((code) => (
        <li>
          <code>{code}</code>
        </li>
      ))}
    </ol>
    <p class="actions no-print">
      <button type="button" data-print hidden>
        Print
      </button>
      <a class="button primary" href={next}>
        I have put them away
      </a>
    </p>
  </Bare>
);
