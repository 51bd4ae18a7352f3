import { percent } from "../../wording/figures.js";
import { detailText, ruleText, sourceText, warningText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import type { Block, Fact } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** The figures an owner looks for first. Each is explained where it is added up. */
export function inShort({ sheet, tongue, cash, words }: Subject): Block[] {
  const say = words.paper.inShort;
  const { totals, ceiling, ifDeclined, deposit, days, time } = sheet;
  return [
    {
      is: "figures",
      figures: [
        { label: say.total, value: cash(totals.total) },
        { label: say.ceiling, value: cash(ceiling.amount) },
        { label: say.ifDeclined, value: cash(ifDeclined.amount) },
        { label: say.deposit, value: cash(deposit.amount) },
        { label: say.days, value: say.about(days.total) },
        {
          label: say.benchTime,
          value: duration(time.attended, tongue.locale),
          ...(time.unattended !== 0 && {
            note: say.unattended(duration(time.unattended, tongue.locale)),
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

const ceiling = ({ sheet, tongue, cash, words: { paperMeaning: say } }: Subject): Fact => ({
  label: say.ceiling,
  value: `${say.notAbove(cash(sheet.ceiling.amount))} ${sourceText(sheet.ceiling.from, tongue)}`,
});

function declined({ sheet: { ifDeclined }, cash, words: { paperMeaning: say } }: Subject): Fact {
  const { amount, diagnosis, access, tax, limit, limited } = ifDeclined;
  const parts = say.owedFor(cash(diagnosis), cash(access), cash(tax));
  const owed = limited && limit !== undefined ? say.stoppedAt(parts, cash(amount)) : say.comesTo(parts, cash(amount));
  return { label: say.ifDeclined, value: `${say.owed} ${owed}` };
}

function deposit({ sheet: { deposit: due }, tongue, cash, words: { paperMeaning: say } }: Subject): Fact {
  if (due.amount === 0) return { label: say.deposit, value: say.noDeposit };
  const why = due.from.flatMap((source) => (source.is === "rule" ? [ruleText(source.rule, tongue)] : [])).join(" ");
  return { label: say.deposit, value: `${say.partOfTotal(cash(due.amount))} ${why}` };
}

const days = ({ sheet: { days: until }, words: { paperMeaning: say } }: Subject): Fact => ({
  label: say.days,
  value: say.daysFrom(until.total, until.queue, until.lead, until.bench),
});

function rests({ sheet, tongue, cash, words: { paperMeaning: say } }: Subject): Fact {
  const { access, work } = sheet.detail;
  const cautions = sheet.warnings.flatMap((warning) => {
    if (warning.is === "access by standard") return [warningText(warning, tongue)];
    if (warning.is === "value share") return [say.shareOfValue(percent(warning.percent, tongue.locale), cash(warning.declared))];
    return warning.is === "above ceiling" ? [say.aboveYourCeiling] : [];
  });
  return {
    label: say.restsOn,
    value: [say.opening(detailText(access, tongue)), say.work(detailText(work, tongue)), ...cautions].join(" "),
  };
}
