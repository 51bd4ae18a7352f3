/**
 * An estimate as an OASIS UBL 2.1 Quotation. Amounts are net of tax as in EN 16931: TaxExclusiveAmount is the net total.
 * A credit is a negative quantity, never a negative price. Element order is that of the XSD.
 */
import { XMLBuilder } from "fast-xml-parser";
import type { EstimateInput, Minor, Party } from "../estimating/input.js";
import { decimalsOf } from "../estimating/money/currency.js";
import type { Adjustment, GroupPrice, Line, Sheet } from "../estimating/sheet.js";
import { netAmounts } from "../estimating/totals/netAmounts.js";
import { adjustmentTitle, lineTitle } from "../wording/index.js";

type Node = { [name: string]: unknown };
export interface EarlierRevision {
  readonly number: string;
  readonly revision: number;
  readonly date: string;
}

const NAMESPACE = "urn:oasis:names:specification:ubl:schema:xsd:";
const builder = new XMLBuilder({ ignoreAttributes: false, attributeNamePrefix: "@", format: true, suppressEmptyNode: true });

/** Throws when the sheet has no line: a UBL Quotation needs one. */
export function quotationXml(sheet: Sheet, input: EstimateInput, earlier?: EarlierRevision): string {
  if (sheet.lines.length === 0) throw new Error("A quotation needs at least one line");
  const { currency } = sheet;
  const paper = input.paperwork ?? {};
  const tongue = { locale: paper.locale ?? "en-GB", currency };
  const amount = (value: Minor): Node => ({ "@currencyID": currency, "#text": decimal(value, decimalsOf(currency) ?? 2) });
  const nets = netAmounts(sheet);
  const group = (category: string) => sheet.totals.taxGroups.find((entry) => entry.category === category);
  const taxCategory = (category: string): Node => ({
    "cbc:ID": (group(category)?.percent ?? 0) === 0 ? "E" : "S",
    "cbc:Percent": group(category)?.percent ?? 0,
    "cac:TaxScheme": { "cbc:ID": "VAT" },
  });
  const alternatives = placeOptions(sheet, input);
  const line = ({ line, net }: { line: Line; net: Minor }, index: number): Node => {
    const pieces = line.unitPriceE4 !== undefined && !sheet.totals.pricesIncludeTax ? (line.count ?? 1) : 1;
    const price =
      pieces === 1
        ? decimal(Math.abs(net), decimalsOf(currency) ?? 2)
        : decimal(line.unitPriceE4!, (decimalsOf(currency) ?? 2) + 4);
    return {
      "cbc:ID": index + 1,
      "cac:LineItem": {
        "cbc:ID": index + 1,
        "cbc:Quantity": { "@unitCode": "C62", "#text": net < 0 ? -pieces : pieces },
        "cbc:LineExtensionAmount": amount(net),
        "cac:Price": { "cbc:PriceAmount": { "@currencyID": currency, "#text": price } },
        "cac:Item": { "cbc:Name": lineTitle(line), "cac:ClassifiedTaxCategory": taxCategory(line.taxCategory) },
      },
      "cac:AlternativeLineItem": (alternatives.get(line.id) ?? []).map((option) => optionItem(option, amount)),
    };
  };
  const allowances = nets.adjustments.map(({ adjustment, net }) => ({
    "cbc:ChargeIndicator": adjustment.charge,
    "cbc:AllowanceChargeReason": reasonOf(adjustment, adjustmentTitle(adjustment, tongue)),
    "cbc:Amount": amount(net),
    "cac:TaxCategory": taxCategory(adjustment.taxCategory),
  }));
  const sum = (charge: boolean) =>
    nets.adjustments.reduce((total, entry) => (entry.adjustment.charge === charge ? total + entry.net : total), 0);
  return builder.build({
    "?xml": { "@version": "1.0", "@encoding": "UTF-8" },
    Quotation: {
      "@xmlns": `${NAMESPACE}Quotation-2`,
      "@xmlns:cac": `${NAMESPACE}CommonAggregateComponents-2`,
      "@xmlns:cbc": `${NAMESPACE}CommonBasicComponents-2`,
      "cbc:UBLVersionID": "2.1",
      "cbc:ID": paper.number ?? "draft",
      "cbc:IssueDate": paper.date ?? sheet.asOf,
      "cbc:PricingCurrencyCode": currency,
      "cbc:LineCountNumeric": sheet.lines.length,
      "cac:ValidityPeriod": { "cbc:StartDate": paper.date ?? sheet.asOf, "cbc:EndDate": sheet.validUntil },
      "cac:AdditionalDocumentReference": earlier
        ? [
            {
              "cbc:ID": `${earlier.number}/${earlier.revision}`,
              "cbc:IssueDate": earlier.date,
              "cbc:DocumentType": "Earlier revision",
            },
          ]
        : [],
      "cac:SellerSupplierParty": { "cac:Party": party(paper.shop) },
      "cac:BuyerCustomerParty": { "cac:Party": party(paper.owner) },
      "cac:AllowanceCharge": allowances,
      "cac:TaxTotal": {
        "cbc:TaxAmount": amount(sheet.totals.tax),
        "cac:TaxSubtotal": sheet.totals.taxGroups.map((entry) => ({
          "cbc:TaxableAmount": amount(entry.base),
          "cbc:TaxAmount": amount(entry.tax),
          "cac:TaxCategory": taxCategory(entry.category),
        })),
      },
      "cac:QuotedMonetaryTotal": {
        "cbc:LineExtensionAmount": amount(nets.lines.reduce((total, entry) => total + entry.net, 0)),
        "cbc:TaxExclusiveAmount": amount(sheet.totals.withoutTax),
        "cbc:TaxInclusiveAmount": amount(sheet.totals.total),
        "cbc:AllowanceTotalAmount": amount(sum(false)),
        "cbc:ChargeTotalAmount": amount(sum(true)),
        "cbc:PrepaidAmount": amount(sheet.totals.prepaid),
        "cbc:PayableAmount": amount(sheet.totals.due),
      },
      "cac:QuotationLine": nets.lines.map(line),
    },
  });
}

