/** The frame of pages a stranger may see: no menu, nothing of the shop. */
import type { Child } from "hono/jsx";
import { Mark } from "./mark.js";

export interface BareProps {
  readonly style: string | undefined;
  readonly icon?: string;
  readonly script?: string;
  readonly title: string;
  readonly wrong?: boolean;
  readonly children?: Child;
}

export const Bare = ({ style, icon, script, title, wrong = false, children }: BareProps) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{`${wrong ? "Error: " : ""}${title} – Ohmwright`}</title>
      {icon ? <link rel="icon" href={icon} type="image/svg+xml" /> : null}
      {style ? <link rel="stylesheet" href={style} /> : null}
      {script ? <script type="module" src={script} /> : null}
    </head>
    <body>
      <header class="top">
        <Mark />
      </header>
      <main id="main">{children}</main>
    </body>
  </html>
);
