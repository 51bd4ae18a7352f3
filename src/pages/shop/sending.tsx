/** Where the shop's own program takes messages to owners from. */

import { moment } from "../../wording/time.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { Table } from "../frame/table.js";

interface SendingPageProps {
  readonly frame: Frame;
  readonly form: AskedForm;
  readonly say?: string | undefined;
  /** An address is set. */
  readonly on: boolean;
  /** Shown when it is made, and not again. */
  readonly secret?: string;
  readonly attempts: readonly { readonly at: string; readonly job?: string; readonly outcome: string }[];
  readonly locale: string;
  readonly timeZone: string;
}

export const SendingPage = (props: SendingPageProps) => {
  const { frame, form, say, on, secret, attempts, locale, timeZone } = props;
  return (
    <Page frame={frame} title="Sending" at="/settings" wrong={form.errors.size > 0}>
      <p class="links back">
        <a href="/settings">Shop</a>
      </p>
      <h1>Sending</h1>
      <ErrorSummary errors={form.errors} />
      <Said say={say} />
      <p>
        A link to an estimate is sent with your own mail program, from the page that shows it. A shop that automates its mail can
        have it sent by a program of its own instead: this shop then posts the message there, signed, when you tick so while
        issuing.
      </p>
      {secret ? (
        <section class="card link-once" aria-labelledby="secret-name">
          <h2 id="secret-name">The secret for your program</h2>
          <p>
            <strong>It is shown here once.</strong> Your program checks each call with it.
          </p>
          <p>
            <code>{secret}</code>
          </p>
        </section>
      ) : null}
      <form method="post" action="/settings/sending" novalidate>
        <input type="hidden" name="version" value={form.fields.get("version") ?? "0"} />
        <fieldset class="part">
          <legend>Send hook</legend>
          <Ask form={form} name="url" size="long" code />
          <Ask form={form} name="renew" />
          <p class="actions">
            <button type="submit" class="primary">
              Save
            </button>
            {on ? (
              <button type="submit" formaction="/settings/sending/test">
                Send a test
              </button>
            ) : null}
          </p>
        </fieldset>
      </form>
      <h2>What is sent</h2>
      <p>
        A POST with JSON: <code>type</code> (estimate or test), <code>timestamp</code> and <code>data</code> with <code>to</code>,{" "}
        <code>subject</code>, <code>text</code>, <code>link</code> and <code>job</code>. The headers <code>webhook-id</code>,{" "}
        <code>webhook-timestamp</code> and <code>webhook-signature</code> follow Standard Webhooks, so that its libraries check
        them. Answer with a status of 200 to 299 within 5 seconds. It is tried once; if it fails you are told, and send the link
        yourself.
      </p>
      <h2>The last calls</h2>
      <Table
        class="list"
        caption="Calls, newest first"
        empty="None yet."
        heads={["When", "For", "How it went"]}
        rows={attempts.map(({ at, job, outcome }) => [
          moment(at, locale, timeZone),
          job ? <a href={`/jobs/${job}`}>a job</a> : "a test",
          outcome,
        ])}
      />
    </Page>
  );
};
