/** The fields a profile requires and a document would not carry. */
import type { EstimateInput } from "../input.js";
import type { Sheet } from "../sheet.js";
import type { AgreementProfile, DocumentField } from "./profile.js";

type Look = (input: EstimateInput, sheet: Sheet) => string | boolean | undefined;

const written = (texts: readonly string[] | undefined): boolean => (texts ?? []).some((text) => text.trim() !== "");
/** On every sheet, and every document prints it. */
const always: Look = () => true;

const LOOK: Readonly<Record<DocumentField, Look>> = {
  "shop name": ({ paperwork }) => paperwork?.shop?.name,
  "shop address": ({ paperwork }) => written(paperwork?.shop?.address),
  "shop phone": ({ paperwork }) => paperwork?.shop?.phone,
  "shop e-mail": ({ paperwork }) => paperwork?.shop?.email,
  "shop registration": ({ paperwork }) => paperwork?.shop?.registration,
  "owner name": ({ paperwork }) => paperwork?.owner?.name,
  "owner address": ({ paperwork }) => written(paperwork?.owner?.address),
  date: ({ paperwork }) => paperwork?.date,
  "maker and model": ({ unit }) => unit.maker.trim() !== "" && unit.model.trim() !== "",
  serial: ({ unit }) => unit.serial,
  "reported fault": ({ unit }) => unit.reported,
  "work described": ({ items }) => items.some(({ count }) => count > 0),
  total: always,
  /** A ceiling below the total is no highest price. */
  "highest price": (_, { ceiling, totals }) => ceiling.amount >= totals.total,
  validity: always,
  "days to complete": always,
  "price of diagnosis": always,
  "price of teardown and reassembly": always,
  /** The owner was asked; an empty answer says that the unit holds nothing. */
  "stored data notice": ({ unit }) => unit.storedData !== undefined,
  /** Printed with the profile's notices. */
  "used parts notice": always,
};

export function missingFields(profile: AgreementProfile, input: EstimateInput, sheet: Sheet): DocumentField[] {
  return profile.requires.filter((field) => !filled(LOOK[field](input, sheet)));
}

const filled = (value: string | boolean | undefined): boolean =>
  typeof value === "string" ? value.trim() !== "" : value === true;
