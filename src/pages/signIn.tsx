/** The one page a stranger may see. */
import { Mark } from "./frame/mark.js";

export interface SignInProps {
  /** Address of the built stylesheet. */
  readonly style: string | undefined;
  /** Where to go afterwards: a path of this site. */
  readonly to: string;
  readonly wrong?: string;
}

export const SignIn = ({ style, to, wrong }: SignInProps) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{`${wrong ? "Error: " : ""}Sign in – Ohmwright`}</title>
      {style ? <link rel="stylesheet" href={style} /> : null}
    </head>
    <body>
      <header class="top">
        <Mark />
      </header>
      <main id="main">
        <h1>Sign in</h1>
        <form method="post" action="/sign-in" class="narrow">
          <input type="hidden" name="to" value={to} />
          <p class="field">
            <label for="secret">The shop's secret</label>
            {wrong ? (
              <span id="wrong" role="alert" class="wrong">
                {wrong}
              </span>
            ) : null}
            <input
              id="secret"
              name="secret"
              type="password"
              autocomplete="current-password"
              spellcheck={false}
              {...(wrong ? { "aria-invalid": "true", "aria-describedby": "wrong" } : {})}
            />
          </p>
          <p>
            <button type="submit" class="primary">
              Sign in
            </button>
          </p>
        </form>
      </main>
    </body>
  </html>
);
