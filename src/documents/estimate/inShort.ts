import { counted, duration } from "../../wording/index.js";
import type { Block } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** The figures an owner looks for first. Each is explained where it is added up. */
export function inShort({ sheet, tongue, cash }: Subject): Block[] {
  const { totals, ceiling, ifDeclined, deposit, days, time } = sheet;
  return [
    {
      is: "figures",
      figures: [
        { label: "Total, tax included", value: cash(totals.total) },
        { label: "Ceiling without a new agreement", value: cash(ceiling.amount) },
        { label: "If you decline after opening", value: cash(ifDeclined.amount) },
        { label: "Deposit before work starts", value: cash(deposit.amount) },
        { label: "Days to complete", value: `about ${counted(days.total, "day")}` },
        {
          label: "Bench time, somebody at work",
          value: duration(time.attended, tongue.locale),
          ...(time.unattended !== 0 && {
            note: `and ${duration(time.unattended, tongue.locale)} of soak or charging, unattended`,
          }),
        },
      ],
    },
  ];
}
