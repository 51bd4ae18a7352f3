/** The frame of an owner's page: the shop's, with no way into the rest of the site, and never to be listed anywhere. */
import type { Child } from "hono/jsx";
import { ownersPageIn } from "../../wording/ownersPage.js";
import { isUntaxed, untaxed } from "../../wording/untaxed.js";
import type { OwnerShop } from "./view.js";

type Taxes = Parameters<typeof isUntaxed>[0];

/** What the page says, in its language; nothing of tax where there is none. */
export function textsOf({ language, sheet }: { readonly language: string; readonly sheet?: { readonly totals: Taxes } }) {
  const texts = ownersPageIn(language);
  return sheet && isUntaxed(sheet.totals) ? untaxed(texts) : texts;
}

export interface OwnerFrame {
  /** Addresses of the built stylesheet, icon and script. */
  readonly style: string;
  readonly icon: string;
  readonly script: string;
}

interface OwnerFrameProps {
  readonly frame: OwnerFrame;
  readonly view: { readonly shop: OwnerShop; readonly language: string };
  readonly title: string;
  /** The page reports something to put right. */
  readonly wrong?: boolean;
  /** The address that a page which answers a form stands under in the history. */
  readonly here?: string;
  readonly children?: Child;
}

export const OwnerFramed = ({ frame, view, title, wrong = false, here, children }: OwnerFrameProps) => {
  const { shop, language } = view;
  const texts = textsOf(view).frame;
  return (
    <html lang={language}>
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="robots" content="noindex, nofollow, noarchive" />
        <meta name="format-detection" content="telephone=no" />
        <title>{`${wrong ? `${texts.error}: ` : ""}${title} – ${shop.name}`}</title>
        <link rel="icon" href={frame.icon} type="image/svg+xml" />
        <link rel="stylesheet" href={frame.style} />
        <script type="module" src={frame.script} />
      </head>
      <body class="owner">
        <a class="skip" href="#main">
          {texts.skip}
        </a>
        <header class="top">
          <p class="mark">
            <strong>{shop.name}</strong>
          </p>
          <Reach phone={shop.phone} {...(shop.phone ? {} : { email: shop.email })} label={texts.reach} />
        </header>
        <main id="main" tabindex={-1} {...(here !== undefined && { "data-here": here })}>
          {children}
        </main>
        <footer class="foot">
          {shop.address ? <p>{[shop.name, ...shop.address].join(", ")}</p> : null}
          {shop.phone ? <Reach email={shop.email} label={texts.write} /> : null}
          <p>{texts.keepToYourself}</p>
        </footer>
      </body>
    </html>
  );
};

/** How to speak to the shop: by telephone at the head, in one row with its name, in writing at the foot. */
const Reach = ({ phone, email, label }: { phone?: string | undefined; email?: string | undefined; label: string }) =>
  phone || email ? (
    <ul class="reach" aria-label={label}>
      {phone ? (
        <li>
          <a href={`tel:${phone.replaceAll(/[^+\d]/g, "")}`}>{phone}</a>
        </li>
      ) : null}
      {email ? (
        <li>
          <a href={`mailto:${email}`}>{email}</a>
        </li>
      ) : null}
    </ul>
  ) : null;
