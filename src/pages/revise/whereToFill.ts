/** Where a shop puts right what keeps an estimate from being issued. */
import type { DocumentField } from "../../estimating/law/profile.js";
import type { Unready } from "../../estimating/law/unready.js";

const SHOP: Readonly<Partial<Record<DocumentField, string>>> = {
  "shop name": "name",
  "shop address": "address",
  "shop phone": "phone",
  "shop e-mail": "email",
  "shop registration": "registration",
};

const ESTIMATE: Readonly<Partial<Record<DocumentField, string>>> = {
  "owner name": "owner.name",
  "owner address": "owner.address",
  "maker and model": "unit.maker",
  serial: "unit.serial",
  "reported fault": "unit.reported",
  "work described": "part-desk",
  "highest price": "terms.ceiling",
  "stored data notice": "unit.dataHeld",
};

const TEXTS: readonly (readonly [pointer: string, field: string])[] = [
  ["/unit/found", "unit.found"],
  ["/unit/condition", "unit.condition"],
  ["/policy/discount/reason", "terms.discountReason"],
  ["/items", "part-desk"],
];

/** A path of this site with the field to go to. */
export function whereToFill(lack: Unready, estimateId: string): string {
  const at = (field: string) => inEstimate(estimateId, field);
  if (lack.is === "validity too short") return at("meta.asOf");
  if (lack.is === "word not allowed") {
    if (lack.pointer.startsWith("/paperwork/terms")) return "/settings#terms";
    return at(TEXTS.find(([pointer]) => lack.pointer.startsWith(pointer))?.[1] ?? "part-desk");
  }
  const ofShop = SHOP[lack.field];
  return ofShop ? `/settings#${ofShop}` : at(ESTIMATE[lack.field] ?? "main");
}

/** With the part of the form unfolded that has the field. */
export function inEstimate(id: string, field: string): string {
  const part = /^(owner\.|unit\.(?!maker|model))/.test(field)
    ? "intake"
    : /^(terms\.|meta\.asOf)/.test(field)
      ? "terms"
      : undefined;
  return `/estimates/${id}${part ? `?open=${part}` : ""}#${field}`;
}
