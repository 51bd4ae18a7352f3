import type { ThreePoint } from "../estimating/input.js";
import { english } from "./english/index.js";
import type { Spoken } from "./tongue.js";

/** 'between LOW and HIGH, most likely LIKELY'. */
export const spread = (time: ThreePoint, locale?: string, { words = english }: Spoken = {}): string =>
  words.lists.spread(time, locale);
