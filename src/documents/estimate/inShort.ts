import { duration } from "../../wording/time.js";
import type { Block } from "../layout/block.js";
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
