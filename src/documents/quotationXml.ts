/**
 * An estimate as an OASIS UBL 2.1 Quotation, in the element order of its XSD. Amounts are as in EN 16931: TaxExclusiveAmount is the
 * net total (the OASIS example has the tax there), lines and adjustments are net of tax and sum to it, also where prices include tax.
 */

import { XMLBuilder } from "fast-xml-parser";
import type { EstimateInput, IsoDate, Party } from "../estimating/input.js";
import { neverMore } from "../estimating/sheet/terms.js";
import type { Sheet } from "../estimating/sheet.js";
import { netAmounts } from "../estimating/totals/netAmounts.js";
import { money } from "../wording/figures.js";
import { adjustmentTitle } from "../wording/line.js";
import { wordsIn } from "../wording/tongue.js";
import { lineNodes, taxCategory, taxScheme, taxTotal } from "./quotation/lines.js";
import { Amounts, cleaned, type Node } from "./quotation/xmlText.js";

export interface EarlierRevision {
  readonly number: string;
  readonly revision: number;
  readonly date: IsoDate;
}

const NAMESPACE = "urn:oasis:names:specification:ubl:schema:xsd:";
const builder = new XMLBuilder({ ignoreAttributes: false, attributeNamePrefix: "@", format: true, suppressEmptyNode: true });

/** UTF-8 text. The sheet is the input's. A sheet without lines has one of no amount, since a Quotation needs one. */
export function quotationXml(sheet: Sheet, input: EstimateInput, earlier?: EarlierRevision): string {
  const { currency, totals, validUntil } = sheet;
  const { number = "draft", revision, date = sheet.asOf, locale = "en-GB", shop, owner, language } = input.paperwork ?? {};
  const { words } = wordsIn(language);
  const tongue = { locale, currency, words };
  const texts = words.quotation;
  const amounts = new Amounts(currency);
  const nets = netAmounts(sheet);
  const groupOf = (id: string) => totals.taxGroups.find(({ category }) => category === id)!;
  const adjustments = nets.adjustments.map(({ adjustment, net }) => ({
    "cbc:ChargeIndicator": adjustment.charge,
    "cbc:AllowanceChargeReason": adjustmentTitle(adjustment, tongue),
    "cbc:Amount": amounts.of(net),
    "cac:TaxCategory": taxCategory(groupOf(adjustment.taxCategory)),
  }));
  const sumOf = (charge: boolean) =>
    nets.adjustments.reduce((sum, { adjustment, net }) => (adjustment.charge === charge ? sum + net : sum), 0);
  const lines = lineNodes(sheet, input, nets, amounts, tongue);
  const scheme = taxScheme(totals.taxGroups[0]?.name ?? "");
  const quotation: Node = {
    "@xmlns": `${NAMESPACE}Quotation-2`,
    "@xmlns:cac": `${NAMESPACE}CommonAggregateComponents-2`,
    "@xmlns:cbc": `${NAMESPACE}CommonBasicComponents-2`,
    "cbc:UBLVersionID": "2.1",
    "cbc:ID": idOf(number, revision),
    "cbc:IssueDate": date,
    "cbc:Note": { "@languageID": words.tag, "#text": texts.ceiling(money(neverMore(sheet), tongue)) },
    "cbc:PricingCurrencyCode": currency,
    "cbc:LineCountNumeric": lines.length,
    "cac:ValidityPeriod": { "cbc:StartDate": date, "cbc:EndDate": validUntil },
    "cac:AdditionalDocumentReference": earlier
      ? {
          "cbc:ID": idOf(earlier.number, earlier.revision),
          "cbc:IssueDate": earlier.date,
          "cbc:DocumentType": texts.earlierRevision,
        }
      : [],
    "cac:SellerSupplierParty": { "cac:Party": partyNode(shop, scheme) },
    "cac:BuyerCustomerParty": { "cac:Party": partyNode(owner, scheme) },
    "cac:AllowanceCharge": adjustments,
    "cac:TaxTotal": taxTotal(totals, amounts),
    "cac:QuotedMonetaryTotal": {
      "cbc:LineExtensionAmount": amounts.of(nets.lines.reduce((sum, { net }) => sum + net, 0)),
      "cbc:TaxExclusiveAmount": amounts.of(totals.withoutTax),
      "cbc:TaxInclusiveAmount": amounts.of(totals.total),
      "cbc:AllowanceTotalAmount": amounts.of(sumOf(false)),
      "cbc:ChargeTotalAmount": amounts.of(sumOf(true)),
      "cbc:PrepaidAmount": amounts.of(totals.prepaid),
      "cbc:PayableAmount": amounts.of(totals.due),
    },
    "cac:QuotationLine": lines,
  };
  return builder.build({
    "?xml": { "@version": "1.0", "@encoding": "UTF-8" },
    Quotation: cleaned(quotation),
  });
}

/** The number is the job's; with the revision it names one document. */
const idOf = (number: string, revision: number | undefined): string =>
  revision === undefined ? number : `${number}/${revision}`;

function partyNode(who: Party | undefined, taxScheme: Node): Node {
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
