import { isAboveOwners, neverMore } from "../../estimating/sheet/terms.js";
import { percent } from "../../wording/figures.js";
import { declinedTexts, notCountedText } from "../../wording/line.js";
import { detailText, ruleText, sourceText, warningText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import type { Block, Fact } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** The figures an owner looks for first. Each is explained where it is added up. */
export function inShort(subject: Subject): Block[] {
  const { sheet, tongue, cash, words } = subject;
  const texts = words.paper.inShort;
  const { totals, days } = sheet;
  const time = sheet.time.charged ?? sheet.time;
  return [
    {
      is: "figures",
      figures: [
        { label: texts.total, value: cash(totals.total) },
        { label: texts.ceiling, value: cash(neverMore(sheet)) },
        ...ifDeclined(subject),
        depositOf(subject),
        { label: texts.days, value: texts.about(days.total), ...notCounted(subject) },
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

/** Nothing is owed for declining a revision while an earlier one stands agreed. */
export const ifDeclined = ({ sheet, cash, words, changes }: Subject): Fact[] =>
  changes?.earlier.agreed ? [] : [{ label: words.paper.inShort.ifDeclined, value: cash(sheet.ifDeclined.amount) }];

/** With what is paid of it. Once work has begun on a deposit that was paid, what a revision adds to it holds no work up. */
export function depositOf({ sheet: { deposit }, cash, words, changes }: Subject): Fact & { readonly note?: string } {
  const { inShort } = words.paper;
  const { begun = false } = changes?.earlier ?? {};
  const paid = Math.min(changes?.earlier.paid ?? 0, deposit.amount);
  const due = deposit.amount - paid;
  return {
    ...{ label: begun ? words.paperMeaning.deposit : inShort.deposit, value: cash(deposit.amount) },
    ...(paid > 0 && {
      note:
        begun && due > 0 ? inShort.depositBegun(cash(paid)) : inShort.depositPaid(cash(paid), due === 0 ? undefined : cash(due)),
    }),
  };
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
  value: [
    texts.notAbove(cash(neverMore(sheet))),
    isAboveOwners(sheet) ? texts.aboveYourCeiling(cash(sheet.ceiling.amount)) : sourceText(sheet.ceiling.from, tongue),
  ].join(" "),
});

export function declined({ sheet: { ifDeclined }, input, cash, tongue, words: { paperMeaning: texts }, changes }: Subject): Fact {
  if (changes?.earlier.agreed) return { label: texts.ifDeclined, value: texts.agreedStands(changes.earlier.revision ?? 0) };
  const { amount, limit, limited } = ifDeclined;
  const { diagnosis, access } = declinedTexts(ifDeclined, input.rateBook.tax, tongue);
  const parts = texts.owedFor(diagnosis, access);
  const owed = limited && limit !== undefined ? texts.stoppedAt(parts, cash(amount)) : texts.comesTo(parts, cash(amount));
  return { label: texts.ifDeclined, value: `${texts.owed} ${owed}` };
}

function deposit(subject: Subject): Fact {
  const {
    sheet: { deposit: due },
    tongue,
    cash,
    words: { paperMeaning: texts },
  } = subject;
  if (due.amount === 0) return { label: texts.deposit, value: texts.noDeposit };
  const { note } = depositOf(subject);
  const begun = subject.changes?.earlier.begun;
  const why = begun ? [] : due.from.flatMap((source) => (source.is === "rule" ? [ruleText(source.rule, tongue)] : []));
  const part = begun ? texts.partOfTotal : texts.beforeWork;
  return { label: texts.deposit, value: [part(cash(due.amount)), ...(note ? [`${note}.`] : []), ...why].join(" ") };
}

function days(subject: Subject): Fact {
  const { days: until } = subject.sheet;
  const texts = subject.words.paperMeaning;
  const from = texts.daysFrom(until.total, until.queue, until.lead, until.bench);
  return { label: texts.days, value: [from, notCounted(subject).note].filter(Boolean).join(" ") };
}

/** Beside the day, of parts nobody knows the day of. */
export function notCounted({ input, sheet, words, changes }: Subject): Pick<Fact, "note"> {
  const note = notCountedText(input, sheet, words, changes?.earlier.fitted);
  return note === undefined ? {} : { note };
}

function rests({ sheet, tongue, cash, words: { paperMeaning: texts } }: Subject): Fact {
  const { access, work } = sheet.detail;
  const charged = sheet.time.charged ? [texts.openingCharged(duration(sheet.time.charged.access, tongue.locale))] : [];
  const cautions = sheet.warnings.flatMap((warning) => {
    if (warning.is === "access by standard") return [warningText(warning, tongue), ...charged];
    if (warning.is === "value share")
      return [texts.shareOfValue(percent(warning.percent, tongue.locale), cash(warning.declared))];
    return [];
  });
  return {
    label: texts.restsOn,
    value: [texts.opening(detailText(access, tongue)), texts.work(detailText(work, tongue)), ...cautions].join(" "),
  };
}
