/** Texts of the quotation for machines. */
export const quotation = {
  ceiling: (amount: string) => `Ceiling, tax included: ${amount}`,
  earlierRevision: "Earlier revision",
  noWork: "No work is chosen yet",
  optional: "Optional: the price on top of this quotation, everything else as it stands.",
  ifFound: (covered: boolean) =>
    `Only if found necessary: ${covered ? "this quotation covers it" : "the price on top of this quotation"}.`,
  chance: (share: string) => ` Chance: ${share}.`,
};
