/** Owners: people and firms who bring units in. */
import { z } from "zod";
import { owners } from "../records/owners.js";
import { email, line, lines, maybe, note, saying } from "./field.js";
import { adding, replacing } from "./record.js";
import { language, locale, partyKeys } from "./shapes/estimateInput.js";
import { keptKeys } from "./shapes/resources.js";

/** Whoever stands on a document: the owner, or the shop. */
export const partyFields = (name: string) => ({
  name: line(name),
  address: maybe(lines("Address")),
  phone: maybe(line("Telephone")),
  email: maybe(email("E-mail")),
  taxNumber: maybe(line("Tax number")),
  registration: maybe(line("Registration", { hint: "Licence or register number, where the law asks for one." })),
});

/** An e-mail that is kept since before it was looked at stays readable; it is put right when the record is next changed. */
export const keptBefore = { email: partyKeys.email };

const fields = z.strictObject({
  ...partyFields("Name"),
  language: maybe(saying(language, { label: "Language of what the owner gets", kind: "line" })),
  locale: maybe(saying(locale, { label: "Language tag for figures and dates", kind: "line" })),
  notes: maybe(note("Notes")),
});

export const owner = {
  one: "owner",
  fields,
  kept: fields.extend({ ...keptKeys, ...keptBefore }).meta({ id: "Owner" }),
  rows: owners,
};
export const addOwner = adding(owner);
export const replaceOwner = replacing(owner);