/** An option stands beside the first line of its assembly, or the first line of all. */
function placeOptions(sheet: Sheet, input: EstimateInput): Map<string, GroupPrice[]> {
  const placed = new Map<string, GroupPrice[]>();
  const assemblyOf = new Map(input.items.map((item) => [item.id, item.assembly]));
  for (const option of sheet.options.filter((entry) => !entry.chosen)) {
    const assembly = assemblyOf.get(option.items[0] ?? "");
    const beside = sheet.lines.find((line) => assembly !== undefined && line.assembly?.id === assembly) ?? sheet.lines[0]!;
    placed.set(beside.id, [...(placed.get(beside.id) ?? []), option]);
  }
  return placed;
}

const optionItem = (option: GroupPrice, amount: (value: Minor) => Node): Node => ({
  "cbc:ID": option.id,
  "cbc:Note": "Optional: price on top of this quotation, tax included",
  "cbc:Quantity": { "@unitCode": "C62", "#text": 1 },
  "cac:Price": { "cbc:PriceAmount": amount(Math.max(0, option.price)) },
  "cac:Item": { "cbc:Name": option.names.join("; ") || option.id },
});

const reasonOf = (adjustment: Adjustment, title: string): string =>
  adjustment.reason ? `${title}: ${adjustment.reason}` : title;

function party(who: Party | undefined): Node {
  if (!who) return {};
  return {
    "cac:PartyName": { "cbc:Name": who.name },
    ...(who.address?.length
      ? { "cac:PostalAddress": { "cac:AddressLine": who.address.map((line) => ({ "cbc:Line": line })) } }
      : {}),
    ...(who.taxNumber ? { "cac:PartyTaxScheme": { "cbc:CompanyID": who.taxNumber, "cac:TaxScheme": { "cbc:ID": "VAT" } } } : {}),
    ...(who.phone || who.email
      ? {
          "cac:Contact": {
            ...(who.phone ? { "cbc:Telephone": who.phone } : {}),
            ...(who.email ? { "cbc:ElectronicMail": who.email } : {}),
          },
        }
      : {}),
  };
}

/** A whole number of the given scale as a plain decimal. */
function decimal(value: number, decimals: number): string {
  const digits = String(Math.abs(value)).padStart(decimals + 1, "0");
  const text = decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
  return value < 0 ? `-${text}` : text;
}
