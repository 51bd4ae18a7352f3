/** The frame every page stands in. No inline script or style: the content policy allows none. */
import type { Child } from "hono/jsx";

/** Whose page this is. */
const Mark = ({ shop }: { shop?: string }) => (
  <p class="mark">
    <a href="/">
      <span class="mark-ohm" aria-hidden="true">
        Ω
      </span>
      Ohmwright
    </a>
    {shop ? <span class="shop">{shop}</span> : null}
  </p>
);

export interface Frame {
  readonly shop: string;
  /** Addresses of the built stylesheet and scripts. */
  readonly style: string;
  readonly icon: string;
  /** Suggests while one types. */
  readonly typing?: string;
  /** Where the help of this page stands. */
  readonly help: string;
  /** Someone signed in, and can sign out. */
  readonly guarded: boolean;
  /** Who is signed in; absent where nobody has an account. */
  readonly staff?: string;
  /** What only managers change is shown to them, and not saved. */
  readonly technician?: boolean;
}

interface PageProps {
  readonly frame: Frame;
  readonly title: string;
  /** The entry of the menu this page belongs to. */
  readonly at?: MenuEntry;
  /** The page reports something to put right. */
  readonly wrong?: boolean;
  readonly script?: string;
  readonly wide?: boolean;
  readonly children?: Child;
}

type MenuEntry = "/" | "/estimates/new" | "/find" | "/parts" | "/models" | "/rate-book" | "/looking-back" | "/settings";

const MENU: readonly (readonly [MenuEntry, string])[] = [
  ["/", "Jobs"],
  ["/estimates/new", "New estimate"],
  ["/find", "Find"],
  ["/parts", "Parts"],
  ["/models", "Models"],
  ["/rate-book", "Rate book"],
  ["/looking-back", "Looking back"],
  ["/settings", "Shop"],
];

export const Page = ({ frame, title, at, wrong = false, script, wide = false, children }: PageProps) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{`${wrong ? "Error: " : ""}${title} – Ohmwright`}</title>
      <link rel="icon" href={frame.icon} type="image/svg+xml" />
      <link rel="stylesheet" href={frame.style} />
      {frame.typing ? <script type="module" src={frame.typing} /> : null}
      {script ? <script type="module" src={script} /> : null}
    </head>
    <body class={wide ? "wide" : ""}>
      <a class="skip" href="#main">
        Skip to the page
      </a>
      <header class="top">
        <Mark shop={frame.shop} />
        {/* On a telephone the menu unfolds over the page; a browser that knows no popover shows it as it stands. */}
        <button type="button" class="quiet menu-button" popovertarget="menu">
          Menu
        </button>
        <nav aria-label="Main" id="menu" popover="auto">
          <ul>
            {MENU.map(([href, name]) => (
              <li>
                <a href={href} {...(at === href ? { "aria-current": "page" } : {})}>
                  {name}
                </a>
              </li>
            ))}
            <li>
              <a href={frame.help}>Help</a>
            </li>
            {frame.staff ? (
              <li>
                <a href="/account">{frame.staff}</a>
              </li>
            ) : null}
            {frame.guarded ? (
              <li>
                <form method="post" action="/sign-out">
                  <button type="submit" class="link">
                    Sign out
                  </button>
                </form>
              </li>
            ) : null}
          </ul>
        </nav>
      </header>
      <main id="main" tabindex={-1}>
        {frame.technician && at === "/settings" ? <p class="said">Only a manager of the shop can save changes here.</p> : null}
        {children}
      </main>
      <footer class="foot">
        <p>
          Written estimates for vintage electronics repair. Follow local codes; leave mains and high-tension work to a qualified
          person.
        </p>
        <p class="links">
          {frame.staff ? null : <a href="/set-up">Accounts: who gets in</a>} <a href="/api">API</a>
        </p>
      </footer>
    </body>
  </html>
);

/** The frame of pages a stranger may see: no menu, nothing of the shop. */
interface BareProps {
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
