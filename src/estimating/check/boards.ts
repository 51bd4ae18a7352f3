/** Counted boards: whole counts, and a standard for each size and mounting. */
import type { Book } from "../book.js";
import type { EstimateInput } from "../input.js";
import { LIMITS, type Problem } from "../problems.js";
import { count } from "./figures.js";
import { checkStandard } from "./map.js";
import { inside, spot } from "./spot.js";

export const checkBoards = ({ boards = [] }: EstimateInput, book: Book): Problem[] =>
  boards.flatMap((row, at) => {
    const here = spot(() => `Boards, ${row.size}, ${row.mounting}`, "boards", at);
    return [...count(row.count, inside(here, ["count"]), LIMITS.boards), ...checkStandard(row, here, book)];
  });
