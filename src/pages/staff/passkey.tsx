/** The button that asks the browser for a passkey, and what is said where there can be none. The answer travels in a hidden field of the form. */
import type { PasskeyPlace } from "./view.js";

export interface PasskeyButtonProps {
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
        Passkeys need an address with a name: <a href={place.href}>open this page at localhost</a> to use one.
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
