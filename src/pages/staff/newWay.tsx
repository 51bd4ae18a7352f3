/** Choosing how to sign in from now on: a passkey, or a passphrase. */
import { Box, type SmallForm } from "../frame/field.js";
import { PasskeyButton } from "./passkey.js";
import type { PasskeyPlace } from "./view.js";

export interface NewWayProps extends SmallForm {
  readonly place: PasskeyPlace;
  readonly shortest: number;
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
      <Box
        {...props}
        name="passphrase"
        label="Passphrase"
        hint={`At least ${props.shortest} characters, any you like: four or five words will do.`}
        type="password"
        autocomplete="new-password"
      />
      <p class="actions">
        <button type="submit">{props.send}</button>
      </p>
    </fieldset>
  </>
);
