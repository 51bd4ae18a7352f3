/** The shop itself: who it is, and how it writes figures. */

import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Area, Box, type Options, Pick } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";

export type SettingsFields = ReadonlyMap<string, string>;

export interface SettingsPageProps {
  readonly frame: Frame;
  readonly fields: SettingsFields;
  /** Field -> what is wrong with it. */
  readonly errors: ReadonlyMap<string, string>;
  readonly say?: string;
  readonly books: readonly { readonly id: string; readonly name: string }[];
  readonly currencies: readonly string[];
  readonly languages: Options;
  /** Law profiles that may have terms of their own. */
  readonly profiles: readonly { readonly id: string; readonly name: string }[];
}

export const SettingsPage = (props: SettingsPageProps) => {
  const { frame, errors, say, books, currencies } = props;
  return (
    <Page frame={frame} title="Shop" at="/settings" wrong={errors.size > 0}>
      <h1>Shop</h1>
      <p>
        <a href="/data">Data in and out</a>: CSV, one owner's data, backup
      </p>
      <p>
        <a href="/settings/sending">Sending</a>: for a shop whose own program sends its mail
      </p>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      <form method="post" action="/settings" novalidate>
        <input type="hidden" name="version" value={props.fields.get("version")} />
        <input type="hidden" name="logo" value={props.fields.get("logo") ?? ""} />
        <fieldset class="part">
          <legend>On every document</legend>
          <div class="columns">
            <Box {...props} name="name" label="Name of the shop" />
            <Box {...props} name="phone" label="Telephone" autocomplete="tel" />
            <Box {...props} name="email" label="E-mail" autocomplete="email" />
            <Box {...props} name="taxNumber" label="Tax number" />
            <Box
              {...props}
              name="registration"
              label="Registration"
              hint="Licence or register number, where the law asks for one."
            />
            <Area {...props} name="address" label="Address" />
          </div>
          <Area
            {...props}
            name="footer"
            label="Footer"
            hint="At most 4 lines, such as the bank account; small at the foot of every page an owner gets."
          />
          <p class="links">
            <a href="/settings/logo">{props.fields.get("logo") ? "See or change the logo" : "Put a logo at the top"}</a>
          </p>
          <Area {...props} name="terms" label="Terms" hint="One a line; printed at the end of each estimate." rows={8} />
          <ProfileTerms {...props} />
        </fieldset>
        <fieldset class="part">
          <legend>Figures and paper</legend>
          <div class="columns">
            <Pick
              {...props}
              name="rateBookId"
              label="Rate book of new estimates"
              options={books.map(({ id, name }) => [id, name] as const)}
            />
            <Pick {...props} name="currency" label="Currency" options={currencies.map((code) => [code, code] as const)} />
            <Pick
              {...props}
              name="language"
              label="Language of what owners get"
              hint="Each owner can have another. These pages and the bench sheet stay English."
              options={props.languages}
            />
            <Box {...props} name="locale" label="Language tag for figures and dates" hint="Such as en-GB or de-DE." />
            <Box {...props} name="timeZone" label="Time zone" hint="Such as Europe/London." />
            <Pick
              {...props}
              name="paper"
              label="Paper"
              options={[
                ["A4", "A4"],
                ["Letter", "Letter"],
              ]}
            />
            <Box {...props} name="benchQueueDays" label="Days until the bench is free" size="figure" />
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
};

const ProfileTerms = (props: SettingsPageProps) => {
  const filled = props.profiles.some(
    ({ id }) => props.fields.get(`profileTerms.${id}`) || props.errors.has(`profileTerms.${id}`),
  );
  return (
    <details open={filled}>
      <summary>Other terms where an estimate is written for a law profile</summary>
      <p class="hint">In place of the terms above; left empty, those above are printed.</p>
      <div class="columns">
        {props.profiles.map(({ id, name }) => (
          <Area {...props} name={`profileTerms.${id}`} label={`Terms: ${name}`} rows={4} />
        ))}
      </div>
    </details>
  );
};
