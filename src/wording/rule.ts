import type { Rule } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Spoken } from "./tongue.js";

export const ruleText = (rule: Rule, { words = english }: Spoken = {}): string => words.rules[rule];
