/** Signed in again: what was typed before, to be looked at and sent by whoever it is now. */
import { Bare } from "../frame/bare.js";
import type { HeldForm, Look } from "./view.js";

export interface SendAgainProps {
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
          <label for={`file-${at}`}>The file has to be chosen again</label>
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
          Leave it, open the page anew
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
