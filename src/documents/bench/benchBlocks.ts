import type { Subject } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";
import { agreedOf, type BenchOptions, notAgreed } from "./agreed.js";
import { benchHead } from "./benchHead.js";
import { benchCautions } from "./cautions.js";
import { pickList } from "./pickList.js";
import { refit } from "./refit.js";
import { removal } from "./removal.js";
import { testAndSoak, work, workIfFound } from "./work.js";
import { writing } from "./writing.js";

/** All that the bench sheet says, in the order the work goes. */
export function benchBlocks(subject: Subject, options: BenchOptions = {}): Block[] {
  const agreed = agreedOf(subject, options);
  return [
    ...benchHead(subject, agreed),
    ...notAgreed(agreed),
    ...benchCautions(subject),
    ...pickList(subject, agreed),
    ...removal(subject, agreed),
    ...work(subject, agreed),
    ...workIfFound(subject, agreed),
    ...refit(subject),
    ...testAndSoak(subject, agreed),
    ...writing(),
  ];
}
