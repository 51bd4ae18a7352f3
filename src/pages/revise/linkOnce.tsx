/** A link's address and code, shown when it is made and not again: only their hashes are kept. */
import { ownerMail } from "../../wording/sending.js";
import { Tick } from "../frame/field.js";
import type { JobHead } from "./jobFrame.js";

export interface LinkOnceProps {
  readonly job: JobHead;
  readonly shop: string;
  readonly revision: number;
  readonly owner: { readonly name: string; readonly email?: string; readonly language?: string | undefined };
  readonly address: string;
  readonly code: string;
  /** Day and time it ends. */
  readonly until: string;
  readonly deliveredTo: string;
  /** What became of sending it through the shop's send hook, where that was asked for. */
  readonly sent?: { readonly to: string } | { readonly failed: string };
}

export const LinkOnce = (props: LinkOnceProps) => {
  const { address, code, until, deliveredTo, sent } = props;
  return (
    <section class="card link-once" aria-labelledby="link-name">
      <h2 id="link-name">The owner's link</h2>
      <p>
        <strong>It is shown here once.</strong>{" "}
        {sent && "to" in sent
          ? `Your program took it, for ${sent.to}.`
          : /[@\d]/.test(deliveredTo)
            ? `Send it now, to ${deliveredTo}.`
            : `Give it now: ${deliveredTo}.`}{" "}
        Valid until {until}, or until you withdraw it.
      </p>
      {sent && "failed" in sent ? (
        <p class="wrong" role="alert">
          It was not sent: {sent.failed}. Send it yourself, below.
        </p>
      ) : null}
      <div class="field">
        <label for="address">Address</label>
        <div class="beside">
          <input id="address" readonly value={address} spellcheck={false} class="size-long" />
          <button type="button" data-copy="address" hidden>
            Copy
          </button>
        </div>
      </div>
      <p>
        Code, for typing with the number {props.job.number}: <code id="code">{code}</code>
      </p>
      <p class="actions">
        <a class="button primary" href={mailTo(props)}>
          Write the e-mail
        </a>
      </p>
      <p role="status" id="copied" class="hint" />
    </section>
  );
};

/** In place of a link where only this machine opens the shop's address. */
export const OutOfReach = () => (
  <>
    <p>
      <strong>Customers cannot reach this computer: give them the PDF and record the answer.</strong>
    </p>
    <details>
      <summary>How customers could read and answer it by themselves</summary>
      <p>The shop then needs an address that others open. README says how, under On the edge and Who gets in:</p>
      <ul>
        <li>the shop deployed as a Worker, which has its address; or</li>
        <li>
          a tunnel or a proxy with HTTPS in front of this computer. Start the shop with <code>OHMWRIGHT_ORIGIN</code> set to its
          address, and with <code>OHMWRIGHT_SECRET</code>, so that only you get in.
        </li>
      </ul>
    </details>
  </>
);

/** RFC 6068: line breaks are %0D%0A. */
export function mailTo({ owner, job: { number, unit }, revision, shop, address, code }: LinkOnceProps): string {
  const { to, subject, text } = ownerMail({ owner, number, unit, revision, shop, address, code });
  const body = text.replaceAll("\n", "\r\n");
  return `mailto:${encodeURIComponent(to).replaceAll("%40", "@")}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body)}`;
}

/** Whether the shop's own program sends the link; only where the shop has set one up. */
export const SendTick = ({ fields }: { fields: ReadonlyMap<string, string> }) => (
  <Tick name="send" label="Send it by e-mail now, through the shop's send hook" checked={fields.get("send") === "yes"} />
);
