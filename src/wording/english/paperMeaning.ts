/** 'What the figures mean', under the sums. */
export const paperMeaning = {
  heading: "What the figures mean",
  ceiling: "Ceiling",
  notAbove: (ceiling: string) => `We do not go above ${ceiling}, tax included, without a new agreement.`,
  ifDeclined: "If declined",
  owed: "What you owe when you say no after the unit has been opened.",
  owedFor: (diagnosis: string, access: string, tax: string) =>
    `Diagnosis ${diagnosis}, opening and refitting ${access}, tax ${tax}`,
  stoppedAt: (parts: string, amount: string) => `${parts}, stopped at the agreed limit: ${amount}.`,
  comesTo: (parts: string, amount: string) => `${parts}: ${amount}.`,
  deposit: "Deposit",
  noDeposit: "None.",
  partOfTotal: (amount: string) => `${amount}, part of the total, before work starts.`,
  days: "Days",
  daysFrom: (total: number, queue: number, lead: number, bench: number) =>
    `About ${total} ${total === 1 ? "day" : "days"} from your agreement: ${queue} in the bench queue, ${lead} waiting for parts, ${bench} at the bench.`,
  restsOn: "Rests on",
  opening: (how: string) => `Opening is reckoned ${how}.`,
  work: (how: string) => `Work is counted ${how}.`,
  shareOfValue: (percent: string, value: string) => `The total is ${percent} of the value you declared, ${value}.`,
  aboveYourCeiling: "The total is above the ceiling you set: work waits for your answer.",
};
