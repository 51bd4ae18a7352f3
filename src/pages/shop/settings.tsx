/** The shop itself: who it is, how it writes figures, and the picture at the top of its documents. */
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { FileBox, type Options } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { DETAILS } from "../revise/papersPage.js";

interface SettingsPageProps {
  readonly frame: Frame;
  readonly form: AskedForm;
  readonly say?: string | undefined;
  readonly books: readonly { readonly id: string; readonly name: string }[];
  readonly currencies: Options;
  readonly languages: Options;
  /** Law profiles that may have terms of their own. */
  readonly profiles: readonly { readonly id: string }[];
  /** There is one. */
  readonly logo: boolean;
}

export const SettingsPage = ({ frame, form, say, books, currencies, languages, profiles, logo }: SettingsPageProps) => (
  <Page frame={frame} title="Shop" at="/settings" wrong={form.errors.size > 0}>
    <h1>Shop</h1>
    <p>
      <a href="/data">Data in and out</a>: CSV, one owner's data, backup
    </p>
    <p>
      <a href="/settings/sending">Sending</a>: for a shop whose own program sends its mail
    </p>
    <ErrorSummary errors={form.errors} />
    <Said say={say} />
    <form method="post" action="/settings" novalidate>
      <input type="hidden" name="version" value={form.fields.get("version")} />
      <input type="hidden" name="drawn" value={form.fields.get("drawn")} />
      <fieldset class="part">
        <legend>On every document</legend>
        <div class="columns">
          <Ask form={form} name="name" />
          <Ask form={form} name="phone" autocomplete="tel" />
          <Ask form={form} name="email" autocomplete="email" />
          <Ask form={form} name="taxNumber" />
          <Ask form={form} name="registration" />
          <Ask form={form} name="address" />
        </div>
        <Ask form={form} name="footer" />
        <p class="links">
          <a href="/settings/logo">{logo ? "See or change the logo" : "Put a logo at the top"}</a>
        </p>
        <Ask form={form} name="terms" rows={8} />
        <ProfileTerms form={form} profiles={profiles} />
      </fieldset>
      <fieldset class="part">
        <legend>Figures and paper</legend>
        <div class="columns">
          <Ask form={form} name="rateBookId" options={books.map(({ id, name }) => [id, name] as const)} />
          <Ask form={form} name="currency" options={currencies} />
          <Ask form={form} name="language" options={languages} />
          <Ask form={form} name="locale" />
          <Ask form={form} name="timeZone" />
          <Ask form={form} name="paper" />
          <Ask form={form} name="detail" options={DETAILS} />
          <Ask form={form} name="benchQueueDays" />
          <Ask form={form} name="linkDays" />
          <Ask form={form} name="warrantyDays" />
        </div>
      </fieldset>
      <p class="actions">
        <button type="submit" class="primary">
          Save
        </button>
      </p>
    </form>
  </Page>
);

const ProfileTerms = ({ form, profiles }: Pick<SettingsPageProps, "form" | "profiles">) => {
  const names = profiles.map(({ id }) => `profileTerms.${id}`);
  return (
    <details open={names.some((name) => form.fields.get(name) || form.errors.has(name))}>
      <summary>Other terms where an estimate is written for a law profile</summary>
      <p class="hint">In place of the terms above; left empty, those above are printed.</p>
      <div class="columns">
        {names.map((name) => (
          <Ask form={form} name={name} rows={4} />
        ))}
      </div>
    </details>
  );
};

/** The picture at the top of the shop's documents. */
interface LogoPageProps {
  readonly frame: Frame;
  readonly version: number;
  readonly logo?: { readonly id: string; readonly width: number; readonly height: number };
  readonly errors: ReadonlyMap<string, string>;
  readonly say?: string;
}

const HINT =
  "PNG or JPEG, at most 200 kB and 2,000 pixels either way. It is printed no wider than 67 mm and no higher than 19 mm. " +
  "What is issued already keeps the logo it was issued with.";

export const LogoPage = ({ frame, version, logo, errors, say }: LogoPageProps) => (
  <Page frame={frame} title="Logo" at="/settings" wrong={errors.size > 0}>
    <p class="links back">
      <a href="/settings">Shop</a>
    </p>
    <h1>Logo</h1>
    <ErrorSummary errors={errors} />
    <Said say={say} />
    {logo ? (
      <figure class="logo-now">
        <img src={`/api/logos/${logo.id}`} alt="The logo as it stands on documents now" width={logo.width} height={logo.height} />
      </figure>
    ) : (
      <p>No logo yet; documents begin with the shop's name.</p>
    )}
    <form method="post" action="/settings/logo" enctype="multipart/form-data" novalidate>
      <input type="hidden" name="version" value={String(version)} />
      <FileBox errors={errors} name="file" label="Picture" hint={HINT} accept="image/png,image/jpeg" />
      <p class="actions">
        <button type="submit" name="intent" value="keep" class="primary">
          {logo ? "Replace the logo" : "Put it on documents"}
        </button>
        {logo ? (
          <button type="submit" name="intent" value="take off" class="quiet">
            Remove the logo
          </button>
        ) : null}
      </p>
    </form>
  </Page>
);
