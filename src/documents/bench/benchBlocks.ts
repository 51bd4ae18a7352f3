import type { Subject } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";
import { benchHead } from "./benchHead.js";
import { benchCautions } from "./cautions.js";
import { pickList } from "./pickList.js";
import { refit } from "./refit.js";
import { removal } from "./removal.js";
import { testAndSoak, work, workIfFound } from "./work.js";
import { writing } from "./writing.js";

/** All that the bench sheet says, in the order the work goes. */
export const benchBlocks = (subject: Subject): Block[] => [
  ...benchHead(subject),
  ...benchCautions(subject),
  ...pickList(subject),
  ...removal(subject),
  ...work(subject),
  ...workIfFound(subject),
  ...refit(subject),
  ...testAndSoak(subject),
  ...writing(),
];
