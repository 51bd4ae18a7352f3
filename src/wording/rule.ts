import type { Rule } from "../estimating/sheet.js";

const TEXT: Readonly<Record<Rule, string>> = {
  "access charged once per opening": "Opening and refitting an assembly is charged once, however much is done inside.",
  "billing increment": "The time of each labour class is rounded up to the shop's billing step.",
  "minimum charge": "Labour and access together come to no less than the minimum charge.",
  "mark-up by unit cost": "The mark-up on a part follows from what one piece costs.",
  "whole packs": "The part is only to be had in whole packs, and whole packs are charged.",
  "scarcity margin": "A part that is hard to get carries the rate book's margin for the risk of buying it.",
  "sundries percentage": "Solder, flux, cleaner and the like are charged as a percentage.",
  "sundries cap": "Sundries stop at the rate book's cap.",
  "freight once per source": "Freight is charged once for each source, however many parts come from it.",
  "rush percentage": "Work ahead of the queue carries a percentage on labour and access.",
  "diagnosis fee": "Finding the faults and writing this estimate carries a fee.",
  "diagnosis fee credited": "The diagnosis fee is taken off again when the work goes ahead.",
  storage: "Storage is charged by the day.",
  discount: "A discount was given for the reason stated.",
  "ceiling above total": "The ceiling stands a fixed percentage above the total.",
  "ceiling set by owner": "The ceiling is the amount the owner set.",
  "ceiling by agreement profile": "The ceiling stands no further above the total than the agreement profile allows.",
  "ceiling for what may turn up": "The ceiling leaves room for what cannot be known before the work is done.",
  "price is fixed": "The price is fixed, so it is the ceiling too.",
  "allowance for risk": "A fixed price carries an allowance for what cannot be known before the work is done.",
  "diagnosis limit": "What is owed if the work is declined stops at the limit agreed beforehand.",
  "deposit on scarce parts": "Scarce parts are paid for before they are ordered.",
  "deposit on labour": "A share of the labour is paid before the work starts.",
};

export const ruleText = (rule: Rule): string => TEXT[rule];
