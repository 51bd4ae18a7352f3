/** Choosing how to sign in from now on: a passkey, or a passphrase. */
import { Ask, type AskedForm } from "../frame/ask.js";
import type { PasskeyPlace } from "./view.js";

interface NewWayProps extends AskedForm {
  readonly place: PasskeyPlace;
  /** What the button that sends the passphrase says. */
  readonly send: string;
}

export const NewWay = (props: NewWayProps) => (
  <>
    <fieldset class="part">
      <legend>With a passkey</legend>
      <p>
        The device you are at, a phone or a security key proves that it is you. Nothing to remember, and nothing another site
        could ask you for.
      </p>
      <PasskeyButton place={props.place} act="create" text="Make a passkey" />
    </fieldset>
    <fieldset class="part">
      <legend>Or with a passphrase</legend>
      <Ask form={props} name="passphrase" autocomplete="new-password" />
      <p class="actions">
        <button type="submit" class={props.place.is === "here" ? undefined : "primary"}>
          {props.send}
        </button>
      </p>
    </fieldset>
  </>
);

/** The button that asks the browser for a passkey, and what is said where there can be none. The answer travels in a hidden field of the form. */
interface PasskeyButtonProps {
  readonly place: PasskeyPlace;
  /** Sign in by one, or make one. */
  readonly act: "get" | "create";
  readonly text: string;
}

export const PasskeyButton = ({ place, act, text }: PasskeyButtonProps) => {
  if (place.is === "nowhere")
    return (
      <p class="hint">Passkeys need HTTPS and a name; this address has none. Use a passphrase, or open the shop by its name.</p>
    );
  if (place.is === "at")
    return (
      <p class="hint">
        Passkeys need an address with a name: {/* What is typed goes along, where there is script. */}
        <a href={place.href} data-carry>
          open this page at localhost
        </a>{" "}
        to use one.
      </p>
    );
  return (
    <div class="passkey">
      <input type="hidden" name="passkey" />
      <p>
        <button
          type="button"
          class="primary"
          data-passkey={act}
          data-options={act === "get" ? "/sign-in/passkey" : "/sign-in/new-passkey"}
          hidden
        >
          {text}
        </button>
      </p>
      <p role="status" class="wrong passkey-said" />
      <noscript>
        <p class="hint">Passkeys need script; a passphrase does not.</p>
      </noscript>
    </div>
  );
};
