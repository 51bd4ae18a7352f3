/** Fees as lines: diagnosis, its credit when the owner agrees, and storage. */
import type { Policy, RateBook } from "../input.js";
import type { Line, Rule, Why } from "../sheet.js";

export function feeLines({ diagnosis, storageDays = 0 }: Policy, rateBook: RateBook): Line[] {
  const { fees, tax } = rateBook;
  const line = (id: string, amount: number, entry: string, rule: Rule, why?: Why): Line => ({
    id: `fee:${id}`,
    sort: "fee",
    taxClass: "fees",
    taxCategory: tax.fees,
    amount,
    ...(why && { why }),
    from: [
      { is: "rate book", entry },
      { is: "rule", rule },
    ],
  });
  const credited = fees.diagnosis.creditedOnAgreement;
  return [
    ...(diagnosis ? [line("diagnosis", fees.diagnosis.amount, "/fees/diagnosis/amount", "diagnosis fee")] : []),
    ...(diagnosis && credited
      ? [
          line("diagnosis credited", -fees.diagnosis.amount, "/fees/diagnosis/creditedOnAgreement", "diagnosis fee credited", {
            rule: "credited",
          }),
        ]
      : []),
    ...(storageDays > 0
      ? [
          line("storage", fees.storagePerDay * storageDays, "/fees/storagePerDay", "storage", {
            rule: "storage days",
            days: storageDays,
          }),
        ]
      : []),
  ].filter(({ amount }) => amount !== 0);
}
