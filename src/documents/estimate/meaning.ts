import { percent } from "../../wording/figures.js";
import { detailText, ruleText, sourceText, warningText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import type { Block, Fact } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** The figures an owner looks for first. Each is explained where it is added up. */
export function inShort({ sheet, tongue, cash, words }: Subject): Block[] {
  const texts = words.paper.inShort;
  const { totals, ceiling, ifDeclined, deposit, days, time } = sheet;
  return [
    {
      is: "figures",
      figures: [
        { label: texts.total, value: cash(totals.total) },
        { label: texts.ceiling, value: cash(ceiling.amount) },
        { label: texts.ifDeclined, value: cash(ifDeclined.amount) },
        { label: texts.deposit, value: cash(deposit.amount) },
        { label: texts.days, value: texts.about(days.total) },
        {
          label: texts.benchTime,
          value: duration(time.attended, tongue.locale),
          ...(time.unattended !== 0 && {
            note: texts.unattended(duration(time.unattended, tongue.locale)),
          }),
        },
      ],
    },
  ];
}

/** What the figures beside the total mean, and what the estimate rests on. */
export function meaning(subject: Subject): Block[] {
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: subject.words.paperMeaning.heading },
        {
          is: "facts",
          labels: 92,
          facts: [ceiling(subject), declined(subject), deposit(subject), days(subject), rests(subject)],
        },
      ],
    },
  ];
}

const ceiling = ({ sheet, tongue, cash, words: { paperMeaning: texts } }: Subject): Fact => ({
  label: texts.ceiling,
  value: `${texts.notAbove(cash(sheet.ceiling.amount))} ${sourceText(sheet.ceiling.from, tongue)}`,
});

export function declined({ sheet: { ifDeclined }, cash, words: { paperMeaning: texts } }: Subject): Fact {
  const { amount, diagnosis, access, tax, limit, limited } = ifDeclined;
  const parts = texts.owedFor(cash(diagnosis), cash(access), cash(tax));
  const owed = limited && limit !== undefined ? texts.stoppedAt(parts, cash(amount)) : texts.comesTo(parts, cash(amount));
  return { label: texts.ifDeclined, value: `${texts.owed} ${owed}` };
}

function deposit({ sheet: { deposit: due }, tongue, cash, words: { paperMeaning: texts } }: Subject): Fact {
  if (due.amount === 0) return { label: texts.deposit, value: texts.noDeposit };
  const why = due.from.flatMap((source) => (source.is === "rule" ? [ruleText(source.rule, tongue)] : [])).join(" ");
  return { label: texts.deposit, value: `${texts.partOfTotal(cash(due.amount))} ${why}` };
}

const days = ({ sheet: { days: until }, words: { paperMeaning: texts } }: Subject): Fact => ({
  label: texts.days,
  value: texts.daysFrom(until.total, until.queue, until.lead, until.bench),
});

function rests({ sheet, tongue, cash, words: { paperMeaning: texts } }: Subject): Fact {
  const { access, work } = sheet.detail;
  const cautions = sheet.warnings.flatMap((warning) => {
    if (warning.is === "access by standard") return [warningText(warning, tongue)];
    if (warning.is === "value share")
      return [texts.shareOfValue(percent(warning.percent, tongue.locale), cash(warning.declared))];
    return warning.is === "above ceiling" ? [texts.aboveYourCeiling] : [];
  });
  return {
    label: texts.restsOn,
    value: [texts.opening(detailText(access, tongue)), texts.work(detailText(work, tongue)), ...cautions].join(" "),
  };
}
