import type { ThreePoint } from "../../estimating/input.js";
import { duration } from "../duration.js";

export const lists = {
  and: "and",
  spread: ({ low, likely, high }: ThreePoint, locale?: string) =>
    `between ${duration(low, locale)} and ${duration(high, locale)}, most likely ${duration(likely, locale)}`,
  days: (count: number) => `${count} ${count === 1 ? "day" : "days"}`,
};
