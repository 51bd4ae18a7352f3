/** What a day in a calendar is called. */
import type { IsoDate } from "../estimating/input.js";

export type DayName =
  | {
      readonly is: "offer ends";
      readonly number: string;
      readonly revision: number;
      readonly unit: string;
      readonly shop: string;
    }
  | {
      readonly is: "ready";
      readonly number: string;
      readonly unit: string;
      readonly shop: string;
      readonly days: number;
      readonly agreedOn: IsoDate;
    };

export function dayName(name: DayName): { readonly title: string; readonly text: string } {
  const { number, unit, shop } = name;
  if (name.is === "offer ends")
    return {
      title: `Estimate ${number} ends: ${unit}`,
      text: `Last day to agree to revision ${name.revision} of estimate ${number} of ${shop}.`,
    };
  return {
    title: `${unit} about ready (${number})`,
    text: `About ${name.days} ${name.days === 1 ? "day" : "days"} from the answer of ${name.agreedOn}, as the estimate of ${shop} says. Ask before you come.`,
  };
}
