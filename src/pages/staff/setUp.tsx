/** The first visit: the shop, what a price needs, and the first account; or a manager's account by the shop's secret, when none gets in. */
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { Options } from "../frame/field.js";
import { Bare } from "../frame/layout.js";
import { NewWay } from "./newWay.js";
import type { Look, PasskeyPlace } from "./view.js";

interface AccountForm extends AskedForm {
  readonly look: Look;
  readonly place: PasskeyPlace;
}

interface SetUpPageProps extends AccountForm {
  readonly currencies: Options;
  /** The browser fills in what it knows: language, currency, time zone. */
  readonly guess: boolean;
  /** On this machine alone an account may wait. */
  readonly mayGoOn: boolean;
}

export const SetUpPage = (props: SetUpPageProps) => {
  const { look, errors, guess, mayGoOn } = props;
  return (
    <Bare {...look} title="Set up the shop" wrong={errors.size > 0}>
      <h1>Set up the shop</h1>
      <ErrorSummary errors={errors} />
      <form method="post" action="/set-up" class="set-up" novalidate {...(guess && { "data-guess": true })}>
        <fieldset class="part">
          <legend>The shop</legend>
          <div class="columns">
            <Ask form={props} name="shopName" autocomplete="organization" />
            <Ask form={props} name="address" rows={3} />
            <Ask form={props} name="currency" options={props.currencies} />
            <Ask form={props} name="timeZone" />
          </div>
        </fieldset>
        <Prices {...props} />
        <Usual {...props} />
        <You {...props} send="Set up with this passphrase">
          <p>
            Once there is an account, everyone signs in, on this machine too. You become a manager of the shop and can invite
            others.
          </p>
        </You>
        {mayGoOn ? (
          <div class="part">
            <p>
              Is this machine yours alone, out of reach of anyone else? Then the account can wait; everything works without one.
            </p>
            <p class="actions">
              <button type="submit" formaction="/set-up/later">
                Go on without an account
              </button>
            </p>
          </div>
        ) : null}
      </form>
    </Bare>
  );
};

const TAXES = [
  ["", "Choose"],
  ["none", "none"],
  ["added", "my prices are without it, it is added"],
  ["included", "my prices have it in"],
] as const;

const Prices = (props: SetUpPageProps) => (
  <fieldset class="part">
    <legend>What a price needs</legend>
    <div class="columns">
      <Ask form={props} name="hourlyRate" />
      <Ask form={props} name="diagnosisFee" />
    </div>
    <Ask form={props} name="feeCredited" />
    <Ask form={props} name="tax" options={TAXES} />
    <div class="columns">
      <Ask form={props} name="taxName" size="word" />
      <Ask form={props} name="taxPercent" />
    </div>
    <p class="hint">
      The times of the work, the mark-up on parts and the rest of the rate book are common practice to begin with; no minimum
      charge and no storage are asked for. All of it is yours to change under Rate book.
    </p>
  </fieldset>
);

/** Folded: what most shops leave as it is, or say later. */
const USUAL = ["phone", "email", "taxNumber", "locale", "paper"] as const;

const Usual = (props: SetUpPageProps) => (
  <details class="part" open={USUAL.some((name) => props.errors.has(name))}>
    <summary>Telephone, e-mail, tax number, way of writing figures, paper</summary>
    <div class="columns">
      <Ask form={props} name="phone" autocomplete="tel" />
      <Ask form={props} name="email" autocomplete="email" />
      <Ask form={props} name="taxNumber" />
      <Ask form={props} name="locale" />
      <Ask form={props} name="paper" />
    </div>
  </details>
);

const You = ({ send, children, ...props }: AccountForm & { send: string; children?: unknown }) => (
  <>
    <fieldset class="part">
      <legend>You</legend>
      {children}
      <Ask form={props} name="name" label="Your name" hint="As you sign." autocomplete="name" size="word" />
    </fieldset>
    <NewWay {...props} send={send} />
  </>
);

export const AgainPage = (props: AccountForm) => (
  <Bare {...props.look} title="A manager's account by the shop's secret" wrong={props.errors.size > 0}>
    <h1>A manager's account by the shop's secret</h1>
    <ErrorSummary errors={props.errors} />
    <p>This adds one more manager and changes no other account. Everyone can see it in the list of sign-ins.</p>
    <form method="post" action="/sign-in/secret" novalidate>
      <Ask form={props} name="secret" />
      <You {...props} send="Add the account with this passphrase" />
    </form>
  </Bare>
);

/** An invitation, opened by the one it is for. */
interface InvitationPageProps extends AccountForm {
  readonly name: string;
  /** They had a way in before. */
  readonly joined: boolean;
  readonly secret: string;
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
      where you keep papers that matter, not beside the computer. Once you make new ones, these open nothing.
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
