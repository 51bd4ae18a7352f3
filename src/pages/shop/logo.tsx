/** The picture at the top of the shop's documents. */
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Field, ties } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";

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
      <p>There is none; documents begin with the shop's name.</p>
    )}
    <form method="post" action="/settings/logo" enctype="multipart/form-data" novalidate>
      <input type="hidden" name="version" value={String(version)} />
      <Field errors={errors} name="file" label="Picture" hint={HINT}>
        <input type="file" id="file" name="file" accept="image/png,image/jpeg" {...ties({ errors, name: "file", hint: HINT })} />
      </Field>
      <p class="actions">
        <button type="submit" name="intent" value="keep" class="primary">
          {logo ? "Replace the logo" : "Put it on documents"}
        </button>
        {logo ? (
          <button type="submit" name="intent" value="take off" class="quiet">
            Take the logo off
          </button>
        ) : null}
      </p>
    </form>
  </Page>
);
