/** What is charged beside work and parts: sundries, a rush, fees. */
import type { Minor, PartsRules, Policy, RateBook } from "../input.js";
import { divide } from "../money/rounding.js";
import { percentOf, toScaledPercent, WHOLE } from "../money/scales.js";
import type { Adjustment, Line, Rule, Why } from "../sheet.js";

type Charged = Pick<Line, "sort" | "taxClass" | "amount" | "why">;

/** Solder, cleaner, wipes: a percentage of parts (without scarcity margin) and of labour and access, never above the cap. A fixed price has its own within it. */
export function sundries(lines: readonly Charged[], { parts, tax }: RateBook): Adjustment[] {
  const { percentOfParts, percentOfLabour } = parts.sundries;
  const sum = (wanted: (line: Charged) => boolean) => lines.filter(wanted).reduce((total, { amount }) => total + amount, 0);
  const ofParts = sum(({ sort }) => sort === "part");
  const ofLabour = sum(({ taxClass, why }) => taxClass === "labour" && why?.rule !== "fixed price");
  const { full, amount } = sundriesOn(ofParts, ofLabour, parts);
  if (amount <= 0) return [];
  const single =
    amount < full || (percentOfParts > 0 && percentOfLabour > 0)
      ? {}
      : percentOfParts > 0
        ? { percent: percentOfParts, base: ofParts }
        : { percent: percentOfLabour, base: ofLabour };
  return [
    {
      id: "sundries",
      sort: "sundries",
      charge: true,
      amount,
      taxCategory: tax.parts,
      taxClass: "parts",
      ...single,
      from: [
        { is: "rate book", entry: "/parts/sundries" },
        { is: "rule", rule: "sundries percentage" },
        ...(amount < full ? [{ is: "rule", rule: "sundries cap" } as const] : []),
      ],
    },
  ];
}

export function sundriesOn(ofParts: Minor, ofLabour: Minor, { sundries: { percentOfParts, percentOfLabour, cap } }: PartsRules) {
  const full = divide(
    BigInt(ofParts) * BigInt(toScaledPercent(percentOfParts)) + BigInt(ofLabour) * BigInt(toScaledPercent(percentOfLabour)),
    BigInt(WHOLE),
  );
  return { full, amount: Math.min(full, cap ?? full) };
}

/** A rush job pays a percentage of labour and access on top. */
export function rush(lines: readonly Charged[], { fees, tax }: RateBook): Adjustment[] {
  const base = lines.filter(({ taxClass }) => taxClass === "labour").reduce((sum, { amount }) => sum + amount, 0);
  const amount = percentOf(base, fees.rushPercent);
  if (amount <= 0) return [];
  return [
    {
      id: "rush",
      sort: "rush",
      charge: true,
      amount,
      taxCategory: tax.labour,
      taxClass: "labour",
      percent: fees.rushPercent,
      base,
      from: [
        { is: "rate book", entry: "/fees/rushPercent" },
        { is: "rule", rule: "rush percentage" },
      ],
    },
  ];
}

/** Fees as lines: diagnosis, its credit when the owner agrees, and storage. */
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
