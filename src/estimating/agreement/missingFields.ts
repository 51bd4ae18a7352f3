/** The fields a profile requires and a document would not carry. An estimate with any cannot be issued. */
import type { EstimateInput } from "../input.js";
import type { Sheet } from "../sheet.js";
import type { AgreementProfile, DocumentField } from "./profile.js";

type Look = (input: EstimateInput, sheet: Sheet) => unknown;

const LOOK: Readonly<Record<DocumentField, Look>> = {
  "shop name": ({ paperwork }) => paperwork?.shop?.name,
  "shop address": ({ paperwork }) => paperwork?.shop?.address?.join(""),
  "shop phone": ({ paperwork }) => paperwork?.shop?.phone,
  "shop e-mail": ({ paperwork }) => paperwork?.shop?.email,
  "shop registration": ({ paperwork }) => paperwork?.shop?.registration,
  "owner name": ({ paperwork }) => paperwork?.owner?.name,
  "owner address": ({ paperwork }) => paperwork?.owner?.address?.join(""),
  date: ({ paperwork }) => paperwork?.date,
  "maker and model": ({ unit }) => unit.maker.trim() && unit.model.trim(),
  serial: ({ unit }) => unit.serial,
  "reported fault": ({ unit }) => unit.reported,
  "work described": ({ items }) => items.length,
  total: (_, sheet) => sheet.totals.total >= 0,
  "highest price": (_, sheet) => sheet.ceiling.amount >= sheet.totals.total,
  validity: (_, sheet) => sheet.validUntil,
  "days to complete": (_, sheet) => sheet.days.total >= 0,
  "price of diagnosis": ({ rateBook }) => rateBook.fees.diagnosis.amount >= 0,
  "price of teardown and reassembly": (_, sheet) => sheet.ifDeclined.amount >= 0,
  "stored data notice": ({ unit }) => unit.storedData !== undefined,
  "used parts notice": () => true,
};

export function missingFields(profile: AgreementProfile, input: EstimateInput, sheet: Sheet): DocumentField[] {
  return profile.requires.filter((field) => !filled(LOOK[field](input, sheet)));
}

const filled = (value: unknown): boolean => (typeof value === "string" ? value.trim() !== "" : Boolean(value));
