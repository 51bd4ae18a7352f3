/** A link's address and code, shown when it is made and not again: only their hashes are kept. */
import type { JobHead } from "./jobFrame.js";

export interface LinkOnceProps {
  readonly job: JobHead;
  readonly shop: string;
  readonly revision: number;
  readonly owner: { readonly name: string; readonly email?: string };
  readonly address: string;
  readonly code: string;
  /** Day and time it ends. */
  readonly until: string;
  readonly deliveredTo: string;
}

export const LinkOnce = (props: LinkOnceProps) => {
  const { address, code, until, deliveredTo } = props;
  return (
    <section class="card link-once" aria-labelledby="link-name">
      <h2 id="link-name">The owner's link</h2>
      <p>
        <strong>It is shown here once.</strong> Send it now, to {deliveredTo}. It opens until {until}, or until you withdraw it.
      </p>
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

/** RFC 6068: line breaks are %0D%0A. */
export function mailTo({ owner, job, revision, shop, address, code }: LinkOnceProps): string {
  const subject = `Estimate ${job.number}, revision ${revision}: ${job.unit}`;
  const page = address.split("#")[0];
  const body = [
    owner.name ? `Dear ${owner.name},` : "Hello,",
    "",
    `our written estimate for your ${job.unit} is ready. Read it and answer it here:`,
    "",
    address,
    "",
    `If the link does not open, go to ${page} and type the number ${job.number} and the code ${code}.`,
    "",
    shop,
  ].join("\r\n");
  return `mailto:${encodeURIComponent(owner.email ?? "").replaceAll("%40", "@")}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body)}`;
}
