import type { Party } from "../../estimating/input.js";
import type { Node } from "./xmlText.js";

export function partyNode(who: Party | undefined, taxScheme: Node): Node {
  if (!who) return {};
  const { name, address = [], taxNumber, registration, phone, email } = who;
  return {
    "cac:PartyName": { "cbc:Name": name },
    ...(address.length > 0 && {
      "cac:PostalAddress": { "cac:AddressLine": address.map((line) => ({ "cbc:Line": line })) },
    }),
    ...(taxNumber && { "cac:PartyTaxScheme": { "cbc:CompanyID": taxNumber, "cac:TaxScheme": taxScheme } }),
    ...(registration && { "cac:PartyLegalEntity": { "cbc:RegistrationName": name, "cbc:CompanyID": registration } }),
    ...((phone || email) && {
      "cac:Contact": { ...(phone && { "cbc:Telephone": phone }), ...(email && { "cbc:ElectronicMail": email }) },
    }),
  };
}
