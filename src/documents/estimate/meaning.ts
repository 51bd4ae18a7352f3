import { counted, detailText, percent, ruleText, sourceText, warningText } from "../../wording/index.js";
import type { Block, Fact } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** What the figures beside the total mean, and what the estimate rests on. */
export function meaning(subject: Subject): Block[] {
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: "What the figures mean" },
        {
          is: "facts",
          labels: 92,
          facts: [ceiling(subject), declined(subject), deposit(subject), days(subject), rests(subject)],
        },
      ],
    },
  ];
}

const ceiling = ({ sheet, tongue, cash }: Subject): Fact => ({
  label: "Ceiling",
  value: `We do not go above ${cash(sheet.ceiling.amount)}, tax included, without a new agreement. ${sourceText(sheet.ceiling.from, tongue)}`,
});

function declined({ sheet: { ifDeclined }, cash }: Subject): Fact {
  const { amount, diagnosis, access, tax, limit, limited } = ifDeclined;
  const parts = `Diagnosis ${cash(diagnosis)}, opening and refitting ${cash(access)}, tax ${cash(tax)}`;
  const owed =
    limited && limit !== undefined ? `${parts}, stopped at the agreed limit: ${cash(amount)}` : `${parts}: ${cash(amount)}`;
  return { label: "If declined", value: `What you owe when you say no after the unit has been opened. ${owed}.` };
}

function deposit({ sheet: { deposit: due }, cash }: Subject): Fact {
  if (due.amount === 0) return { label: "Deposit", value: "None." };
  const why = due.from.flatMap((source) => (source.is === "rule" ? [ruleText(source.rule)] : [])).join(" ");
  return { label: "Deposit", value: `${cash(due.amount)}, part of the total, before work starts. ${why}` };
}

const days = ({ sheet }: Subject): Fact => ({
  label: "Days",
  value:
    `About ${counted(sheet.days.total, "day")} from your agreement: ${sheet.days.queue} in the bench queue, ${sheet.days.lead} waiting for parts, ` +
    `${sheet.days.bench} at the bench.`,
});

function rests({ sheet, tongue, cash }: Subject): Fact {
  const { access, work } = sheet.detail;
  const told = sheet.warnings.flatMap((warning) => {
    if (warning.is === "access by standard") return [warningText(warning, tongue)];
    if (warning.is === "value share") {
      return [`The total is ${percent(warning.percent, tongue.locale)} of the value you declared, ${cash(warning.declared)}.`];
    }
    return warning.is === "above ceiling" ? ["The total is above the ceiling you set: work waits for your answer."] : [];
  });
  return {
    label: "Rests on",
    value: [`Opening is reckoned ${detailText(access)}.`, `Work is counted ${detailText(work)}.`, ...told].join(" "),
  };
}
