/** All that the intake page shows: the fields as typed, what they come to, and what is wrong with them. */

import { estimate, type Outcome } from "../../estimating/estimate.js";
import type { Sheet } from "../../estimating/sheet.js";
import { type Complaint, complaintsOf } from "../form/complaints.js";
import type { FormContext } from "../form/context.js";
import type { Fields } from "../form/fields.js";
import { openIn } from "../form/open.js";
import { type Read, readForm } from "../form/readForm.js";
import type { SoFar } from "../sheet/sheetView.js";

export interface IntakeView {
  readonly fields: Fields;
  readonly context: FormContext;
  readonly read: Read;
  readonly outcome: Outcome;
  /** Of what could be priced. */
  readonly sheet?: Sheet;
  readonly complaints: readonly Complaint[];
  /** Field -> what is wrong with it; until the form was sent once, only what is wrong with a line that was not taken. */
  readonly errors: ReadonlyMap<string, string>;
  readonly surroundings: Surroundings;
  /** Parts of the form that are drawn. */
  readonly open: ReadonlySet<string>;
}

/** What stands around the form and does not change while it is typed. */
export interface Surroundings {
  readonly action: string;
  readonly makers: readonly string[];
  readonly models: readonly { readonly id: string; readonly maker: string; readonly model: string }[];
  readonly owners: readonly { readonly id: string; readonly label: string }[];
  /** That papers can be written in. */
  readonly languages: readonly (readonly [tag: string, name: string])[];
  /** Of earlier estimates: work and parts that were on no list. */
  readonly ownWords?: { readonly works: readonly string[]; readonly parts: readonly string[] };
  /** Jobs of the unit that has this serial number, of an owner of this name, and the one of this model that was closed last. */
  readonly seen?: readonly { readonly by: "serial" | "owner" | "model"; readonly href: string; readonly text: string }[];
  /** An earlier revision is agreed: declining this one leaves that, and costs nothing. */
  readonly soFar?: SoFar;
  /** The estimate is on record. */
  readonly saved: boolean;
  /** What the form says is not on record yet. */
  readonly unsaved?: boolean;
}

/** `sent`: the problems are shown beside their fields. `risk`: what the shop reads about the job's risk is worked out too. */
export function viewOf(fields: Fields, context: FormContext, surroundings: Surroundings, sent = false, risk = true): IntakeView {
  const read = readForm(fields, context);
  const outcome = estimate(read.input, risk ? { risk } : {});
  const complaints = complaintsOf(read, outcome, context);
  const errors = new Map<string, string>();
  for (const { field, text } of complaints) {
    if (field && (sent || field.startsWith("next.")) && !errors.has(field)) errors.set(field, text);
  }
  const sheet = outcome.ok ? outcome.sheet : outcome.partial;
  return { fields, context, read, outcome, ...(sheet && { sheet }), complaints, errors, surroundings, open: openIn(fields) };
}
