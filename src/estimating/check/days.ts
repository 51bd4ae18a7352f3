import { isDay } from "../day.js";
import type { IsoDate } from "../input.js";
import type { Problem } from "../problems.js";
import { NONE } from "./figures.js";
import { found, type Spot } from "./spot.js";

export const checkDay = (value: IsoDate, at: Spot): readonly Problem[] =>
  isDay(value) ? NONE : [{ name: "date unreadable", value, ...found(at) }];
