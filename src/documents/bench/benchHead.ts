import { neverMore } from "../../estimating/sheet/terms.js";
import { cautionAlone, DEFER, dangerFrom } from "../../wording/caution.js";
import { capital, counted } from "../../wording/list.js";
import { day, duration } from "../../wording/time.js";
import { known } from "../estimate/parties.js";
import { numberOf, type Subject, unitName } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";
import { oneLine } from "../type/shape.js";
import { type Agreed, agreementOf } from "./agreed.js";

/** Which unit is on the bench, for whom, and how far the work may go. */
export function benchHead(subject: Subject, agreed: Agreed): Block[] {
  const { paperwork, sheet, tongue, input, cash } = subject;
  const planned = agreed.alone ?? sheet;
  const time = planned.time.charged ?? planned.time;
  const { serial, accessories = [], storedData } = input.unit;
  return [
    {
      is: "columns",
      shares: [0.56, 0.44],
      columns: [
        [
          { is: "shop", text: unitName(subject) },
          {
            is: "facts",
            labels: 66,
            facts: known([
              ["Serial", serial && oneLine(serial)],
              ["Owner", oneLine(paperwork.owner?.name ?? "")],
              ["Came with", accessories.join(", ")],
              [
                "Stored data",
                storedData ? `${storedData}. Copy it before you start.` : sheet.memory && "Nobody has asked: ask the owner.",
              ],
            ]),
          },
        ],
        [
          { is: "title", text: "Bench sheet" },
          {
            is: "facts",
            labels: 66,
            facts: known([
              ["Number", numberOf(subject)],
              ["Date", day(paperwork.date ?? sheet.asOf, tongue.locale)],
            ]),
          },
        ],
      ],
    },
    { is: "rule" },
    {
      is: "figures",
      figures: [
        { label: "Stop and ask before passing", value: cash(agreed.answer?.limit ?? neverMore(sheet)) },
        { label: "Bench time planned", value: duration(time.attended, tongue.locale) },
        {
          label: "Soak and other unattended time",
          value: time.unattended === 0 ? "none" : duration(time.unattended, tongue.locale),
        },
      ],
    },
    {
      is: "facts",
      labels: 66,
      facts: known([
        ["Reported", input.unit.reported],
        ["Found", input.unit.found],
        ["On arrival", input.unit.condition],
        ["Agreed", agreementOf(agreed, subject)],
        ["Parts wait", planned.days.lead === 0 ? undefined : `${counted(planned.days.lead, "day")} for the slowest part`],
      ]),
    },
  ];
}

/** The usual cautions, before anything else. They never keep a sheet from being printed. */
export function benchCautions({ sheet: { hazards } }: Subject): Block[] {
  if (hazards.length === 0) return [];
  const cautions = hazards.map((each) => ({
    label: capital(each.hazard),
    value: cautionAlone(each.hazard),
    note: dangerFrom(each),
  }));
  return [{ is: "cautions", title: "Before you open it", cautions, last: DEFER }];
}
