/** Recovery codes, shown once; the page prints as a slip to put away. */
import { Bare } from "../frame/bare.js";
import type { Look } from "./view.js";

export interface CodesPageProps {
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
