/** What a browser sees when a request is refused before any page could answer. */
import { Mark } from "./frame/mark.js";

export interface RefusalProps {
  readonly style: string | undefined;
  readonly title: string;
  readonly detail: string;
  /** To find the request in the server's log. */
  readonly request: string;
}

export const Refusal = ({ style, title, detail, request }: RefusalProps) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{`${title} – Ohmwright`}</title>
      {style ? <link rel="stylesheet" href={style} /> : null}
    </head>
    <body>
      <header class="top">
        <Mark />
      </header>
      <main id="main">
        <h1>{title}</h1>
        {detail === title ? null : <p>{detail}</p>}
        <p>
          Go back to what you were doing, or to <a href="/">the first page</a>.
        </p>
        <p>
          <small class="hint">Request {request}</small>
        </p>
      </main>
    </body>
  </html>
);
